package lay

import "math"

// Curved outlines arrive as many short edges. The search works with an
// outline that holds the real one and has far fewer points, so that what is
// valid for it is valid for the real one; the ground lost is far below a
// thousandth.
const (
	enoughPoints = 16     // never simplified below
	manyPoints   = 28     // above, the coarser limit holds
	fineLimit    = 0.0004 // of the square root of the area
	coarseLimit  = 0.0025
	manyKinds    = 60 // from so many different pieces on, coarser still
)

type corner struct {
	p    Point
	lost float64 // how far the outline has moved here
}

// simplified returns an outline that holds the given one (counter-clockwise).
func simplified(pts []Point, kinds int) []Point {
	if len(pts) <= enoughPoints {
		return pts
	}
	size := math.Sqrt(signedArea(pts))
	ring := make([]corner, len(pts))
	for i, p := range pts {
		ring[i] = corner{p: p}
	}
	if kinds >= manyKinds {
		size *= 2.5
	}
	for len(ring) > enoughPoints {
		limit := fineLimit * size
		if len(ring) > manyPoints {
			limit = coarseLimit * size
		}
		next, ok := simplerOnce(ring, limit)
		if !ok {
			break
		}
		ring = next
	}
	out := make([]Point, len(ring))
	for i, c := range ring {
		out[i] = c.p
	}
	out = tidy(out)
	if i, _ := crossing(out); i >= 0 || len(out) < 3 {
		return pts
	}
	return out
}

// simplerOnce takes out the point or edge that moves the outline least.
func simplerOnce(ring []corner, limit float64) ([]corner, bool) {
	n := len(ring)
	tried := make([]bool, n)
	for {
		best, bestLost := -1, limit
		var to corner
		for i := range n {
			if tried[i] {
				continue
			}
			if c, ok := simpler(ring, i); ok && c.lost <= bestLost {
				best, bestLost, to = i, c.lost, c
			}
		}
		if best < 0 {
			return ring, false
		}
		if next, ok := without(ring, best, to); ok {
			return next, true
		}
		tried[best] = true
	}
}

// simpler is what would replace point i (a hollow one, left out) or the edge
// from i to i+1 (a bulging one, whose neighbours are drawn out to meet).
func simpler(ring []corner, i int) (corner, bool) {
	n := len(ring)
	prev, a, b, next := ring[(i+n-1)%n], ring[i], ring[(i+1)%n], ring[(i+2)%n]
	if turnOf(prev.p, a.p, b.p) <= 0 {
		d := distanceToSegment(a.p, prev.p, b.p)
		lost := d + math.Max(a.lost, math.Max(prev.lost, b.lost))
		return corner{lost: lost}, true
	}
	if turnOf(a.p, b.p, next.p) <= 0 {
		return corner{}, false
	}
	ux, uy := a.p.X-prev.p.X, a.p.Y-prev.p.Y
	vx, vy := next.p.X-b.p.X, next.p.Y-b.p.Y
	det := cross(ux, uy, vx, vy)
	if det <= 0 {
		return corner{}, false
	}
	t := cross(b.p.X-a.p.X, b.p.Y-a.p.Y, vx, vy) / det
	p := Point{a.p.X + float64(t*ux), a.p.Y + float64(t*uy)}
	d := distanceToSegment(p, a.p, b.p)
	if t < 0 || !finite(p) {
		return corner{}, false
	}
	return corner{p: p, lost: d + math.Max(a.lost, b.lost)}, true
}

// without carries out a step unless the new ground meets the outline elsewhere.
func without(ring []corner, i int, to corner) ([]corner, bool) {
	n := len(ring)
	prev, a, b, next := ring[(i+n-1)%n].p, ring[i].p, ring[(i+1)%n].p, ring[(i+2)%n].p
	hollow := turnOf(prev, a, b) <= 0
	tri := [3]Point{a, to.p, b}
	if hollow {
		tri = [3]Point{prev, b, a}
	}
	tb := boxOf(tri[:])
	for k := range n {
		q, r := ring[k].p, ring[(k+1)%n].p
		if !touches(tb, boxOf([]Point{q, r})) {
			continue
		}
		ours := func(v Point) bool {
			return v == a || v == b || hollow && v == prev || !hollow && (v == prev || v == next)
		}
		if !ours(q) && inTriangle(q, tri) {
			return ring, false
		}
		if ours(q) || ours(r) {
			continue
		}
		if hollow && segmentsMeet(q, r, prev, b) || !hollow && (segmentsMeet(q, r, a, to.p) || segmentsMeet(q, r, to.p, b)) {
			return ring, false
		}
	}
	out := make([]corner, 0, n-1)
	for k := range n {
		switch {
		case k == i && hollow:
		case k == i:
			out = append(out, to)
		case k == (i+1)%n && !hollow:
		default:
			out = append(out, ring[k])
		}
	}
	if hollow { // the chord has moved; its ends remember how far
		for k := range out {
			if out[k].p == prev || out[k].p == b {
				out[k].lost = math.Max(out[k].lost, to.lost)
			}
		}
	}
	return out, true
}

func inTriangle(p Point, t [3]Point) bool {
	s1, s2, s3 := turnOf(t[0], t[1], p), turnOf(t[1], t[2], p), turnOf(t[2], t[0], p)
	return s1 >= 0 && s2 >= 0 && s3 >= 0 || s1 <= 0 && s2 <= 0 && s3 <= 0
}
