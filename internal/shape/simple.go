package shape

import "math"

// touch is how near, in millimetres, two stretches of a ring may come
// before they count as touching.
const touch = 1e-6

// A chain is a run of ring segments, from point first to point last, along
// which x never turns back and neither does y. It cannot cross itself, and
// the bounding box of any part of it is spanned by the part's two ends:
// that makes looking for crossings cheap.
type chain struct{ first, last int }

// crossings calls found for pairs of segments i < j of the ring that cross
// or touch, other than neighbours meeting at their common point, until
// found returns false. A neighbour that turns straight back onto the
// segment before it counts as touching.
func (r Ring) crossings(found func(i, j int) bool) {
	var room [32]chain
	chains := r.chains(room[:0])
	s := search{r, found}
	for a, x := range chains {
		for _, y := range chains[a+1:] {
			if !s.chains(x, y) {
				return
			}
		}
	}
}

// simple reports whether the ring neither crosses nor touches itself.
func (r Ring) simple() bool {
	clear := true
	r.crossings(func(_, _ int) bool {
		clear = false
		return false
	})
	return clear
}

// at is point k, counted on past the last to the first.
func (r Ring) at(k int) Point {
	if k == len(r) {
		return r[0]
	}
	return r[k]
}

// chains cuts the ring wherever x or y turns back.
func (r Ring) chains(list []chain) []chain {
	first, wayX, wayY := 0, 0.0, 0.0
	for k := range r {
		d := r.at(k + 1).Sub(r[k])
		if d.X*wayX < 0 || d.Y*wayY < 0 {
			list = append(list, chain{first, k})
			first, wayX, wayY = k, 0, 0
		}
		wayX, wayY = keepWay(wayX, d.X), keepWay(wayY, d.Y)
	}
	return append(list, chain{first, len(r)})
}

func keepWay(way, d float64) float64 {
	if d == 0 {
		return way
	}
	return math.Copysign(1, d)
}

type search struct {
	ring  Ring
	found func(i, j int) bool
}

// chains looks for crossings between two chains, halving the longer as
// long as their boxes meet; false means stop.
func (s search) chains(x, y chain) bool {
	if s.apart(x, y) {
		return true
	}
	nx, ny := x.last-x.first, y.last-y.first
	switch {
	case nx == 1 && ny == 1:
		return !s.ring.meet(x.first, y.first) || s.found(min(x.first, y.first), max(x.first, y.first))
	case nx >= ny:
		m := x.first + nx/2
		return s.chains(chain{x.first, m}, y) && s.chains(chain{m, x.last}, y)
	default:
		m := y.first + ny/2
		return s.chains(x, chain{y.first, m}) && s.chains(x, chain{m, y.last})
	}
}

func (s search) apart(x, y chain) bool {
	a, b := s.ring.at(x.first), s.ring.at(x.last)
	c, d := s.ring.at(y.first), s.ring.at(y.last)
	return max(a.X, b.X)+touch < min(c.X, d.X) || max(c.X, d.X)+touch < min(a.X, b.X) ||
		max(a.Y, b.Y)+touch < min(c.Y, d.Y) || max(c.Y, d.Y)+touch < min(a.Y, b.Y)
}

// meet reports whether segments i and j, whose boxes meet, touch.
func (r Ring) meet(i, j int) bool {
	n := len(r)
	switch {
	case j == (i+1)%n:
		return turnsBack(r[i], r[j], r.at(j+1))
	case i == (j+1)%n:
		return turnsBack(r[j], r[i], r.at(i+1))
	}
	a, b, c, d := r[i], r.at(i+1), r[j], r.at(j+1)
	return !sameSide(a, b, c, d) && !sameSide(c, d, a, b)
}

// sameSide reports whether c and d lie clearly on one side of the line ab.
func sameSide(a, b, c, d Point) bool {
	way := b.Sub(a)
	limit := touch * math.Sqrt(dot(way, way))
	u, v := cross(way, c.Sub(a)), cross(way, d.Sub(a))
	return u > limit && v > limit || u < -limit && v < -limit
}

// turnsBack reports whether bc runs back along ab.
func turnsBack(a, b, c Point) bool {
	in, out := b.Sub(a), c.Sub(b)
	shorter := min(dot(in, in), dot(out, out))
	return dot(in, out) < 0 && math.Abs(cross(in, out)) <= touch*math.Sqrt(shorter)
}

// crossingPoint is where the lines of segments i and j meet, or a common
// end when they run alongside.
func (r Ring) crossingPoint(i, j int) Point {
	a, b, c, d := r[i], r.at(i+1), r[j], r.at(j+1)
	in, out := b.Sub(a), d.Sub(c)
	turn := cross(in, out)
	if t := cross(c.Sub(a), out) / turn; t >= 0 && t <= 1 {
		return lerp(a, b, t)
	}
	return c
}
