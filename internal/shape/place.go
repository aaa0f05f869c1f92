package shape

import (
	"math"
)

// PointAt returns the point s millimetres along edge i and the direction
// in which the edge runs there, of length 1. A distance before the edge or
// beyond it gives the edge's end.
func (o Outline) PointAt(i int, s float64) (at, along Point) {
	g := o.gauge(i)
	return g.place(s)
}

// PointOn is [Outline.PointAt] for a named edge with all its parts; false
// when the outline has no such edge.
func (o Outline) PointOn(name string, s float64) (at, along Point, ok bool) {
	ok = o.eachOn(name, []float64{s}, func(_ int, p, dir Point) { at, along = p, dir })
	return at, along, ok
}

// PointsOn returns the points that lie so many millimetres along a named edge,
// as [Outline.PointOn] does one by one, measuring the edge once; nil when the
// outline has no such edge.
func (o Outline) PointsOn(name string, distances []float64) []Point {
	out := make([]Point, len(distances))
	if !o.eachOn(name, distances, func(k int, p, _ Point) { out[k] = p }) {
		return nil
	}
	return out
}

// eachOn tells where each of the distances along a named edge lies.
func (o Outline) eachOn(name string, distances []float64, tell func(k int, at, along Point)) bool {
	side, ok := o.span(name)
	if !ok {
		return false
	}
	var room [16]float64
	left := append(room[:0], distances...) // what is left of each on the part looked at
	for k, s := range left {
		left[k] = max(s, 0)
	}
	for part := range side.Count {
		g := o.gauge((side.First + part) % len(o.Edges))
		for k, s := range left {
			switch {
			case s < 0: // found on an earlier part
			case s > g.length && part < side.Count-1:
				left[k] -= g.length
			default:
				at, along := g.place(s)
				tell(k, at, along)
				left[k] = -1
			}
		}
	}
	return true
}

// A gauge measures along one edge, straight or curved.
type gauge struct {
	curve  cubic
	ruler  *ruler // nil for a straight edge
	length float64
}

func (o Outline) gauge(i int) gauge {
	g := gauge{curve: o.cubic(i)}
	if o.Edges[i].Curved {
		g.ruler = g.curve.ruler()
		g.length = g.ruler.length()
	} else {
		g.length = distance(g.curve[0], g.curve[3])
	}
	return g
}

// place is the point s millimetres along and the direction there.
func (g *gauge) place(s float64) (at, along Point) {
	c := &g.curve
	if g.ruler == nil {
		t := clamp(s/g.length, 0, 1)
		return lerp(c[0], c[3], t), unit(c[3].Sub(c[0]))
	}
	t := g.ruler.parameter(s)
	return c.at(t), c.direction(t)
}

// Directions returns the directions, of length 1, in which edge i leaves its
// first point and arrives at its last.
func (o Outline) Directions(i int) (leaves, arrives Point) {
	c := o.cubic(i)
	if !o.Edges[i].Curved {
		d := unit(c[3].Sub(c[0]))
		return d, d
	}
	return c.direction(0), c.direction(1)
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
		a, b := c.split(c.ruler().parameter(s))
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
	ring, _ := o.Flatten(flawTolerance)
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
