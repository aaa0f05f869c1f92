package shape

import (
	"errors"
	"math"

	"hembook/internal/say"
)

// A Dart takes Width millimetres out of an edge, centred At millimetres
// from the edge's beginning, and vanishes Length millimetres inside the
// piece.
type Dart struct {
	Edge              string
	At, Width, Length float64
}

// A DartPlan is where a dart lies on a piece. Begin and End are its legs'
// ends on the edge, Point where they meet; lengths in millimetres.
type DartPlan struct {
	Begin, End, Point Point
	Leg               float64 // either leg; they are equal
	Intake            float64 // length it takes from the edge, along the edge
	Fits              bool    // both legs start on the edge
	Inside            bool    // the point lies inside the piece
}

// Plan works out the dart on an outline that runs counter-clockwise. The
// point lies square to the line between the legs' ends, so that the legs
// are equal on a curved edge too. It fails when the outline has no such
// edge or a size is not a length; a dart that does not fit is answered by
// Fits and Inside.
func (d Dart) Plan(o Outline) (DartPlan, error) {
	if err := positive("dart's width", d.Width, "dart's length", d.Length); err != nil {
		return DartPlan{}, err
	}
	side, ok := o.Side(d.Edge)
	if !ok {
		return DartPlan{}, errors.New(say.Of("shape.the-outline-has-no-edge-for-the", say.Quoted(d.Edge)))
	}
	from, to := d.At-d.Width/2, d.At+d.Width/2
	p := DartPlan{Intake: d.Width, Fits: from >= -touch && to <= side.Length+touch}
	p.Begin, _, _ = o.PointOn(d.Edge, from)
	p.End, _, _ = o.PointOn(d.Edge, to)
	mouth := p.End.Sub(p.Begin)
	p.Point = lerp(p.Begin, p.End, 0.5).Add(unit(mouth).left().times(d.Length))
	p.Leg = math.Sqrt(dot(mouth, mouth)/4 + d.Length*d.Length)
	p.Inside = o.Contains(p.Point)
	return p, nil
}

// WithPoint returns the plan with its point where it was drawn, so that its
// legs may differ; Leg is then the one at its beginning.
func (p DartPlan) WithPoint(o Outline, at Point) DartPlan {
	p.Point = at
	p.Leg, _ = p.Legs()
	p.Inside = o.Contains(at)
	return p
}

// Legs returns the lengths of both legs in millimetres.
func (p DartPlan) Legs() (begin, end float64) {
	return distance(p.Begin, p.Point), distance(p.End, p.Point)
}
