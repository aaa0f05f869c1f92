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
	if kinds >= manyKinds {
		size *= 2.5
	}
	t := newThinning(pts)
	for len(t.ring) > enoughPoints {
		limit := fineLimit * size
		if len(t.ring) > manyPoints {
			limit = coarseLimit * size
		}
		if !t.step(limit) {
			break
		}
	}
	out := make([]Point, len(t.ring))
	for i, c := range t.ring {
		out[i] = c.p
	}
	out = tidy(out)
	if i, _ := crossing(out); i >= 0 || len(out) < 3 {
		return pts
	}
	return out
}

// A thinning is an outline that loses one point after another.
type thinning struct {
	ring  []corner
	to    []corner // what would replace each point, or the edge that begins there
	lost  []float64
	tried []bool
}

func newThinning(pts []Point) *thinning {
	n := len(pts)
	t := &thinning{ring: make([]corner, n), to: make([]corner, n), lost: make([]float64, n), tried: make([]bool, n)}
	for i, p := range pts {
		t.ring[i] = corner{p: p}
	}
	for i := range n {
		t.look(i)
	}
	return t
}

// look finds what would replace a point, and how far that moves the outline.
func (t *thinning) look(i int) {
	c, ok := simpler(t.ring, i)
	if t.to[i], t.lost[i] = c, c.lost; !ok {
		t.lost[i] = math.Inf(1)
	}
}

// step takes out the point or edge that moves the outline least; false where none moves
// it by no more than the limit.
func (t *thinning) step(limit float64) bool {
	clear(t.tried)
	for {
		best, least := -1, limit
		for i, lost := range t.lost {
			if lost <= least && !t.tried[i] {
				best, least = i, lost
			}
		}
		if best < 0 {
			return false
		}
		if next, ok := without(t.ring, best, t.to[best]); ok {
			t.take(best, next)
			return true
		}
		t.tried[best] = true
	}
}

// take goes on with a ring that has lost the point at a place or, where that was drawn
// out, the one after it.
func (t *thinning) take(at int, next []corner) {
	gone := at
	if n := len(t.ring); turnOf(t.ring[(at+n-1)%n].p, t.ring[at].p, t.ring[(at+1)%n].p) > 0 {
		gone = (at + 1) % n
	}
	t.ring = next
	n := len(next)
	t.to = append(t.to[:gone], t.to[gone+1:]...)
	t.lost = append(t.lost[:gone], t.lost[gone+1:]...)
	t.tried = t.tried[:n]
	for k := at - 4; k <= at+3; k++ {
		t.look(((k % n) + n) % n)
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
