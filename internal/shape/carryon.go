package shape

// farCarried is how far beyond its ends a curve is carried on at most, in parts of
// its parameter: farther out a cubic goes where nobody drew it to.
const farCarried = 0.5

// carriedTo finds where a curve beside an edge that is moved meets the line that the
// edge lies along then: the parameter at which it does, nearest to the end it had
// there (1, or 0 where it begins there). Beyond its end it is carried on as the same
// curve. False of a straight edge, and where it does not meet the line near by.
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
	for k := 1; k <= steps; k++ {
		for _, way := range [...]float64{1, -1} {
			next := at + way*farCarried*float64(k)/steps
			from := at + way*farCarried*float64(k-1)/steps
			if (off(from) <= 0) != (off(next) <= 0) {
				return signChange(off, from, next), true
			}
		}
	}
	return at, false
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

// cubicAt is the place of a curve at a parameter, which may lie beyond its ends.
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
