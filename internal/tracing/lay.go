package tracing

import (
	"math"

	"hembook/internal/camera"
	"hembook/internal/shape"
)

// A layout is how a piece is laid for its record: turned, then moved so that its box
// begins at the origin.
type layout struct {
	sin, cos float64
	least    shape.Point
}

func (l layout) at(p shape.Point) shape.Point {
	return shape.Point{X: l.cos*p.X - l.sin*p.Y - l.least.X, Y: l.sin*p.X + l.cos*p.Y - l.least.Y}
}

func (l layout) back(p shape.Point) shape.Point {
	x, y := p.X+l.least.X, p.Y+l.least.Y
	return shape.Point{X: l.cos*x + l.sin*y, Y: l.cos*y - l.sin*x}
}

// mostAskew is how far the longest straight edge may lean and still be meant upright or
// level.
const mostAskew = 15 * math.Pi / 180

// layOf turns a piece so that what is up in the photograph is up, and its longest
// straight edge upright or level where it is so nearly.
func layOf(o shape.Outline, seen []Seen, view camera.View) layout {
	mid := middleOf(cornersOf(o))
	at, _ := view.See(mid)
	up, _ := view.OnPlane(shape.Point{X: at.X, Y: at.Y - 10})
	turn := math.Pi/2 - math.Atan2(up.Y-mid.Y, up.X-mid.X)
	long, lean := 0.0, 0.0
	for i, e := range o.Edges {
		a := o.Start(i)
		if far := math.Hypot(e.To.X-a.X, e.To.Y-a.Y); !e.Curved && far > long {
			way := math.Atan2(e.To.Y-a.Y, e.To.X-a.X) + turn
			long, lean = far, math.Round(way/(math.Pi/2))*math.Pi/2-way
		}
	}
	if math.Abs(lean) < mostAskew {
		turn += lean
	}
	l := layout{}
	l.sin, l.cos = math.Sincos(turn)
	least := shape.Point{X: math.Inf(1), Y: math.Inf(1)}
	ring, _ := o.Flatten(0.05)
	for _, p := range ring {
		q := l.at(p)
		least.X, least.Y = min(least.X, q.X), min(least.Y, q.Y)
	}
	l.least = least
	return l
}

func cornersOf(o shape.Outline) (out []shape.Point) {
	for _, e := range o.Edges {
		out = append(out, e.To)
	}
	return out
}

// outline is the outline laid, beginning at its lower left corner: the one nearest to the
// lower left of its box. shift is which edge begins there.
func (l layout) outline(o shape.Outline) (out shape.Outline, shift int) {
	for i := range o.Edges {
		e := &o.Edges[i]
		e.To, e.C1, e.C2 = l.at(e.To), l.at(e.C1), l.at(e.C2)
	}
	o.From = l.at(o.From)
	for i := range o.Edges {
		a, b := o.Start(i), o.Start(shift)
		if a.X+a.Y < b.X+b.Y {
			shift = i
		}
	}
	out.From = o.Start(shift)
	out.Edges = append(append([]shape.Edge(nil), o.Edges[shift:]...), o.Edges[:shift]...)
	return out, shift
}

// mirrorOff is how far the rim strays from the mirror image of itself about the upright
// line through the middle of its box or about the level one, root mean square, whichever
// is less.
func mirrorOff(rim []shape.Point, o shape.Outline) float64 {
	least, most := o.Bounds()
	line := shape.Line(append(append([]shape.Point(nil), rim...), rim[0]))
	off := func(image func(shape.Point) shape.Point) float64 {
		sum, n := 0.0, 0.0
		for i := 0; i < len(rim); i += 8 {
			_, d := line.Nearest(image(rim[i]))
			sum, n = sum+d*d, n+1
		}
		return math.Sqrt(sum / n)
	}
	x, y := least.X+most.X, least.Y+most.Y
	return min(off(func(p shape.Point) shape.Point { return shape.Point{X: x - p.X, Y: p.Y} }),
		off(func(p shape.Point) shape.Point { return shape.Point{X: p.X, Y: y - p.Y} }))
}
