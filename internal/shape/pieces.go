package shape

import (
	"errors"
	"math"

	"hembook/internal/say"
)

// Rectangle returns an upright rectangle x millimetres across and y along
// the grain, its lower left corner at the origin; the edges are named
// bottom, right, top and left.
func Rectangle(x, y float64) (Outline, error) {
	if err := positive("width", x, "height", y); err != nil {
		return Outline{}, err
	}
	return fourSided(Point{0, 0}, Point{x, 0}, Point{x, y}, Point{0, y}), nil
}

// Trapezoid returns a piece with level bottom and top edges, centred over
// each other, the lower left corner at the origin; the edges are named
// bottom, right, top and left. Lengths in millimetres.
func Trapezoid(bottom, top, height float64) (Outline, error) {
	if err := positive("bottom", bottom, "top", top, "height", height); err != nil {
		return Outline{}, err
	}
	inset := (bottom - top) / 2
	return fourSided(Point{0, 0}, Point{bottom, 0}, Point{bottom - inset, height}, Point{inset, height}), nil
}

func fourSided(a, b, c, d Point) Outline {
	return Outline{From: a, Edges: []Edge{
		{Name: "bottom", To: b}, {Name: "right", To: c}, {Name: "top", To: d}, {Name: "left", To: a},
	}}
}

// positive checks pairs of a name and a length: each must be a number
// above nought and within reach.
func positive(pairs ...any) error {
	for i := 0; i < len(pairs); i += 2 {
		name, v := pairs[i], pairs[i+1].(float64)
		switch {
		case math.IsNaN(v):
			return errors.New(say.Of("shape.the-is-not-a-number", name))
		case v > reach:
			return errors.New(say.Of("shape.the-is-more-than-m", name, reach/1000))
		case !(v >= leastStep):
			return errors.New(say.Of("shape.the-must-be-more-than-nought-not", name, v))
		}
	}
	return nil
}
