package shape

import "math"

// PointAt returns the point s millimetres along edge i and the direction
// in which the edge runs there, of length 1. A distance before the edge or
// beyond it gives the edge's end.
func (o Outline) PointAt(i int, s float64) (at, along Point) {
	c := o.cubic(i)
	if !o.Edges[i].Curved {
		t := clamp(s/distance(c[0], c[3]), 0, 1)
		return lerp(c[0], c[3], t), unit(c[3].Sub(c[0]))
	}
	t := c.parameter(s)
	return c.at(t), c.direction(t)
}

// PointOn is [Outline.PointAt] for a named edge with all its parts; false
// when the outline has no such edge.
func (o Outline) PointOn(name string, s float64) (at, along Point, ok bool) {
	side, ok := o.span(name)
	if !ok {
		return Point{}, Point{}, false
	}
	for k := range side.Count {
		i := (side.First + k) % len(o.Edges)
		length := o.EdgeLength(i)
		if !(s > length) || k == side.Count-1 {
			at, along = o.PointAt(i, s)
			break
		}
		s -= length
	}
	return at, along, true
}

// parameter is [cubic.atLength] with the ends kept exact.
func (c cubic) parameter(s float64) float64 {
	switch {
	case !(s > 0):
		return 0
	case s >= c.length():
		return 1
	}
	return c.atLength(s)
}

// direction is the unit tangent at t; where the curve stands still, that
// of the short stretch about it.
func (c cubic) direction(t float64) Point {
	if v := c.velocity(t); dot(v, v) > 1e-12 {
		return unit(v)
	}
	const step = 1e-4
	return unit(c.at(min(t+step, 1)).Sub(c.at(max(t-step, 0))))
}

// Split returns the outline with edge i cut in two, s millimetres from its
// beginning; the parts are named first and second. A distance outside the
// edge leaves the outline as it is.
func (o Outline) Split(i int, s float64, first, second string) Outline {
	if !(s > 0 && s < o.EdgeLength(i)) {
		return o
	}
	e := o.Edges[i]
	one, two := e, e
	one.Name, two.Name = first, second
	if c := o.cubic(i); e.Curved {
		a, b := c.split(c.parameter(s))
		one.C1, one.C2, one.To = a[1], a[2], a[3]
		two.C1, two.C2 = b[1], b[2]
	} else {
		one.To, _ = o.PointAt(i, s)
	}
	edges := make([]Edge, 0, len(o.Edges)+1)
	edges = append(edges, o.Edges[:i]...)
	edges = append(edges, one, two)
	return Outline{From: o.From, Edges: append(edges, o.Edges[i+1:]...)}
}

// Contains reports whether p lies inside the outline, curves followed
// within a hundredth of a millimetre.
func (o Outline) Contains(p Point) bool {
	ring, _ := o.Flatten(faultTolerance)
	return ring.Contains(p)
}

func unit(p Point) Point {
	length := math.Sqrt(dot(p, p))
	if !(length > 0) {
		return Point{}
	}
	return Point{p.X / length, p.Y / length}
}

// clamp returns v kept between lo and hi, and lo for what is no number.
func clamp(v, lo, hi float64) float64 {
	if !(v > lo) {
		return lo
	}
	return min(v, hi)
}
