package paperpiece

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/shape"
)

// A placing is how a photographed outline is laid on that of a record: turned and moved,
// the paper turned over before where it lay face down.
type placing struct {
	over     bool
	sin, cos float64
	by       shape.Point
}

func (p placing) at(q shape.Point) shape.Point {
	if p.over {
		q.X = -q.X
	}
	return shape.Point{X: p.cos*q.X - p.sin*q.Y + p.by.X, Y: p.sin*q.X + p.cos*q.Y + p.by.Y}
}

// How an altered piece is laid on its outline: our own choice.
const (
	lieStep   = 3.0  // mm between points that are compared
	lieNear   = 1.0  // mm from its line at which a point lies on it
	liesLeast = 0.25 // share of the points that must

	nearlyAsWell = 0.97
	alterMost    = 60.0 // mm by which an edge may have become longer or shorter
)

// lay finds how the photographed outline lies on that of the record so that as much of it
// as can be lies on its line: what was not altered. share is how much does, of whichever
// has less. Where it lies nearly as well in ways that differ, it is taken to lie face up
// and as little turned as may be, and doubt is true.
func lay(old, now shape.Outline) (best placing, share float64, doubt bool) {
	line := closed(old)
	type way struct {
		placing
		count int
	}
	var ways []way
	most := 0
	for _, over := range []bool{false, true} {
		points := walked(closed(now), 4*lieStep)
		sides := chords(now)
		if over {
			for i := range points {
				points[i].X = -points[i].X
			}
			for i, c := range sides {
				sides[i] = [2]shape.Point{{X: -c[1].X, Y: c[1].Y}, {X: -c[0].X, Y: c[0].Y}}
			}
		}
		for _, was := range chords(old) {
			for _, is := range sides {
				for _, p := range laidOn(is, was) {
					n := p.count(points, line)
					p.over = over
					ways, most = append(ways, way{p, n}), max(most, n)
				}
			}
		}
	}
	ways = slices.DeleteFunc(ways, func(w way) bool { return w.count == 0 || float64(w.count) < nearlyAsWell*float64(most) })
	if len(ways) == 0 {
		return best, 0, false
	}
	best = slices.MinFunc(ways, func(a, b way) int {
		if a.over != b.over {
			return cmp.Compare(fold(a.over), fold(b.over))
		}
		return cmp.Or(cmp.Compare(math.Round(math.Abs(a.turn())*4), math.Round(math.Abs(b.turn())*4)), cmp.Compare(b.count, a.count))
	}).placing
	doubt = slices.ContainsFunc(ways, func(w way) bool {
		return w.over != best.over || math.Abs(math.Remainder(w.turn()-best.turn(), 2*math.Pi)) > 0.5
	})
	points := walked(closed(now), lieStep)
	for range 20 {
		best = best.settled(points, line)
	}
	laid := make([]shape.Point, len(points))
	for i, q := range points {
		laid[i] = best.at(q)
	}
	there := closed(placed(turnedOver(now, best.over), best))
	was := walked(line, lieStep)
	share = min(float64(placing{cos: 1}.count(laid, line))/float64(len(laid)), float64(placing{cos: 1}.count(was, there))/float64(len(was)))
	return best, share, doubt
}

func fold(over bool) int {
	if over {
		return 1
	}
	return 0
}

// turn is how far a placing turns, in radians.
func (p placing) turn() float64 { return math.Atan2(p.sin, p.cos) }

// turnedOver is an outline that runs the other way where its paper lay face down, so that
// placed it runs against the clock.
func turnedOver(o shape.Outline, over bool) shape.Outline {
	if over {
		return o.Reversed()
	}
	return o
}

// closed is an outline as a line that ends where it begins.
func closed(o shape.Outline) shape.Line {
	ring, _ := o.Flatten(0.05)
	return append(shape.Line(slices.Clone(ring)), ring[0])
}

// walked are points along a line, evenly.
func walked(l shape.Line, step float64) (out []shape.Point) {
	long := l.Length()
	n := max(int(long/step), 1)
	for i := range n {
		p, _ := l.At(long * float64(i) / float64(n))
		out = append(out, p)
	}
	return out
}

// chords are the ends of the parts of an outline that are long enough to tell how it lies,
// and of those from one corner to the next.
func chords(o shape.Outline) (out [][2]shape.Point) {
	const least = 40.0
	add := func(a, b shape.Point) {
		if math.Hypot(b.X-a.X, b.Y-a.Y) > least {
			out = append(out, [2]shape.Point{a, b})
		}
	}
	var corners []shape.Point
	for i, e := range o.Edges {
		add(o.Start(i), e.To)
		if turnAt(o, i) > realTurn {
			corners = append(corners, o.Start(i))
		}
	}
	for i, c := range corners {
		add(c, corners[(i+1)%len(corners)])
	}
	return out
}

// realTurn is the least turn of a corner that is a corner on paper too, in degrees.
const realTurn = 12

// turnAt is how far an outline turns where part i begins, in degrees.
func turnAt(o shape.Outline, i int) float64 {
	n := len(o.Edges)
	_, a := o.Directions((i + n - 1) % n)
	b, _ := o.Directions(i)
	return math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)) * 180 / math.Pi
}

// laidOn lays one stretch on another by its beginning, its end and its middle.
func laidOn(is, was [2]shape.Point) (out []placing) {
	a, b := is[1].Sub(is[0]), was[1].Sub(was[0])
	if math.Abs(math.Hypot(a.X, a.Y)-math.Hypot(b.X, b.Y)) > alterMost {
		return nil
	}
	p := placing{}
	p.sin, p.cos = math.Sincos(math.Atan2(b.Y, b.X) - math.Atan2(a.Y, a.X))
	for _, share := range []float64{0, 0.5, 1} {
		q := p
		from, to := between(is, share), between(was, share)
		q.by = to.Sub(q.at(from))
		out = append(out, q)
	}
	return out
}

func between(c [2]shape.Point, share float64) shape.Point {
	return shape.Point{X: c[0].X + share*(c[1].X-c[0].X), Y: c[0].Y + share*(c[1].Y-c[0].Y)}
}

// count is how many points lie on a line once they are placed; over is not looked at.
func (p placing) count(points []shape.Point, line shape.Line) (n int) {
	p.over = false
	for _, q := range points {
		if _, off := line.Nearest(p.at(q)); off < lieNear {
			n++
		}
	}
	return n
}

// settled lays the points that lie on the line already on it by least squares.
func (p placing) settled(points []shape.Point, line shape.Line) placing {
	var from, to []shape.Point
	for _, q := range points {
		at := p.at(q)
		along, off := line.Nearest(at)
		if off > lieNear {
			continue
		}
		near, _ := line.At(along)
		if p.over {
			q.X = -q.X
		}
		from, to = append(from, q), append(to, near)
	}
	if len(from) < 10 {
		return p
	}
	a, b := middle(from), middle(to)
	c, s := 0.0, 0.0
	for i := range from {
		x, y, u, v := from[i].X-a.X, from[i].Y-a.Y, to[i].X-b.X, to[i].Y-b.Y
		c, s = c+x*u+y*v, s+x*v-y*u
	}
	k := math.Hypot(c, s)
	if k < 1e-9 {
		return p
	}
	out := placing{over: p.over, sin: s / k, cos: c / k}
	out.by = shape.Point{X: b.X - out.cos*a.X + out.sin*a.Y, Y: b.Y - out.sin*a.X - out.cos*a.Y}
	return out
}

func middle(at []shape.Point) (m shape.Point) {
	for _, p := range at {
		m.X, m.Y = m.X+p.X/float64(len(at)), m.Y+p.Y/float64(len(at))
	}
	return m
}
