package garment

import (
	"math"

	"hembook/internal/measure"
	"hembook/internal/trade"
)

const circle trade.Source = "derived (geometry of the circle)"

// extraFigures tells what a regular form tells of itself (figures 8 and 9).
func (w *work) extraFigures(p *Piece) {
	switch f := &p.form; {
	case f.skirt != nil:
		w.ringFigures(p)
	case f.godet != nil && f.why == "":
		w.godetFigures(p)
	}
}

func (w *work) extra(p *Piece, name, title string, v Value, rule string, source trade.Source) *Figure {
	id := w.join("piece.", p.form.anchor, ".", name)
	p.Extra = append(p.Extra, w.figure(id, title, p.Name, v, rule, source))
	return &p.Extra[len(p.Extra)-1]
}

// ringFigures are the figures of a ring skirt of k turns.
func (w *work) ringFigures(p *Piece) {
	f, r := &p.form, p.form.skirt
	waist, length := f.ring.Waist, f.ring.Length
	k := r.Turns
	p.Extra = make([]Figure, 0, 8)
	turns := func() {
		w.note(Input{Name: "turns", Value: w.n(k).end(), At: f.ring.Turns.At})
	}
	turns()
	w.lengthIn("waist", waist)
	w.mm(r.Waist).s(" ÷ (2π × ").n(k).s(") = ").mm(r.InnerRadius)
	inner := w.ringExtra(p, "inner-radius", "inner radius", inMM(r.InnerRadius), "r = W ÷ 2πk")
	w.figureIn("inner radius", inner).lengthIn("length", length)
	w.mm(r.InnerRadius).s(" + ").mm(r.Length).s(" = ").mm(r.OuterRadius)
	outer := w.ringExtra(p, "outer-radius", "outer radius", inMM(r.OuterRadius), "R = r + L")
	turns()
	w.figureIn("outer radius", outer)
	w.s("2π × ").n(k).s(" × ").mm(r.OuterRadius).s(" = ").mm(r.Hem)
	w.ringExtra(p, "hem", "hem, all round", inMM(r.Hem), "hem = 2πk(r + L)")
	turns()
	w.figureIn("inner radius", inner).figureIn("outer radius", outer)
	w.s("π × ").n(k).s(" × (").n(r.OuterRadius).s("² − ").n(r.InnerRadius).s("²) = ").n(r.Area / 1e6).s(" m²")
	w.ringExtra(p, "ring-area", "area of the ring, all panels", inM2(r.Area), "area = πk((r + L)² − r²)")
	turns()
	degrees := r.PanelAngle * 180 / math.Pi
	w.s("360° × ").n(k).s(" ÷ ").i(r.Panels).s(" = ").n(degrees).s("°")
	w.ringExtra(p, "panel-angle", "angle of a panel", valueIn(degrees, measure.UnitDegree), "360° × k ÷ panels")
	w.panelFigure(p)
}

func (w *work) ringExtra(p *Piece, name, title string, v Value, rule string) *Figure {
	return w.extra(p, name, title, v, rule, circle)
}

// panelFigure tells how many panels there are and why.
func (w *work) panelFigure(p *Piece) {
	f, r := &p.form, p.form.skirt
	cloth := w.clothOf(p)
	switch {
	case f.ring.Panels.Given():
		w.note(Input{Name: "panels", Value: w.i(r.Panels).end(), At: f.ring.Panels.At})
		w.i(r.Panels).s(" panels, as written")
		w.extra(p, "panels", "panels", counted(r.Panels), "as the record says", recorded)
	case f.cut.Given() && f.cut.V.N > 1:
		w.note(Input{Name: "cut", Value: w.i(r.Panels).end(), At: f.cut.At})
		w.i(r.Panels).s(" panels, as many as are cut")
		w.extra(p, "panels", "panels", counted(r.Panels), "as many as the record says are cut", recorded)
	case cloth == nil:
		w.i(r.Panels).s(" panels: the cloth's width is not known")
		w.extra(p, "panels", "panels", counted(r.Panels), "fewest panels that leave room for allowances", circle)
	default:
		w.lengthIn("width of the cloth", cloth.Width)
		w.figureIn("width of a panel as cut", &p.Width)
		w.i(r.Panels).s(" panels, ").mm(p.Width.Value.Number).s(" wide ≤ ").mm(usableWidth(cloth)).s(" usable")
		w.extra(p, "panels", "panels", counted(r.Panels),
			"fewest equal panels whose width as cut is at most the usable width: cloth width × (1 − shrink across) − both selvedges", circle)
	}
}

// godetFigures are the figures of a godet of radius ρ and angle φ.
func (w *work) godetFigures(p *Piece) {
	g := p.form.godet
	hem := p.edgeCalled("hem")
	if hem == nil {
		return
	}
	height := g.Height.V.MM()
	var angle float64
	if g.Hem.Given() {
		angle = g.Hem.V.MM() / height * 180 / math.Pi
		w.lengthIn("hem", g.Hem).lengthIn("height", g.Height)
		w.mm(g.Hem.V.MM()).s(" ÷ ").mm(height).s(" × 180° ÷ π = ").n(angle).s("°")
		w.ringExtra(p, "angle", "angle of the godet", valueIn(angle, measure.UnitDegree), "φ = hem ÷ ρ")
	} else {
		angle = g.Angle.V
		w.note(Input{Name: "angle", Value: w.n(angle).s("°").end(), At: g.Angle.At})
		w.n(angle).s("°")
		w.extra(p, "angle", "angle of the godet", valueIn(angle, measure.UnitDegree), "as the record says", recorded)
	}
	arc := height * angle * math.Pi / 180
	w.figureIn("angle", &p.Extra[0]).lengthIn("height", g.Height)
	w.mm(height).s(" × ").n(angle).s("° × π ÷ 180° = ").mm(arc)
	w.ringExtra(p, "adds", "what it adds to the hem", inMM(arc), "ρφ: height × angle in radians")
	chord := 2 * height * math.Sin(angle*math.Pi/360)
	w.figureIn("angle", &p.Extra[0]).lengthIn("height", g.Height)
	w.s("2 × ").mm(height).s(" × sin(").n(angle).s("° ÷ 2) = ").mm(chord)
	w.ringExtra(p, "chord", "straight across its hem", inMM(chord), "2ρ sin(φ ÷ 2)")
}
