package compose

import (
	"cmp"
	"slices"
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// RatesOfAll draws the rates of all techniques side by side and tables them.
func RatesOfAll(d *Draft, heading, caption string, list []notebook.Spread) {
	if len(list) == 0 {
		return
	}
	var strips []draw.Strip
	for i := range list {
		if s := &list[i]; s.Known {
			one := d.strip(s.Technique.Name, &s.Median)
			one.Lower, one.Upper = s.Lower.Value.Number, s.Upper.Value.Number
			strips = append(strips, one)
		}
	}
	slices.SortStableFunc(strips, func(a, b draw.Strip) int { return cmp.Compare(b.Long, a.Long) })
	table := d.Within(func() {
		t := d.Table(caption, document.Words("technique"), document.Figures("timed"), document.Figures("usual"),
			document.Figures("quick"), document.Figures("slow"), document.Figures("fastest to slowest, "+list[0].Unit.Symbol()))
		for i := range list {
			s := &list[i]
			t.RowOf(document.Lead(string(s.Technique.Address), s.Technique.Name)).Words(strconv.Itoa(s.Count)).Figures(&s.Median)
			if s.Known {
				t.Figures(&s.Lower, &s.Upper).Cell(document.As(document.Measured, d.rangeWords(s)))
			}
		}
		t.End()
	})
	d.Add(document.Heading{Level: 2, Words: heading},
		document.Columns{Of: [][]document.Block{{stripsDrawn(strips, caption+": usual, and from quick to slow")}, table}})
}

// CutOfAll draws and tables what was cut for each build.
func CutOfAll(d *Draft, r *notebook.RatesPage) {
	if len(r.Builds) == 0 {
		return
	}
	var cut, share []draw.Strip
	for i := range r.Builds {
		b := &r.Builds[i]
		cut = append(cut, d.strip(b.Name, &b.Cut))
		if b.Share.Value.Known() {
			share = append(share, d.strip(b.Name, &b.Share))
		}
	}
	d.Add(document.Heading{Level: 2, Words: "Cloth"}, document.Columns{Of: [][]document.Block{
		{stripsDrawn(cut, "Cloth cut for each garment, all its cloths together")},
		{stripsDrawn(share, "How much of it is allowances")}}})
	t := d.Table("Cloth cut and its allowances, by garment", document.Words("name"), document.Words("garment"), document.Figures("area cut"), document.Figures("allowances"))
	for i := range r.Builds {
		b := &r.Builds[i]
		t.RowOf(document.Lead(string(b.Address), b.Name)).Words(b.Garment).Figures(&b.Cut, &b.Share)
	}
	t.End()
	d.earlier(r.More)
}

// earlier says how many more builds there are than are listed.
func (d *Draft) earlier(more int) {
	if more > 0 {
		d.Say(document.Say("and "+strconv.Itoa(more)+" earlier ones, in "), document.Lead(string(notebook.BuildsAddress), "the list of garments"), document.Say("."))
	}
}

// strip is a figure to be drawn beside others; its value in one unit only,
// since a strip has one length.
func (d *Draft) strip(name string, f *figure.Figure) draw.Strip {
	value, _ := d.Two(f.Value)
	return draw.Strip{Name: name, Value: value, Long: f.Value.Number}
}

func stripsDrawn(list []draw.Strip, title string) document.Sketch {
	return document.Sketch{Draw: func() *drawing.Drawing { return draw.Strips(list, title) }, Caption: title}
}

// rangeWords is from the least to the most of what was observed.
func (d *Draft) rangeWords(s *notebook.Spread) string {
	return d.Style.Number(s.Least, 1) + " to " + d.Style.Number(s.Most, 1)
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
	t := d.Table("From my own clock", document.Words("by"), document.Figures("timed"), document.Figures("usual"),
		document.Figures("quick"), document.Figures("slow"), document.Words("spread"))
	for i := range list {
		s := &list[i]
		t.Row(unitWords(s.Unit)).Words(strconv.Itoa(s.Count)).Figures(&s.Median)
		if !s.Known {
			continue
		}
		t.Figures(&s.Lower, &s.Upper).Cell(document.Inline{Draw: func() *drawing.Drawing {
			title := "from " + d.rangeWords(s) + " " + s.Unit.Symbol()
			return draw.Spread(s.Least, s.Lower.Value.Number, s.Median.Value.Number, s.Upper.Value.Number, s.Most, from, to, title)
		}})
	}
	t.End()
}

func unitWords(u measure.Unit) string {
	switch u {
	case measure.UnitMinPerM:
		return "metre of seam"
	case measure.UnitMinPerPiece:
		return "piece"
	}
	return u.Symbol()
}
