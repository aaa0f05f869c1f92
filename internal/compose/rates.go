package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// RatesOfAll tables the rates of all techniques, each drawn on the one line that
// all have in common.
func RatesOfAll(d *Draft, heading, caption string, list []notebook.Spread) {
	if len(list) == 0 {
		return
	}
	most := 0.0
	for i := range list {
		most = max(most, list[i].Most)
	}
	d.Add(document.Heading{Level: 2, Words: heading})
	t := d.Table(caption, document.Words(say.Of("compose.technique")), document.Figures(say.Of("compose.timed")), document.Figures(say.Of("compose.usual")),
		document.Figures(say.Of("compose.quick")), document.Figures(say.Of("compose.slow")), document.Words(say.Of("compose.from-nothing-to", d.rate(most, list[0].Unit))))
	for i := range list {
		s := &list[i]
		t.RowOf(document.Lead(string(s.Technique.Address), s.Technique.Name)).Words(strconv.Itoa(s.Count))
		if s.Known {
			t.Figures(&s.Median, &s.Lower, &s.Upper)
		} else {
			t.Cell(d.timesAlone(s)).Words("", "")
		}
		t.Cell(document.Inline{Draw: func() *drawing.Drawing { return d.spread(s, 0, most) }})
	}
	t.End()
}

// rate prints minutes for a metre or a piece, in one unit.
func (d *Draft) rate(v float64, unit measure.Unit) string {
	words, _ := d.Two(figure.Value{Quantity: measure.Quantity{Number: v, Unit: unit}, Exact: true})
	return words
}

// timesAlone are the times themselves where there are too few for a usual one.
func (d *Draft) timesAlone(s *notebook.Spread) document.Inline {
	words := d.rate(s.Least, s.Unit)
	if s.Most > s.Least {
		words = say.Of("compose.to", d.Style.Number(s.Least, 0), d.rate(s.Most, s.Unit))
	}
	return document.Inline{Words: words, Behind: &document.Behind{Workings: []*figure.Working{&s.Median.Working}}}
}

// spread draws how the times of a technique lie; where they are few, each end alone.
func (d *Draft) spread(s *notebook.Spread, from, to float64) *drawing.Drawing {
	title := say.Of("compose.from-2", d.rangeWords(s), s.Unit.Symbol())
	if !s.Known {
		return draw.Few(s.Least, s.Most, from, to, title)
	}
	return draw.Spread(s.Least, s.Lower.Value.Number, s.Median.Value.Number, s.Upper.Value.Number, s.Most, from, to, title)
}

// CutOfAll tables what was cut for each build, with strips to compare by.
func CutOfAll(d *Draft, r *notebook.RatesPage) {
	if len(r.Builds) == 0 {
		return
	}
	most, widest := 0.0, 0.0
	for i := range r.Builds {
		most = max(most, r.Builds[i].Cut.Value.Number)
		if v := r.Builds[i].Share.Value; v.Known() {
			widest = max(widest, v.Number)
		}
	}
	d.Add(document.Heading{Level: 2, Words: say.Of("compose.cloth")})
	t := d.Table(say.Of("compose.cloth-cut-for-each-garment-all-its"), document.Words(say.Of("compose.name")), document.Words(say.Of("compose.garment")),
		document.Figures(say.Of("compose.area-cut")), document.Words(say.Of("compose.beside-the-largest")), document.Figures(say.Of("compose.allowances")), document.Words(say.Of("compose.beside-the-largest")))
	for i := range r.Builds {
		b := &r.Builds[i]
		t.RowOf(document.Lead(string(b.Address), b.Name)).Words(b.Garment).Figures(&b.Cut).Cell(strip(&b.Cut, most))
		t.Figures(&b.Share).Cell(strip(&b.Share, widest))
	}
	t.End()
	d.earlier(r.More)
}

// strip draws a figure beside others that are as long as they are large.
func strip(f *figure.Figure, most float64) document.Inline {
	if !f.Value.Known() || f.ID == "" {
		return document.Inline{}
	}
	return document.Inline{Draw: func() *drawing.Drawing { return draw.Strip(f.Value.Number / most) }}
}

// earlier says how many more builds there are than are listed.
func (d *Draft) earlier(more int) {
	if more > 0 {
		d.Say(document.Say(say.Of("compose.and-earlier-ones-in", strconv.Itoa(more))), document.Lead(string(notebook.BuildsAddress), say.Of("compose.the-list-of-garments")), document.Say("."))
	}
}

// rangeWords is from the least to the most of what was observed.
func (d *Draft) rangeWords(s *notebook.Spread) string {
	return say.Of("compose.to", d.Style.Number(s.Least, 1), d.Style.Number(s.Most, 1))
}

// Rates tables the spreads of one technique.
func Rates(d *Draft, list []notebook.Spread) {
	if len(list) == 0 {
		return
	}
	from, to := 0.0, 0.0
	for _, s := range list {
		to = max(to, s.Most)
	}
	t := d.Table(say.Of("compose.from-my-own-clock"), document.Words(say.Of("compose.by")), document.Figures(say.Of("compose.timed")), document.Figures(say.Of("compose.usual")),
		document.Figures(say.Of("compose.quick")), document.Figures(say.Of("compose.slow")), document.Words(say.Of("compose.spread")))
	for i := range list {
		s := &list[i]
		t.Row(unitWords(s.Unit)).Words(strconv.Itoa(s.Count))
		if !s.Known {
			t.Cell(d.timesAlone(s))
			continue
		}
		t.Figures(&s.Median)
		t.Figures(&s.Lower, &s.Upper).Cell(document.Inline{Draw: func() *drawing.Drawing { return d.spread(s, from, to) }})
	}
	t.End()
}

func unitWords(u measure.Unit) string {
	switch u {
	case measure.UnitMinPerM:
		return say.Of("compose.metre-of-seam")
	case measure.UnitMinPerPiece:
		return "piece"
	}
	return u.Symbol()
}
