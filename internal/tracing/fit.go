package tracing

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// mostOff is how far the rim may stray from the curve drawn along it, in millimetres, but
// for a fiftieth of its points, and mostCurves how many curves one edge may take.
const (
	mostOff    = 0.4
	mostCurves = 5
	fitRounds  = 60 // it draws nearer slowly
)

// fit draws as few curves along an edge as come near enough to its points.
func (e *edgeFound) fit() {
	if e.straight {
		e.curves = []cubic{straightCubic(e.from, e.to)}
		e.off = offLine(e.points, e.from, e.to)
		return
	}
	best := math.Inf(1)
	for n := 1; n <= mostCurves; n++ {
		curves, most, off := fitSome(e.points, e.from, e.to, n)
		if most < best {
			best, e.curves, e.off = most, curves, off
		}
		if most < mostOff {
			return
		}
	}
}

func offLine(at []shape.Point, a, b shape.Point) float64 {
	sum, long := 0.0, math.Hypot(b.X-a.X, b.Y-a.Y)
	for _, p := range at {
		d := cross(a, b, p) / max(long, 1e-9)
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(at)))
}

// fitSome draws n curves along points, joined smoothly at even distances. most is how far
// all but a fiftieth of the points stray at most, off their root mean square.
func fitSome(at []shape.Point, from, to shape.Point, n int) (out []cubic, most, off float64) {
	if len(at) < 4*n {
		return []cubic{straightCubic(from, to)}, math.Inf(1), math.Inf(1)
	}
	far := lengths(at, from, to)
	long := far[len(far)-1]
	var joints, ways []shape.Point
	cuts := []int{0}
	for k := 1; k < n; k++ {
		i, _ := slices.BinarySearch(far, long*float64(k)/float64(n))
		p, way := jointAt(at, far, min(max(i-1, 0), len(at)-1))
		joints, ways = append(joints, p), append(ways, way)
		cuts = append(cuts, min(max(i-1, 0), len(at)-1))
	}
	cuts = append(cuts, len(at))
	var strays []float64
	for k := range n {
		a, b := from, to
		var aw, bw *shape.Point
		if k > 0 {
			a, aw = joints[k-1], &ways[k-1]
		}
		if k < n-1 {
			b, bw = joints[k], &ways[k]
		}
		c, stray := fitOne(at[cuts[k]:max(cuts[k+1], cuts[k]+2)], a, b, aw, bw)
		out, strays = append(out, c), append(strays, stray...)
	}
	slices.Sort(strays)
	for _, s := range strays {
		off += s * s / float64(len(strays))
	}
	return out, strays[len(strays)*98/100], math.Sqrt(off)
}

// lengths are how far along the line through points each lies, from its beginning, and
// last its end.
func lengths(at []shape.Point, from, to shape.Point) []float64 {
	out, sum, last := make([]float64, 0, len(at)+1), 0.0, from
	for _, p := range append(slices.Clip(at), to) {
		sum += math.Hypot(p.X-last.X, p.Y-last.Y)
		out, last = append(out, sum), p
	}
	return out
}

// jointAt is where two curves join near a point, and their way there, of length 1.
func jointAt(at []shape.Point, far []float64, i int) (p, way shape.Point) {
	var about []told
	for k := max(i-12, 0); k <= min(i+12, len(at)-1); k++ {
		about = append(about, told{far[k] - far[i], at[k]})
	}
	b := curveThrough(about)
	long := max(math.Hypot(b.v.X, b.v.Y), 1e-9)
	return b.p, shape.Point{X: b.v.X / long, Y: b.v.Y / long}
}

// fitOne draws one curve along points from a to b by least squares, along given ways at
// its ends where there are any (after P. Schneider, "An algorithm for automatically
// fitting digitized curves", Graphics Gems, 1990: places along the curve are found anew
// after each fit). strays are how far each point lies from it.
func fitOne(at []shape.Point, a, b shape.Point, aw, bw *shape.Point) (c cubic, strays []float64) {
	far := lengths(at, a, b)
	ts := make([]float64, len(at))
	for i := range at {
		ts[i] = far[i] / max(far[len(far)-1], 1e-9)
	}
	for round := range fitRounds {
		c = leastCubic(at, ts, a, b, aw, bw)
		if round == fitRounds-1 {
			break
		}
		for i, p := range at {
			ts[i] = nearerT(c, p, ts[i])
		}
	}
	for i, p := range at {
		q := c.at(ts[i])
		strays = append(strays, math.Hypot(p.X-q.X, p.Y-q.Y))
	}
	return c, strays
}

// nearerT is where along a curve it is nearer to a point, one step of Newton's method on.
func nearerT(c cubic, p shape.Point, t float64) float64 {
	q, v := c.at(t), c.way(t)
	along := (p.X-q.X)*v.X + (p.Y-q.Y)*v.Y
	return min(max(t+along/max(v.X*v.X+v.Y*v.Y, 1e-9), 0), 1)
}

// leastCubic is the curve from a to b nearest to points at given places along it. Where
// its way at an end is given only how far its control point lies along that is free.
func leastCubic(at []shape.Point, ts []float64, a, b shape.Point, aw, bw *shape.Point) cubic {
	// Unknowns: the control points, x and y of each, or the distance along a way.
	type unknown struct {
		first bool
		way   shape.Point
	}
	var us []unknown
	add := func(first bool, way *shape.Point, sign float64) {
		if way != nil {
			us = append(us, unknown{first, shape.Point{X: sign * way.X, Y: sign * way.Y}})
			return
		}
		us = append(us, unknown{first, shape.Point{X: 1}}, unknown{first, shape.Point{Y: 1}})
	}
	add(true, aw, 1)
	add(false, bw, -1)
	m := make([][]float64, len(us))
	for r := range m {
		m[r] = make([]float64, len(us)+1)
	}
	for i, p := range at {
		t, u := ts[i], 1-ts[i]
		b1, b2 := 3*u*u*t, 3*u*t*t
		x := p.X - (u*u*u+b1)*a.X - (t*t*t+b2)*b.X
		y := p.Y - (u*u*u+b1)*a.Y - (t*t*t+b2)*b.Y
		k := make([]float64, len(us))
		for j, un := range us {
			k[j] = b2
			if un.first {
				k[j] = b1
			}
		}
		for r := range us {
			for q := range us {
				m[r][q] += k[r] * k[q] * (us[r].way.X*us[q].way.X + us[r].way.Y*us[q].way.Y)
			}
			m[r][len(us)] += k[r] * (us[r].way.X*x + us[r].way.Y*y)
		}
	}
	solveRows(m)
	c := cubic{a, a, b, b}
	for r, un := range us {
		v := m[r][len(us)]
		if aw != nil && un.first || bw != nil && !un.first {
			v = max(v, 0.05*math.Hypot(b.X-a.X, b.Y-a.Y)) // never backwards
		}
		if un.first {
			c.p1 = shape.Point{X: c.p1.X + v*un.way.X, Y: c.p1.Y + v*un.way.Y}
		} else {
			c.p2 = shape.Point{X: c.p2.X + v*un.way.X, Y: c.p2.Y + v*un.way.Y}
		}
	}
	return c
}

// Curves draws n curves from one point to another along those between, joined smoothly at
// even distances. They have no names.
func Curves(from, to shape.Point, at []shape.Point, n int) (out []shape.Edge) {
	curves, _, _ := fitSome(at, from, to, n)
	for _, c := range curves {
		out = append(out, shape.Edge{To: c.p3, C1: c.p1, C2: c.p2, Curved: true})
	}
	return out
}

// EdgeEnds are where each edge from corner to corner begins and ends.
func (t *Traced) EdgeEnds() (out [][2]shape.Point) {
	for _, l := range t.edgeLines() {
		out = append(out, [2]shape.Point{l[0], l[len(l)-1]})
	}
	return out
}

// Corners are where the outline turns, in its order.
func (t *Traced) Corners() (out []shape.Point) {
	for i, e := range t.Edges {
		if e.Corner {
			out = append(out, t.Outline.Start(i))
		}
	}
	return out
}
