package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

const circle trade.Source = "derived (geometry of the circle)"

// extraFigures tells what a regular form tells of itself (figures 8 and 9).
func (w *derivation) extraFigures(p *Piece) {
	switch f := &p.form; {
	case f.skirt != nil:
		w.ringFigures(p)
	case f.godet != nil && f.why == "":
		w.godetFigures(p)
	case p.Record.Band != nil:
		w.bandFigures(p)
	}
}

func (w *derivation) extra(p *Piece, name, title string, t figure.Term, u measure.Unit, rule string, source trade.Source) *figure.Figure {
	id := w.Join("piece.", p.form.anchor, ".", name)
	p.Extra = append(p.Extra, w.Figure(id, title, p.Name, t, u, rule, source))
	return &p.Extra[len(p.Extra)-1]
}

// ringFigures are the figures of a ring skirt of k turns.
func (w *derivation) ringFigures(p *Piece) {
	f, r := &p.form, p.form.skirt
	p.Extra = make([]figure.Figure, 0, 8)
	k := func() figure.Term { return w.Written("turns", r.Turns, measure.UnitCount, f.ring.Turns.At) }
	turn := func() figure.Term { return w.Number(2).Times(w.Pi()).Times(k()) }
	made := func(name, title string, t figure.Term, u measure.Unit, rule string) *figure.Figure {
		return w.extra(p, name, title, t, u, rule, circle)
	}
	inner := made("inner-radius", say.Of("garment.inner-radius"), w.Length("waist", f.ring.Waist).Over(turn()), mm, "r = W ÷ 2πk")
	outer := made("outer-radius", say.Of("garment.outer-radius"), w.Of(say.Of("garment.inner-radius"), inner).Plus(w.Length("length", f.ring.Length)), mm, "R = r + L")
	made("hem", say.Of("garment.hem-all-round"), turn().Times(w.Of(say.Of("garment.outer-radius"), outer)), mm, say.Of("garment.hem-2-k-r-l"))
	area := w.Of(say.Of("garment.outer-radius"), outer).Squared().Minus(w.Of(say.Of("garment.inner-radius"), inner).Squared())
	made("ring-area", say.Of("garment.area-of-all-panels"), w.Pi().Times(k()).Times(area), measure.UnitM2, say.Of("garment.area-k-r-l-r"))
	made("panel-angle", say.Of("garment.angle-of-a-panel"), w.Constant(360, measure.UnitDegree).Times(k()).Part(float64(r.Panels)), measure.UnitDegree, say.Of("garment.360-times-k-by-panels"))
	w.panelFigure(p)
}

// panelFigure tells how many panels there are and why.
func (w *derivation) panelFigure(p *Piece) {
	f, r := &p.form, p.form.skirt
	cloth := w.clothOf(p)
	panels := func(t figure.Term, rule string, source trade.Source) {
		w.extra(p, "panels", "panels", t, measure.UnitCount, rule, source)
	}
	n := float64(r.Panels)
	switch {
	case f.ring.Panels.Given():
		panels(w.Written("panels", n, measure.UnitCount, f.ring.Panels.At), say.Of("garment.as-the-record-says"), figure.Recorded)
	case f.cut.Given() && f.cut.V.N > 1:
		panels(w.Written("cut", n, measure.UnitCount, f.cut.At), say.Of("garment.as-many-as-the-record-says-are"), figure.Recorded)
	case cloth == nil:
		panels(w.Found(say.Of("garment.as-many-as-leave-room-for-allowances"), n, measure.UnitCount), say.Of("garment.fewest-panels-that-leave-room-for"), circle)
	default:
		w.Note(w.Length(say.Of("garment.width-of-the-cloth"), cloth.Width), w.Of(say.Of("garment.width-of-a-panel-as-cut"), &p.Width))
		panels(w.Found(say.Of("garment.fewest-whose-width-as-cut-is-at"), n, measure.UnitCount),
			say.Of("garment.fewest-equal-panels-whose-width-as-cut"), circle)
	}
}

// godetFigures are the figures of a godet of radius ρ and angle φ.
func (w *derivation) godetFigures(p *Piece) {
	g := p.form.godet
	if p.edgeCalled("hem") == nil {
		return
	}
	half := w.Constant(180, measure.UnitDegree)
	height := func() figure.Term { return w.Length("height", g.Height) }
	if g.Hem.Given() {
		w.extra(p, "angle", say.Of("garment.angle-of-the-godet"), w.Length("hem", g.Hem).Over(height()).Times(half).Over(w.Pi()), measure.UnitDegree, say.Of("garment.hem-by"), circle)
	} else {
		w.extra(p, "angle", say.Of("garment.angle-of-the-godet"), w.Written("angle", g.Angle.V, measure.UnitDegree, g.Angle.At), measure.UnitDegree, say.Of("garment.as-the-record-says"), figure.Recorded)
	}
	angle := func() figure.Term { return w.Of("angle", &p.Extra[0]) }
	w.extra(p, "adds", say.Of("garment.what-it-adds-to-the-hem"), height().Times(angle()).Times(w.Pi()).Over(half), mm, say.Of("garment.height-times-angle-in-radians"), circle)
	w.extra(p, "chord", say.Of("garment.straight-across-its-hem"), w.Number(2).Times(height()).Times(angle().Part(2).Sine()), mm, say.Of("garment.2-sin-by-2"), circle)
}
