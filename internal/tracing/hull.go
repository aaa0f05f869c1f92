package tracing

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/shape"
)

// hullBox is the box about the middles of cards.
func hullBox(lies []lie) (least, most shape.Point) {
	least, most = shape.Point{X: math.Inf(1), Y: math.Inf(1)}, shape.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, l := range lies {
		least.X, least.Y, most.X, most.Y = min(least.X, l.X), min(least.Y, l.Y), max(most.X, l.X), max(most.Y, l.Y)
	}
	return least, most
}

// hullOf is the line round the middles of all cards, against the clock (A. M. Andrew,
// "Another efficient algorithm for convex hulls in two dimensions", 1979).
func hullOf(lies []lie) []shape.Point {
	var at []shape.Point
	for _, l := range lies {
		at = append(at, shape.Point{X: l.X, Y: l.Y})
	}
	slices.SortFunc(at, func(a, b shape.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	half := func() (out []shape.Point) {
		for _, p := range at {
			for len(out) > 1 && cross(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	low := half()
	slices.Reverse(at)
	return append(low, half()...)
}

// cross is twice the area of a triangle, positive against the clock.
func cross(a, b, c shape.Point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

// within reports whether a point lies in a hull.
func within(hull []shape.Point, p shape.Point) bool { return beyond(hull, p) <= 0 }

// beyond is how far a point lies outside a hull, in millimetres; less than 0 inside.
func beyond(hull []shape.Point, p shape.Point) float64 {
	most := math.Inf(-1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		most = max(most, -cross(a, b, p)/max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9))
	}
	return most
}
