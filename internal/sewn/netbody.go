package sewn

import (
	"math"

	"hembook/internal/shape"
)

// A body is copies that keep their places to each other.
type body struct {
	laid []Laid
	area float64
	fold bool // a piece unfolded
}

// of is where a copy of the body lies; nil where it is of another.
func (b *body) of(id CopyID) *Laid {
	for i := range b.laid {
		if b.laid[i].Copy == id {
			return &b.laid[i]
		}
	}
	return nil
}

func (b *body) move(by shape.Point) {
	for i := range b.laid {
		l := &b.laid[i]
		l.Shift = l.Shift.Add(by)
		l.ring.low, l.ring.high = l.ring.low.Add(by), l.ring.high.Add(by)
		for k := range l.ring.line {
			l.ring.line[k] = l.ring.line[k].Add(by)
		}
	}
}

// turn turns the body about the origin.
func (b *body) turn(by float64) {
	if by == 0 {
		return
	}
	for i := range b.laid {
		l := &b.laid[i]
		l.Shift, l.Turn = spun(l.Shift, by), l.Turn+by
		for k := range l.ring.line {
			l.ring.line[k] = spun(l.ring.line[k], by)
		}
		l.ring.measure()
	}
}

func (b *body) bounds() (low, high shape.Point) {
	for i := range b.laid {
		r := &b.laid[i].ring
		if i == 0 {
			low, high = r.low, r.high
		}
		low.X, low.Y = min(low.X, r.low.X), min(low.Y, r.low.Y)
		high.X, high.Y = max(high.X, r.high.X), max(high.Y, r.high.Y)
	}
	return low, high
}

// clearOf reports whether a body keeps its distance from others.
func (b *body) clearOf(others []*body, gap float64) bool {
	for i := range b.laid {
		for _, o := range others {
			for k := range o.laid {
				if near(&b.laid[i].ring, &o.laid[k].ring, gap) {
					return false
				}
			}
		}
	}
	return true
}

// mostPushes bounds how often a body is pushed on: a net of so many steps is far
// larger than any garment.
const mostPushes = 600

// push moves a body on by steps until it keeps clear of others.
func (b *body) push(way shape.Point, step float64, others []*body, gap float64) {
	by := shape.Point{X: float64(way.X * step), Y: float64(way.Y * step)}
	for range mostPushes {
		if b.clearOf(others, gap) {
			return
		}
		b.move(by)
	}
}

// near reports whether two rings come nearer than a gap, or cross, or one holds
// the other.
func near(a, b *netRing, gap float64) bool {
	if a.low.X > b.high.X+gap || b.low.X > a.high.X+gap || a.low.Y > b.high.Y+gap || b.low.Y > a.high.Y+gap {
		return false
	}
	return cornersNear(a.line, b, gap) || cornersNear(b.line, a, gap) || crossing(a, b) || holds(a.line, b.line[0]) || holds(b.line, a.line[0])
}

func cornersNear(a shape.Ring, b *netRing, gap float64) bool {
	for _, p := range a {
		if p.X < b.low.X-gap || p.X > b.high.X+gap || p.Y < b.low.Y-gap || p.Y > b.high.Y+gap {
			continue
		}
		for k := range b.line {
			from, to := b.line[k], b.line[(k+1)%len(b.line)]
			if p.X < min(from.X, to.X)-gap || p.X > max(from.X, to.X)+gap || p.Y < min(from.Y, to.Y)-gap || p.Y > max(from.Y, to.Y)+gap {
				continue
			}
			if off := fromLine(p, from, to); dot(off, off) < gap*gap-1e-6 {
				return true
			}
		}
	}
	return false
}

// fromLine is the way from the nearest point of a line to a point.
func fromLine(p, a, b shape.Point) shape.Point {
	way, to := b.Sub(a), p.Sub(a)
	t := 0.0
	if length := dot(way, way); length > 0 {
		t = min(max(dot(way, to)/length, 0), 1)
	}
	return shape.Point{X: to.X - float64(way.X*t), Y: to.Y - float64(way.Y*t)}
}

func crossing(a, b *netRing) bool {
	for i := range a.line {
		p, q := a.line[i], a.line[(i+1)%len(a.line)]
		if max(p.X, q.X) < b.low.X || min(p.X, q.X) > b.high.X || max(p.Y, q.Y) < b.low.Y || min(p.Y, q.Y) > b.high.Y {
			continue
		}
		for k := range b.line {
			u, v := b.line[k], b.line[(k+1)%len(b.line)]
			if cross(q.Sub(p), u.Sub(p)) > 0 != (cross(q.Sub(p), v.Sub(p)) > 0) && cross(v.Sub(u), p.Sub(u)) > 0 != (cross(v.Sub(u), q.Sub(u)) > 0) {
				return true
			}
		}
	}
	return false
}

func holds(r shape.Ring, p shape.Point) bool {
	in := false
	for i := range r {
		a, b := r[i], r[(i+1)%len(r)]
		if a.Y > p.Y != (b.Y > p.Y) && (cross(b.Sub(a), p.Sub(a)) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}

// A chord is a line seen as a whole: its middle and the way out of the piece
// that it bounds on its left.
type chord struct{ mid, out shape.Point }

func chordOf(line []shape.Point) chord {
	a, b := line[0], line[len(line)-1]
	way := b.Sub(a)
	c := chord{mid: shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}}
	if size := long(way); size > 0 {
		c.out = shape.Point{X: way.Y / size, Y: -way.X / size}
	}
	return c
}

func spun(p shape.Point, by float64) shape.Point {
	if by == 0 {
		return p
	}
	sin, cos := math.Sincos(by)
	return shape.Point{X: float64(p.X*cos) - float64(p.Y*sin), Y: float64(p.X*sin) + float64(p.Y*cos)}
}

func dot(a, b shape.Point) float64   { return float64(a.X*b.X) + float64(a.Y*b.Y) }
func cross(a, b shape.Point) float64 { return float64(a.X*b.Y) - float64(a.Y*b.X) }
func long(a shape.Point) float64     { return math.Sqrt(dot(a, a)) }

// A netRing is the outline of a copy as it lies, in straight stretches.
type netRing struct {
	line      shape.Ring
	low, high shape.Point
}

func (r *netRing) measure() {
	for i, p := range r.line {
		if i == 0 {
			r.low, r.high = p, p
		}
		r.low.X, r.low.Y = min(r.low.X, p.X), min(r.low.Y, p.Y)
		r.high.X, r.high.Y = max(r.high.X, p.X), max(r.high.Y, p.Y)
	}
}
