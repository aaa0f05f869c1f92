package garment

import (
	"math"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// darts plans the darts of a piece and faults those that cannot be.
func (w *derivation) darts(p *Piece) {
	f := &p.form
	for i := range f.darts {
		d := &f.darts[i]
		e := p.edgeCalled(d.Edge.V)
		if e == nil || !d.Along.Given() || !d.Width.Given() || d.Length.Given() == d.Point.Given() {
			continue
		}
		at := d.Along.V.MM()
		if f.reversed {
			at = e.Length.Value.Number - at
		}
		length := d.Length.V.MM()
		if d.Point.Given() {
			length = 1 // until its point is set
		}
		plan, err := planDart(p, e, at, d.Width.V.MM(), length)
		if d.Point.Given() {
			plan = plan.WithPoint(p.Outline, point(d.Point.V))
		}
		if err != nil {
			w.faults.Wrong(d.At, "", say.Of("garment.the-dart-on-cannot-be-drawn", e.ref, err))
			continue
		}
		if p.own(len(p.Record.Darts) > 0) {
			w.dartFaults(p, e, d, plan)
		}
		p.Darts = append(p.Darts, PieceDart{Record: d, Plan: plan, Leg: w.leg(p, e, d, plan, len(p.Darts)+1)})
	}
}

func (w *derivation) dartFaults(p *Piece, e *PieceEdge, d *record.DartSpec, plan shape.DartPlan) {
	switch half := d.Width.V.MM() / 2; {
	case !plan.Fits:
		w.faults.Wrong(d.At, say.Of("garment.move-it-along-the-edge-or-make"), say.Of("garment.the-dart-opens-from-to-along-which", w.tape().About(d.Along.V.MM()-half), w.tape().About(d.Along.V.MM()+half), e.ref, w.tape().About(e.Length.Value.Number)))
	case !plan.Inside:
		w.faults.Wrong(d.At, say.Of("garment.make-it-shorter-or-move-it-along"), say.Of("garment.the-dart-on-is-longer-than-the", e.ref))
	}
	for _, other := range p.Darts {
		if other.Record.Edge.V != d.Edge.V {
			continue
		}
		if gap := d.Along.V.MM() - other.Record.Along.V.MM(); max(gap, -gap) < (d.Width.V.MM()+other.Record.Width.V.MM())/2-1e-6 {
			w.faults.Wrong(d.At, say.Of("garment.move-one-of-them-along-the-edge"), say.Of("garment.two-darts-on-overlap-the-other-is", e.ref, other.Record.At.Line))
		}
	}
}

func (w *derivation) leg(p *Piece, e *PieceEdge, d *record.DartSpec, plan shape.DartPlan, n int) figure.Figure {
	id := w.Join("piece.", p.form.anchor, ".dart-", strconv.Itoa(n), ".leg")
	title := say.Of("garment.leg-of-the-dart")
	if d.Point.Given() {
		w.Note(w.Length("width", d.Width)).Remark(figure.Written, "point", w.point(plan.Point), d.Point.At, "")
		t := w.Apart(plan.Begin.X, plan.Begin.Y, plan.Point.X, plan.Point.Y)
		return w.Figure(id, title, e.ref, t, mm, say.Of("garment.from-where-the-dart-begins-on-its"), figure.Derived)
	}
	t := w.Length("width", d.Width).Part(2).Squared().Plus(w.Length("length", d.Length).Squared()).Root()
	return w.Figure(id, title, e.ref, t, mm, say.Of("garment.width-by-2-length"), figure.Derived)
}

// planDart is [shape.Dart.Plan] without measuring the whole outline anew: the
// lengths of the edges are known by now.
func planDart(p *Piece, e *PieceEdge, at, width, length float64) (shape.DartPlan, error) {
	next := p.Edges[(e.index()+1)%len(p.Edges)].Index
	if (e.Index+1)%len(p.Outline.Edges) != next%len(p.Outline.Edges) || !(width > 1e-3 && length > 1e-3) {
		return shape.Dart{Edge: e.Name, At: at, Width: width, Length: length}.Plan(p.Outline)
	}
	const touch = 1e-6
	from, to := at-width/2, at+width/2
	plan := shape.DartPlan{Intake: width, Fits: from >= -touch && to <= e.Length.Value.Number+touch}
	plan.Begin, _ = p.Outline.PointAt(e.Index, from)
	plan.End, _ = p.Outline.PointAt(e.Index, to)
	mouth := plan.End.Sub(plan.Begin)
	size := math.Sqrt(float64(mouth.X*mouth.X) + float64(mouth.Y*mouth.Y))
	if !(size > 0) {
		return plan, nil
	}
	plan.Point = shape.Point{
		X: plan.Begin.X + float64(mouth.X*0.5) - float64(mouth.Y*(length/size)),
		Y: plan.Begin.Y + float64(mouth.Y*0.5) + float64(mouth.X*(length/size)),
	}
	plan.Leg = math.Sqrt(float64(size*size)/4 + float64(length*length))
	for _, s := range p.Outline.WidthsAt(plan.Point.Y) {
		plan.Inside = plan.Inside || s.From < plan.Point.X && plan.Point.X < s.To
	}
	return plan, nil
}

// index is the edge's index among its piece's edges.
func (e *PieceEdge) index() int {
	for k := range e.piece.Edges {
		if &e.piece.Edges[k] == e {
			return k
		}
	}
	return 0
}
