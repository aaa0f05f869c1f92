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
func carryOn(e *Edge, start, to Point, atStart bool) {
	if !e.Curved {
		return
	}
	was := Outline{From: start, Edges: []Edge{*e}}
	end, handle := e.To, &e.C2
	if atStart {
		end, handle = start, &e.C1
	}
	way, on := end.Sub(*handle), to.Sub(end)
	arm, by := math.Hypot(way.X, way.Y), math.Hypot(on.X, on.Y)
	if !(arm > 0) || by == 0 {
		return
	}
	want := was.EdgeLength(0) + by
	is := was
	set := func(h float64) float64 {
		*handle = Point{X: to.X - float64(way.X*h/arm), Y: to.Y - float64(way.Y*h/arm)}
		is.Edges = []Edge{*e}
		if atStart {
			is.From = to
		} else {
			is.Edges[0].To = to
		}
		return is.EdgeLength(0) - want
	}
	// The arm that gives the length, nearest to one that is longer by as much.
	near := arm + by
	for k := 1.0; k <= 16; k++ {
		for _, far := range [...]float64{near * (1 + k/16), near * (1 - k/20)} {
			if (set(near) <= 0) != (set(far) <= 0) {
				set(signChange(set, near, far))
				return
			}
		}
	}
	set(near)
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
