package verify

import "math"

// Penetration measures how deep two outlines reach into each other: the
// greatest distance from the border of one, within it, to any corner,
// crossing or middle between crossings of the other's border. It is zero for
// outlines that only touch.
func Penetration(a, b []point) float64 {
	return max(reachInto(a, b), reachInto(b, a), middleInside(a, b))
}

// middleInside catches two outlines that coincide, whose borders do not
// reach into each other anywhere.
func middleInside(a, b []point) float64 {
	m, ok := innerPoint(a)
	if !ok || !contains(b, m) {
		return 0
	}
	return math.Min(toBorder(b, m), toBorder(a, m))
}

func reachInto(a, b []point) float64 {
	deep := 0.0
	for i := range a {
		p, q := a[i], a[(i+1)%len(a)]
		cuts := cutsOf(p, q, b)
		from := 0.0
		for _, t := range append(cuts, 1) {
			for _, s := range [3]float64{from, (from + t) / 2, t} {
				v := point{X: p.X + s*(q.X-p.X), Y: p.Y + s*(q.Y-p.Y)}
				if contains(b, v) {
					deep = math.Max(deep, toBorder(b, v))
				}
			}
			from = t
		}
	}
	return deep
}

// outDepth is how far a reaches outside b.
func outDepth(a, b []point) float64 {
	deep := 0.0
	for i := range a {
		p, q := a[i], a[(i+1)%len(a)]
		from := 0.0
		for _, t := range append(cutsOf(p, q, b), 1) {
			for _, s := range [2]float64{from, (from + t) / 2} {
				v := point{X: p.X + s*(q.X-p.X), Y: p.Y + s*(q.Y-p.Y)}
				if !contains(b, v) {
					deep = math.Max(deep, toBorder(b, v))
				}
			}
			from = t
		}
	}
	return deep
}

// cutsOf lists, in order, where the border of b crosses the segment pq.
func cutsOf(p, q point, b []point) []float64 {
	var out []float64
	dx, dy := q.X-p.X, q.Y-p.Y
	for i := range b {
		r, s := b[i], b[(i+1)%len(b)]
		ex, ey := s.X-r.X, s.Y-r.Y
		det := dx*ey - dy*ex
		if det == 0 {
			continue
		}
		t := ((r.X-p.X)*ey - (r.Y-p.Y)*ex) / det
		u := ((r.X-p.X)*dy - (r.Y-p.Y)*dx) / det
		if t > 0 && t < 1 && u >= 0 && u <= 1 {
			k := len(out)
			out = append(out, t)
			for k > 0 && out[k-1] > t {
				out[k] = out[k-1]
				k--
			}
			out[k] = t
		}
	}
	return out
}

// contains counts crossings of a ray along X.
func contains(ring []point, v point) bool {
	in := false
	for i := range ring {
		a, b := ring[i], ring[(i+1)%len(ring)]
		if (a.Y > v.Y) != (b.Y > v.Y) && v.X < a.X+(v.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

func toBorder(ring []point, v point) float64 {
	best := math.Inf(1)
	for i := range ring {
		best = math.Min(best, toSegment(v, ring[i], ring[(i+1)%len(ring)]))
	}
	return best
}

func toSegment(v, a, b point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l2 := dx*dx + dy*dy; l2 > 0 {
		t = math.Max(0, math.Min(1, ((v.X-a.X)*dx+(v.Y-a.Y)*dy)/l2))
	}
	return math.Hypot(v.X-a.X-t*dx, v.Y-a.Y-t*dy)
}

// gapBetween is the distance between two outlines that do not overlap.
func gapBetween(a, b []point) float64 {
	best := math.Inf(1)
	for _, v := range a {
		best = math.Min(best, toBorder(b, v))
	}
	for _, v := range b {
		best = math.Min(best, toBorder(a, v))
	}
	return best
}

// innerPoint finds a point well within a ring: the middle of the widest
// stretch that a level line through the ring's middle cuts out of it.
func innerPoint(ring []point) (point, bool) {
	lo, hi := bounds(ring)
	best, width := point{}, 0.0
	for _, share := range [3]float64{0.4871, 0.2713, 0.7391} {
		y := lo.Y + share*(hi.Y-lo.Y)
		cuts := cutsOf(point{X: lo.X - 1, Y: y}, point{X: hi.X + 1, Y: y}, ring)
		for k := 0; k+1 < len(cuts); k += 2 {
			if w := cuts[k+1] - cuts[k]; w > width {
				width = w
				best = point{X: lo.X - 1 + (cuts[k]+cuts[k+1])/2*(hi.X-lo.X+2), Y: y}
			}
		}
	}
	return best, width > 0
}

func bounds(ring []point) (lo, hi point) {
	lo, hi = point{X: math.Inf(1), Y: math.Inf(1)}, point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, v := range ring {
		lo.X, lo.Y = math.Min(lo.X, v.X), math.Min(lo.Y, v.Y)
		hi.X, hi.Y = math.Max(hi.X, v.X), math.Max(hi.Y, v.Y)
	}
	return lo, hi
}
