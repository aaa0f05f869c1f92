package shape

import "math"

// carriedTo finds where a curve beside an edge that is moved meets the line that the
// edge lies along then: the parameter at which it does, nearest to the end it had
// there (1, or 0 where it begins there). False of a straight edge, and of a curve
// that ends before it comes to that line.
func carriedTo(o Outline, i int, at float64, on, dir Point) (float64, bool) {
	e := &o.Edges[i]
	if !e.Curved || dir == (Point{}) {
		return 0, false
	}
	start := o.Start(i)
	off := func(t float64) float64 {
		d := cubicAt(start, e, t).Sub(on)
		return float64(dir.X*d.Y) - float64(dir.Y*d.X)
	}
	const steps = 64
	inwards := 1 - 2*at
	for k := 1; k < steps; k++ {
		from, next := at+inwards*float64(k-1)/steps, at+inwards*float64(k)/steps
		if (off(from) <= 0) != (off(next) <= 0) {
			return signChange(off, from, next), true
		}
	}
	return 0, false
}

// carryOn carries a curve on beyond its end (or, atStart, beyond its beginning) to a
// place straight ahead: it leaves there in the way it had, and is longer by what was
// added. A curve that bends hard would turn back on itself if it went on bending.
//
// Its handles are those of the same cubic drawn on for as long as the place is away,
// the one at its end then turned straight ahead, and both made longer or shorter
// alike until the length is right. So they change little where the place does, and
// what was moved can be moved back.
func carryOn(e *Edge, start, to Point, atStart bool) {
	if !e.Curved {
		return
	}
	c := cubic{start, e.C1, e.C2, e.To}
	if atStart {
		c = c.backwards()
	}
	way := c[3].Sub(c[2])
	arm, by := math.Hypot(way.X, way.Y), distance(c[3], to)
	if !(arm > 0) || by == 0 {
		return
	}
	first, last := c[1].Sub(c[0]), way.times((arm+by)/arm)
	if longer, err := c.carriedOn(by, true); err == nil {
		first, last = longer[1].Sub(longer[0]), way.times(distance(longer[2], longer[3])/arm)
	}
	on := func(part float64) cubic {
		return cubic{c[0], c[0].Add(first.times(part)), to.Sub(last.times(part)), to}
	}
	want := c.length() + by
	off := func(part float64) float64 { return on(part).length() - want }
	const least, most = 0.7, 1.4
	part := 1.0
	if (off(least) <= 0) != (off(most) <= 0) {
		part = signChange(off, least, most)
	}
	c = on(part)
	if atStart {
		c = c.backwards()
	}
	e.C1, e.C2 = c[1], c[2]
}

// signChange is where a function that changes its sign between two places is nought.
func signChange(off func(float64) float64, from, to float64) float64 {
	low := off(from) <= 0
	for range 60 {
		mid := (from + to) / 2
		if (off(mid) <= 0) == low {
			from = mid
		} else {
			to = mid
		}
	}
	return (from + to) / 2
}

// cubicAt is the place of a curve at a parameter.
func cubicAt(start Point, e *Edge, t float64) Point {
	u := 1 - t
	a, b, c, d := float64(u*u*u), float64(3*u*u*t), float64(3*u*t*t), float64(t*t*t)
	return Point{
		X: float64(a*start.X) + float64(b*e.C1.X) + float64(c*e.C2.X) + float64(d*e.To.X),
		Y: float64(a*start.Y) + float64(b*e.C1.Y) + float64(c*e.C2.Y) + float64(d*e.To.Y),
	}
}

// cutCurve gives a curve its part from one parameter to another (its blossom,
// after de Casteljau and Ramshaw, from memory), and answers where that begins and
// ends.
func cutCurve(e *Edge, start Point, from, to float64) (first, last Point) {
	blossom := func(r, s, t float64) Point {
		mix := func(p, q Point, by float64) Point {
			return Point{X: float64(p.X*(1-by)) + float64(q.X*by), Y: float64(p.Y*(1-by)) + float64(q.Y*by)}
		}
		a, b, c := mix(start, e.C1, r), mix(e.C1, e.C2, r), mix(e.C2, e.To, r)
		a, b = mix(a, b, s), mix(b, c, s)
		return mix(a, b, t)
	}
	first, last = blossom(from, from, from), blossom(to, to, to)
	e.C1, e.C2 = blossom(from, from, to), blossom(from, to, to)
	e.To = last
	return first, last
}
