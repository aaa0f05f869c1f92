// Package shape holds the geometry of flat pattern pieces: outlines made
// of straight and curved edges, their lengths, areas and widths, the cut
// outline that seam allowances give them, and the standard pieces that
// follow from a few numbers (rectangles, ring skirts, gores, godets).
//
// All lengths are float64 millimetres, x across the piece and y up along
// the grain; areas are square millimetres. Every figure is a pure function
// of its input, and coordinates that come out of an offset are rounded to
// a millionth of a millimetre, so that the same outline gives the same
// bytes on any machine. No input makes the package panic or loop: values
// that are not numbers, or that lie beyond reach, are answered as faults.
//
// It knows nothing of cloth, seams, units or records, and it does not
// place pieces beside each other.
package shape

import "math"

// reach is the greatest coordinate an outline may have, in millimetres:
// 100 metres, far beyond any garment, close enough that sums stay exact to
// the millionth of a millimetre.
const reach = 1e5

// grid is the number of coordinate steps in one millimetre: results are
// rounded to whole steps.
const grid = 1e6

// A Point is a place on the piece, in millimetres: X across, Y up along
// the grain.
type Point struct{ X, Y float64 }

// An Edge is one stretch of an outline, from the end of the edge before it
// (or from [Outline.From]) to To. It is straight, or, when Curved, a cubic
// Bézier curve with control points C1 and C2. Fold marks an edge that lies
// on the fold of the cloth: it gets no allowance.
//
// Neighbouring edges of the same name are parts of one edge; long arcs are
// drawn that way.
type Edge struct {
	Name   string
	To     Point
	C1, C2 Point
	Curved bool
	Fold   bool
}

// An Outline is the closed boundary of a piece. The last edge ends at
// From, and the inside lies to the left of the way it runs
// (counter-clockwise); see [Outline.Flaws].
type Outline struct {
	From  Point
	Edges []Edge
}

// Start returns the point where edge i begins.
func (o Outline) Start(i int) Point {
	if i == 0 {
		return o.From
	}
	return o.Edges[i-1].To
}

// A NamedEdge is a named edge with all its parts: Count edges from index First
// on, going round past the last edge to the first where need be.
type NamedEdge struct {
	Name         string
	First, Count int
	Length       float64
	Fold         bool
}

// Sides returns the named edges in order, neighbouring parts of one name
// taken together, with their lengths in millimetres.
func (o Outline) Sides() []NamedEdge {
	sides := o.spans()
	for k := range sides {
		sides[k].Length = o.lengthOf(sides[k])
	}
	return sides
}

// spans are the sides without their lengths, which take most of the work.
func (o Outline) spans() []NamedEdge {
	var sides []NamedEdge
	for s := range o.eachSpan {
		sides = append(sides, s)
	}
	return startAtFirstEdge(sides, len(o.Edges))
}

// eachSpan gives the spans in the order of their edges, from the first edge on
// that is no further part of the one before it.
func (o Outline) eachSpan(yield func(NamedEdge) bool) {
	n := len(o.Edges)
	if n == 0 {
		return
	}
	begin := 0
	for begin < n-1 && o.continues(begin) {
		begin++
	}
	for k := 0; k < n; {
		i := (begin + k) % n
		s := NamedEdge{Name: o.Edges[i].Name, First: i, Count: 1, Fold: o.Edges[i].Fold}
		for k++; k < n && o.continues((begin+k)%n); k++ {
			s.Count++
			s.Fold = s.Fold || o.Edges[(begin+k)%n].Fold
		}
		if !yield(s) {
			return
		}
	}
}

// continues reports whether edge i is a further part of the edge before it.
func (o Outline) continues(i int) bool {
	before := o.Edges[(i+len(o.Edges)-1)%len(o.Edges)]
	return len(o.Edges) > 1 && o.Edges[i].Name != "" && o.Edges[i].Name == before.Name
}

// startAtFirstEdge turns the list so that the side holding edge 0 leads.
func startAtFirstEdge(sides []NamedEdge, edges int) []NamedEdge {
	for k, s := range sides {
		if s.First == 0 || s.First+s.Count > edges {
			return append(append([]NamedEdge{}, sides[k:]...), sides[:k]...)
		}
	}
	return sides
}

// Side returns the edge of that name with all its parts, and whether the
// outline has it.
func (o Outline) Side(name string) (NamedEdge, bool) {
	s, ok := o.span(name)
	if ok {
		s.Length = o.lengthOf(s)
	}
	return s, ok
}

// span is [Outline.Side] without its length. Where several edges of one name lie
// apart it is the one that leads in [Outline.Sides].
func (o Outline) span(name string) (found NamedEdge, ok bool) {
	for s := range o.eachSpan {
		if s.Name == name && (!ok || s.First+s.Count > len(o.Edges)) {
			found, ok = s, true
		}
	}
	return found, ok
}

// lengthOf is the length of all parts of a side.
func (o Outline) lengthOf(s NamedEdge) (sum float64) {
	for k := range s.Count {
		sum += o.EdgeLength((s.First + k) % len(o.Edges))
	}
	return sum
}

// LengthOf returns the length in millimetres of the edge of that name with
// all its parts, and whether the outline has it.
func (o Outline) LengthOf(name string) (float64, bool) {
	s, ok := o.Side(name)
	return s.Length, ok
}

// EdgeLength returns the length of edge i in millimetres, curves within a
// hundredth of a millimetre.
func (o Outline) EdgeLength(i int) float64 {
	e := o.Edges[i]
	if !e.Curved {
		return distance(o.Start(i), e.To)
	}
	return o.cubic(i).length()
}

// Perimeter returns the length of the whole outline in millimetres.
func (o Outline) Perimeter() float64 {
	sum := 0.0
	for i := range o.Edges {
		sum += o.EdgeLength(i)
	}
	return sum
}

// Area returns the area inside the outline in square millimetres, exact
// for curves (Green's theorem). It is negative for an outline that runs
// clockwise.
func (o Outline) Area() float64 {
	sum := 0.0
	for i, e := range o.Edges {
		if e.Curved {
			sum += o.cubic(i).minus(o.From).areaFromOrigin()
			continue
		}
		sum += cross(o.Start(i).Sub(o.From), e.To.Sub(o.From)) / 2
	}
	return sum
}

// Bulge returns the area between edge i and the straight line of its ends, in
// square millimetres: above 0 where the edge bulges out of an outline that runs
// against the clock.
func (o Outline) Bulge(i int) float64 {
	if !o.Edges[i].Curved {
		return 0
	}
	c := o.cubic(i).minus(o.Start(i))
	return c.areaFromOrigin() // its chord runs through the origin
}

// Bounds returns the corners of the smallest upright rectangle that holds
// the outline, curves included: the least and the greatest x and y.
func (o Outline) Bounds() (least, most Point) {
	least, most = o.From, o.From
	for i, e := range o.Edges {
		least, most = widen(least, most, e.To)
		if e.Curved {
			least, most = o.cubic(i).widen(least, most)
		}
	}
	return least, most
}

// cubic returns edge i as a cubic; a straight edge has its control points
// at its thirds.
func (o Outline) cubic(i int) cubic {
	a, e := o.Start(i), o.Edges[i]
	if e.Curved {
		return cubic{a, e.C1, e.C2, e.To}
	}
	return cubic{a, lerp(a, e.To, 1.0/3), lerp(a, e.To, 2.0/3), e.To}
}

// Sub returns p − q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Apart is how far two places lie from each other, along the longer way of the
// two in which they are measured.
func (p Point) Apart(q Point) float64 {
	d := p.Sub(q)
	return math.Max(math.Abs(d.X), math.Abs(d.Y))
}

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// times returns p stretched by k. The conversion keeps a compiler from
// fusing the product with a following sum, which would make results differ
// between processors.
func (p Point) times(k float64) Point { return Point{float64(p.X * k), float64(p.Y * k)} }

// left returns p turned by a quarter counter-clockwise, right clockwise.
func (p Point) left() Point  { return Point{-p.Y, p.X} }
func (p Point) right() Point { return Point{p.Y, -p.X} }

func (p Point) finite() bool {
	return math.Abs(p.X) <= reach && math.Abs(p.Y) <= reach // false for NaN
}

func cross(a, b Point) float64 { return float64(a.X*b.Y) - float64(a.Y*b.X) }
func dot(a, b Point) float64   { return float64(a.X*b.X) + float64(a.Y*b.Y) }

func lerp(a, b Point, t float64) Point { return a.Add(b.Sub(a).times(t)) }

func distance(a, b Point) float64 {
	d := b.Sub(a)
	return math.Sqrt(dot(d, d))
}

// snap rounds to the millionth of a millimetre.
func snap(p Point) Point {
	return Point{math.Round(float64(p.X*grid))/grid + 0, math.Round(float64(p.Y*grid))/grid + 0}
}

func widen(least, most, p Point) (Point, Point) {
	return Point{min(least.X, p.X), min(least.Y, p.Y)}, Point{max(most.X, p.X), max(most.Y, p.Y)}
}
