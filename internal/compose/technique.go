package compose

import (
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// Measures tables what a seam type takes from the cloth, in millimetres and
// inches whatever the workroom shows: techniques are read elsewhere too.
func Measures(d *Draft, s *garment.Way) {
	t := d.Table(say.Of("compose.widths-in-the-drawing"), document.Words(say.Of("compose.what")), document.Figures(say.Of("compose.mm")), document.Figures(say.Of("compose.in")), document.Words(say.Of("compose.how")))
	add := func(name string, mm float64, how string) {
		in, _ := measure.Inches(measure.MM(mm))
		t.Row(name).Words(d.Style.Number(mm, 1), strings.TrimSuffix(in, " in"), how)
	}
	for _, par := range s.Type.Parameters {
		if v, ok := s.Measures[par.Name]; ok {
			add(par.Title, v, "")
		}
	}
	a, b, err := s.Type.Allowances(s.Measures)
	if err == nil {
		if s.Type.Gives.B.Given() && a.Value != b.Value {
			add(say.Of("compose.allowance-used-first-edge"), a.Value, a.Working)
			add(say.Of("compose.allowance-used-second-edge"), b.Value, b.Working)
		} else if s.Type.Gives.B.Given() {
			add(say.Of("compose.allowance-used-each-edge"), a.Value, a.Working)
		} else {
			add(say.Of("compose.allowance-used"), a.Value, a.Working)
		}
	}
	if wide, err := s.Type.FinishedWidth(s.Measures); err == nil {
		add(say.Of("compose.finished-width"), wide.Value, wide.Working)
	}
	t.End()
}

// mostBuilds is how many builds a technique or cloth page lists; the list of
// builds has them all.
const mostBuilds = 60

// TechniqueBuilds tables the builds that used a technique.
func TechniqueBuilds(d *Draft, t *notebook.TechniquePage) {
	if len(t.Builds) == 0 {
		return
	}
	tab := d.Table(say.Of("compose.garments-made-with-it"), document.Words(say.Of("compose.name")), document.Words(say.Of("compose.garment")), document.Words(say.Of("compose.begun")),
		document.Figures(say.Of("compose.sewn")), document.Figures(say.Of("compose.took-2"))).Headed()
	for i := range min(len(t.Builds), mostBuilds) {
		b := &t.Builds[i]
		tab.RowOf(document.Lead(string(b.Address), b.Name)).Words(b.Garment, b.Begun.Words()).Figures(&b.Metres, &b.Spent)
	}
	tab.End()
	d.earlier(len(t.Builds) - mostBuilds)
	if len(t.Builds) > 1 {
		sums := []*figure.Figure{&t.Spent}
		if t.Metres.Value.Known() { // buttonholes have none
			sums = append([]*figure.Figure{&t.Metres}, sums...)
		}
		d.Facts(sums...)
	}
}

// ClothBuilds tables the builds that a cloth went into.
func ClothBuilds(d *Draft, c *notebook.ClothPage) {
	if len(c.Builds) == 0 {
		return
	}
	t := d.Table(say.Of("compose.garments-cut-from-it"), document.Words(say.Of("compose.name")), document.Words(say.Of("compose.as")), document.Words(say.Of("compose.garment")),
		document.Words(say.Of("compose.begun")), document.Figures(say.Of("compose.area-cut"))).Headed()
	for i := range min(len(c.Builds), mostBuilds) {
		b := &c.Builds[i]
		t.RowOf(document.Lead(string(b.Address), b.Name)).Words(b.Part, b.Garment, b.Begun.Words()).Figures(&b.Area)
	}
	t.End()
	d.earlier(len(c.Builds) - mostBuilds)
	if len(c.Builds) > 1 {
		d.Facts(&c.Cut)
	}
}

// Ledger tables what came of a cloth, what was cut off, what is on the shelf, and
// what is still to be cut from it.
func Ledger(d *Draft, l *notebook.Ledger) {
	if l == nil {
		return
	}
	t := d.Table(say.Of("compose.on-the-shelf-2"), document.Words(say.Of("compose.day")), document.Words(say.Of("compose.what")), document.Figures(say.Of("compose.came")), document.Figures(say.Of("compose.cut-off")), document.Figures(say.Of("compose.on-the-shelf"))).Headed()
	for i := range l.Rows {
		r := &l.Rows[i]
		t.Row(r.Day.Words())
		if r.For.Address != "" {
			t.Cell(document.Lead(string(r.For.Address), r.For.Name), document.Say(", "+r.What))
		} else {
			t.Words(r.What)
		}
		t.Figures(&r.Came, &r.Cut, &r.Left)
	}
	t.End()
	if len(l.Reserved) > 0 {
		t := d.Table(say.Of("compose.still-to-be-cut-from-it"), document.Words(say.Of("compose.name")), document.Words(say.Of("compose.as")), document.Figures(say.Of("compose.to-have")))
		for i := range l.Reserved {
			b := &l.Reserved[i]
			t.RowOf(document.Lead(string(b.Address), b.Name)).Words(b.Part).Figures(&b.Needed)
		}
		t.End()
	}
	d.Facts(&l.Left, &l.Over)
}

// Remnants tables what is left of a cloth.
func Remnants(d *Draft, c *notebook.ClothPage) {
	if len(c.Remnants) == 0 {
		return
	}
	t := d.Table(say.Of("compose.remnants"), document.Words(say.Of("compose.remnant")), document.Words(say.Of("compose.drawn-2")), document.Figures(say.Of("compose.holds", d.tapeUnit())), document.Figures(say.Of("compose.area")), document.Words(say.Of("compose.note"))).Headed()
	scale := 1.0
	for i := range c.Remnants {
		scale = max(scale, draw.RemnantScale(c.Remnants[i].Outline))
	}
	for i := range c.Remnants {
		r := &c.Remnants[i]
		t.Row(r.Name).Cell(document.Inline{Draw: func() *drawing.Drawing { return draw.Remnant(r.Outline, r.Holes, r.Name, scale, d.Style) }}).Cell(d.within(r.Wide, r.Long)).Figures(&r.Area).Words(r.Note)
	}
	t.End()
}
