package drawing

import (
	"math"
	"sync"

	"hembook/internal/shape"
)

// An Op is one step of a path.
type Op uint8

// The steps, with how many points each has.
const (
	MoveTo    Op = iota // 1: begins a line
	LineTo              // 1
	CurveTo             // 3: two control points and where it goes, a cubic Bézier
	ClosePath           // 0: straight back to where the line began
)

// A Path is lines of straight stretches and cubic curves, or the area within.
type Path struct {
	Ops    []Op
	Points []Point
}

// Each calls visit with every step and its points.
func (p Path) Each(visit func(op Op, at []Point)) {
	k := 0
	for _, op := range p.Ops {
		n := op.points()
		visit(op, p.Points[k:k+n])
		k += n
	}
}

func (o Op) points() int {
	switch o {
	case CurveTo:
		return 3
	case ClosePath:
		return 0
	}
	return 1
}

// Move begins a line.
func (p *Path) Move(x, y float64) *Path { return p.add(MoveTo, x, y) }

// Line goes straight on.
func (p *Path) Line(x, y float64) *Path { return p.add(LineTo, x, y) }

// Curve goes on to (x, y) by a cubic Bézier curve.
func (p *Path) Curve(x1, y1, x2, y2, x, y float64) *Path {
	p.Points = append(p.Points, Point{X: x1, Y: y1}, Point{X: x2, Y: y2})
	return p.add(CurveTo, x, y)
}

// Close goes back to where the line began.
func (p *Path) Close() *Path {
	p.Ops = append(p.Ops, ClosePath)
	return p
}

func (p *Path) add(op Op, x, y float64) *Path {
	p.Ops = append(p.Ops, op)
	p.Points = append(p.Points, Point{X: x, Y: y})
	return p
}

// Rect adds a rectangle by two opposite corners.
func (p *Path) Rect(left, top, right, bottom float64) *Path {
	return p.Move(left, top).Line(right, top).Line(right, bottom).Line(left, bottom).Close()
}

// Circle adds a circle, of four curves that stray from it by less than 0.03 %
// of the radius.
func (p *Path) Circle(x, y, r float64) *Path {
	const k = 4 * (math.Sqrt2 - 1) / 3
	c := k * r
	p.Move(x+r, y)
	p.Curve(x+r, y+c, x+c, y+r, x, y+r)
	p.Curve(x-c, y+r, x-r, y+c, x-r, y)
	p.Curve(x-r, y-c, x-c, y-r, x, y-r)
	p.Curve(x+c, y-r, x+r, y-c, x+r, y)
	return p.Close()
}

// Disc adds a circle of two curves, light to write, that stray from it by less
// than 2 % of the radius: for small ones.
func (p *Path) Disc(x, y, r float64) *Path {
	c := 4 * r / 3
	p.Move(x+r, y)
	p.Curve(x+r, y+c, x-r, y+c, x-r, y)
	p.Curve(x-r, y-c, x+r, y-c, x+r, y)
	return p.Close()
}

// arrowShape is half the width of an arrow head for its length.
const arrowShape = 9.0 / 22

// Arrow adds an open arrow head at (x, y) that points along (dx, dy), as long
// as long.
func (p *Path) Arrow(x, y, dx, dy, long float64) *Path {
	ux, uy, far := unit(dx, dy)
	if far == 0 {
		return p
	}
	bx, by, half := x-ux*long, y-uy*long, long*arrowShape
	return p.Move(bx-uy*half, by+ux*half).Line(x, y).Line(bx+uy*half, by-ux*half)
}

// Cross adds a cross that lies on its side.
func (p *Path) Cross(x, y, half, high float64) *Path {
	p.Move(x-half, y-high).Line(x+half, y+high)
	return p.Move(x-half, y+high).Line(x+half, y-high)
}

// Append adds all of another path.
func (p *Path) Append(other Path) *Path {
	p.Ops, p.Points = append(p.Ops, other.Ops...), append(p.Points, other.Points...)
	return p
}

// Outline adds a closed outline of a thing, its curves as they are.
func (p *Path) Outline(f Frame, o shape.Outline) *Path {
	p.Move(f.At(o.From))
	for _, e := range o.Edges {
		p.goOn(f, e)
	}
	return p.Close()
}

// Edge adds one edge of an outline as a line of its own.
func (p *Path) Edge(f Frame, o shape.Outline, i int) *Path { return p.Edges(f, o, i, 1) }

// Edges adds so many edges of an outline that follow each other as one line.
func (p *Path) Edges(f Frame, o shape.Outline, first, count int) *Path {
	p.Move(f.At(o.Start(first)))
	for k := range count {
		p.goOn(f, o.Edges[(first+k)%len(o.Edges)])
	}
	return p
}

// Parts are the lines a path is made of, each from where it begins.
func (p Path) Parts() []Path {
	var out []Path
	p.Each(func(op Op, at []Point) {
		if op == MoveTo || len(out) == 0 {
			out = append(out, Path{})
		}
		last := &out[len(out)-1]
		last.Ops, last.Points = append(last.Ops, op), append(last.Points, at...)
	})
	return out
}

// Closed reports whether the path ends by going back to where it began.
func (p Path) Closed() bool { return len(p.Ops) > 0 && p.Ops[len(p.Ops)-1] == ClosePath }

func (p *Path) goOn(f Frame, e shape.Edge) *Path {
	x, y := f.At(e.To)
	if !e.Curved {
		return p.Line(x, y)
	}
	x1, y1 := f.At(e.C1)
	x2, y2 := f.At(e.C2)
	return p.Curve(x1, y1, x2, y2, x, y)
}

// Lines adds points joined by straight stretches.
func (p *Path) Lines(f Frame, list []Point) *Path {
	for i, q := range list {
		if x, y := f.At(q); i == 0 {
			p.Move(x, y)
		} else {
			p.Line(x, y)
		}
	}
	return p
}

// Polyline adds points of the drawing joined by straight stretches.
func (p *Path) Polyline(list []Point) *Path {
	for i, q := range list {
		if i == 0 {
			p.Move(q.X, q.Y)
		} else {
			p.Line(q.X, q.Y)
		}
	}
	return p
}

// Ring adds a closed line of a thing, every point of it.
func (p *Path) Ring(f Frame, r shape.Ring) *Path {
	if len(r) > 0 {
		p.Lines(f, r).Close()
	}
	return p
}

// Thinned adds a closed line without points that change it by less than Eye.
func (p *Path) Thinned(f Frame, r shape.Ring) *Path {
	n := len(r)
	if n < 3 {
		return p
	}
	far := 0
	for i := range r { // the ring is split at the point farthest from the first
		if apart(r[i], r[0]) > apart(r[far], r[0]) {
			far = i
		}
	}
	t := thinners.Get().(*thinner)
	keep := t.keep(r, Eye/f.K, [2]int{0, far}, [2]int{far, n})
	for i := range r {
		if !keep[i] {
			continue
		}
		if x, y := f.At(r[i]); i == 0 {
			p.Move(x, y)
		} else {
			p.Line(x, y)
		}
	}
	thinners.Put(t)
	return p.Close()
}

// ThinnedLine is the points of an open line that change it by more than limit.
func ThinnedLine(line []Point, limit float64) []Point {
	if len(line) < 3 {
		return line
	}
	t := thinners.Get().(*thinner)
	defer thinners.Put(t)
	keep := t.keep(line, limit, [2]int{0, len(line) - 1})
	var out []Point
	for i, q := range line {
		if keep[i] {
			out = append(out, q)
		}
	}
	return out
}

// Eye is what nobody sees a line stray by, in millimetres of a drawing.
const Eye = 0.06

// A thinner finds the points that a line cannot do without (the method of
// Douglas and Peucker, 1973). Its room is used again.
type thinner struct {
	kept  []bool
	spans [][2]int
}

var thinners = sync.Pool{New: func() any { return new(thinner) }}

// keep marks the ends of the spans and what strays between them.
func (t *thinner) keep(r []Point, limit float64, spans ...[2]int) []bool {
	if cap(t.kept) < len(r)+1 {
		t.kept = make([]bool, len(r)+1)
	}
	keep := t.kept[:len(r)+1]
	clear(keep)
	t.spans = append(t.spans[:0], spans...)
	for len(t.spans) > 0 {
		s := t.spans[len(t.spans)-1]
		t.spans = t.spans[:len(t.spans)-1]
		keep[s[0]], keep[s[1]] = true, true
		if worst := bulge(r, s[0], s[1], limit*limit); worst > 0 {
			t.spans = append(t.spans, [2]int{s[0], worst}, [2]int{worst, s[1]})
		}
	}
	return keep
}

// bulge is the point between two that strays farthest from the line between
// them, 0 where none strays by more than the limit (squared).
func bulge(r []Point, from, to int, limit float64) int {
	a, b := r[from], r[to%len(r)]
	dx, dy := b.X-a.X, b.Y-a.Y
	length := dx*dx + dy*dy
	worst, most := 0, limit
	for i := from + 1; i < to; i++ {
		px, py := r[i].X-a.X, r[i].Y-a.Y
		var stray float64
		if t := px*dx + py*dy; t <= 0 || length == 0 {
			stray = px*px + py*py
		} else if t >= length {
			stray = (px-dx)*(px-dx) + (py-dy)*(py-dy)
		} else {
			c := px*dy - py*dx
			stray = c * c / length
		}
		if stray > most {
			worst, most = i, stray
		}
	}
	return worst
}

func apart(a, b Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return dx*dx + dy*dy
}
