package shape

import (
	"errors"
	"math"
	"slices"

	"hembook/internal/say"
)

// A Line is a line on a piece in straight stretches, millimetres; curves are followed
// within a five-hundredth of a millimetre.
type Line []Point

const lineTolerance = 0.002 // mm

// Length is how long the line is, in millimetres.
func (l Line) Length() float64 {
	sum := 0.0
	for k := 1; k < len(l); k++ {
		sum += distance(l[k], l[k-1])
	}
	return sum
}

// At is the place so many millimetres along the line and the way it runs there, of length
// 1. A distance before the line or beyond it gives its end.
func (l Line) At(s float64) (at, way Point) {
	if len(l) < 2 {
		return Point{}, Point{X: 1}
	}
	for k := 1; ; k++ {
		far := distance(l[k], l[k-1])
		if s <= far || k == len(l)-1 {
			way = unit(l[k].Sub(l[k-1]))
			return l[k-1].Add(way.times(clamp(s, 0, far))), way
		}
		s -= far
	}
}

// Stretch is the part of the line from one distance along it to another.
func (l Line) Stretch(from, to float64) Line {
	start, _ := l.At(from)
	end, _ := l.At(to)
	out := Line{start}
	s := 0.0
	for k := 1; k < len(l); k++ {
		if s += distance(l[k], l[k-1]); s > from+touch && s < to-touch {
			out = append(out, l[k])
		}
	}
	return append(out, end)
}

// What keeps a line from being drawn.
var (
	errLineOutside = say.Error("shape.it-lies-outside-the-piece")
	errLineCrossed = say.Error("shape.the-edge-curves-too-sharply-for-a")
)

// Beside is the line that runs inside a named edge, so far from it everywhere, from where
// it enters the piece to where it leaves it.
func (o Outline) Beside(edge string, inside float64) (Line, error) {
	side, ok := o.Side(edge)
	if !ok {
		return nil, errors.New(say.Of("shape.there-is-no-edge", edge))
	}
	along := o.sideLine(side)
	line := make(Line, 0, len(along))
	ways := make([]Point, len(along)-1)
	for k := range ways {
		ways[k] = unit(along[k+1].Sub(along[k]))
	}
	for k, p := range along {
		in, out := ways[max(k-1, 0)], ways[min(k, len(ways)-1)]
		mid := unit(in.Add(out))
		cos := dot(mid, in)
		if !(cos > 0.1) {
			return nil, errLineCrossed
		}
		line = append(line, p.Add(mid.left().times(inside/cos)))
	}
	for k := range ways { // each stretch must still run its way
		if dot(line[k+1].Sub(line[k]), ways[k]) <= 0 {
			return nil, errLineCrossed
		}
	}
	return o.reaching(line)
}

// sideLine is a side in straight stretches.
func (o Outline) sideLine(side NamedEdge) Line {
	n := len(o.Edges)
	part := Outline{From: o.Start(side.First)}
	for k := range side.Count {
		part.Edges = append(part.Edges, o.Edges[(side.First+k)%n])
	}
	line, _ := part.Flatten(lineTolerance)
	return append(Line(line), part.Edges[len(part.Edges)-1].To)
}

// reaching carries a line on at both ends and keeps the stretch within the piece that its
// middle lies on.
func (o Outline) reaching(line Line) (Line, error) {
	least, most := o.Bounds()
	far := distance(least, most)
	middle := far + line.Length()/2
	last := len(line) - 1
	long := slices.Concat(Line{line[0].Sub(unit(line[1].Sub(line[0])).times(far))}, line, Line{line[last].Add(unit(line[last].Sub(line[last-1])).times(far))})
	at, _ := long.At(middle)
	if !o.Contains(at) {
		return nil, errLineOutside
	}
	from, to := 0.0, long.Length()
	for _, s := range o.crossingsOf(long) {
		if s <= middle {
			from = s
		} else {
			to = s
			break
		}
	}
	out := long.Stretch(from, to).straightened()
	out[0], out[len(out)-1] = snap(out[0]), snap(out[len(out)-1])
	return out, nil
}

// straightened leaves out points between which a line runs straight on.
func (l Line) straightened() Line {
	out := Line{l[0]}
	for k := 1; k+1 < len(l); k++ {
		if off(l[k], out[len(out)-1], l[k+1]) > 1e-7 {
			out = append(out, l[k])
		}
	}
	return append(out, l[len(l)-1])
}

// crossingsOf are the distances along a line at which it meets the outline, in order.
func (o Outline) crossingsOf(line Line) []float64 {
	ring, _ := o.Flatten(lineTolerance)
	var out []float64
	s := 0.0
	for k := 1; k < len(line); k++ {
		a, b := line[k-1], line[k]
		for i := range ring {
			if part, ok := meetsAt(a, b, ring[i], ring[(i+1)%len(ring)]); ok {
				out = append(out, s+float64(part*distance(a, b)))
			}
		}
		s += distance(a, b)
	}
	slices.Sort(out)
	return out
}

// meetsAt is how far from a to b, as a part of it, the stretch from c to d is met.
func meetsAt(a, b, c, d Point) (float64, bool) {
	ab, cd, ac := b.Sub(a), d.Sub(c), c.Sub(a)
	den := cross(ab, cd)
	if math.Abs(den) < 1e-12 {
		return 0, false
	}
	t, u := cross(ac, cd)/den, cross(ac, ab)/den
	const fuzz = 1e-9
	return t, t >= -fuzz && t <= 1+fuzz && u >= -fuzz && u <= 1+fuzz
}

// Leaves is how far along a line it leaves the piece before its end; false where it does
// not. It may begin and end on the outline.
func (o Outline) Leaves(line Line) (float64, bool) {
	long, from := line.Length(), 0.0
	for _, s := range append(o.crossingsOf(line), long) {
		if s-from > slack {
			if at, _ := line.At((from + s) / 2); !o.nearOrIn(at) {
				return from, true
			}
		}
		from = max(from, s)
	}
	return 0, false
}

// slack is how far a line may lie beyond the outline, mm: what curves in straight
// stretches are off.
const slack = 0.02

func (o Outline) nearOrIn(p Point) bool {
	if o.Contains(p) {
		return true
	}
	ring, _ := o.Flatten(lineTolerance)
	for i, a := range ring {
		if off(p, a, ring[(i+1)%len(ring)]) < slack {
			return true
		}
	}
	return false
}

// off is how far a place lies from a straight stretch.
func off(p, a, b Point) float64 {
	ab := b.Sub(a)
	if len2 := dot(ab, ab); len2 > 0 {
		return distance(p, lerp(a, b, clamp(dot(p.Sub(a), ab)/len2, 0, 1)))
	}
	return distance(p, a)
}

// Crosses is how far along a line another meets it first.
func (l Line) Crosses(other Line) (float64, bool) {
	s := 0.0
	for k := 1; k < len(l); k++ {
		first, found := math.Inf(1), false
		for i := 1; i < len(other); i++ {
			if part, ok := meetsAt(l[k-1], l[k], other[i-1], other[i]); ok {
				first, found = min(first, part), true
			}
		}
		if found {
			return s + float64(first*distance(l[k], l[k-1])), true
		}
		s += distance(l[k], l[k-1])
	}
	return 0, false
}

// MetBy is how far along a named edge, as the outline runs, a line begins, ends or crosses
// it, whichever of these comes first on the line.
func (o Outline) MetBy(edge string, line Line) (float64, bool) {
	side, ok := o.Side(edge)
	if !ok || len(line) < 2 {
		return 0, false
	}
	along := o.sideLine(side)
	ends := Line{line[0], line[len(line)-1]}
	for _, p := range ends {
		s := 0.0
		for k := 1; k < len(along); k++ {
			a, b := along[k-1], along[k]
			if off(p, a, b) < slack {
				return clamp(s+dot(p.Sub(a), unit(b.Sub(a))), 0, side.Length), true
			}
			s += distance(a, b)
		}
	}
	for i := 1; i < len(line); i++ {
		s := 0.0
		for k := 1; k < len(along); k++ {
			a, b := along[k-1], along[k]
			if part, ok := meetsAt(a, b, line[i-1], line[i]); ok {
				return s + float64(part*distance(a, b)), true
			}
			s += distance(a, b)
		}
	}
	return 0, false
}

// Nearest is how far along a line the point of it lies that is nearest to another, and how
// far that lies beside it, mm.
func (l Line) Nearest(at Point) (along, beside float64) {
	s := 0.0
	beside = math.Inf(1)
	for k := 1; k < len(l); k++ {
		a, ab := l[k-1], l[k].Sub(l[k-1])
		part := 0.0
		if len2 := dot(ab, ab); len2 > 0 {
			part = clamp(dot(at.Sub(a), ab)/len2, 0, 1)
		}
		if away := distance(at, lerp(a, l[k], part)); away < beside {
			beside, along = away, s+float64(part*distance(a, l[k]))
		}
		s += distance(a, l[k])
	}
	return along, beside
}

// Holds reports whether a point lies on a line, and how far along it.
func (l Line) Holds(at Point) (along float64, ok bool) {
	along, beside := l.Nearest(at)
	return along, beside < slack
}

// LineOf is a line drawn by edges from a point.
func LineOf(from Point, edges []Edge) Line {
	o := Outline{From: from, Edges: edges}
	ring, _ := o.Flatten(lineTolerance)
	return append(Line(ring), edges[len(edges)-1].To)
}

// Round is the outline all round as a line that ends where it begins, opened out about its
// fold where it is half of a piece.
func (o Outline) Round(half bool) Line {
	ring, _ := o.Flatten(lineTolerance)
	fold := o.FoldEdge()
	if !half || fold < 0 {
		return append(Line(ring), ring[0])
	}
	a, b := o.Start(fold), o.Edges[fold].To
	way := unit(b.Sub(a))
	var out Line
	n := len(ring)
	start := 0
	for i, p := range ring {
		if p == b {
			start = i
		}
	}
	for k := range n { // from the end of the fold round to its beginning
		if p := ring[(start+k)%n]; k == 0 || off(p, a, b) > 1e-9 || p == a {
			out = append(out, p)
		}
	}
	for k := len(out) - 2; k > 0; k-- {
		p := out[k]
		foot := a.Add(way.times(dot(p.Sub(a), way)))
		out = append(out, foot.Add(foot.Sub(p)))
	}
	return append(out, out[0])
}

// Set is the line moved so that the upper left corner of the box about it lies at a place,
// and then turned about that against the clock, in radians.
func (l Line) Set(at Point, turn float64) Line {
	left, top := math.Inf(1), math.Inf(-1)
	for _, p := range l {
		left, top = min(left, p.X), max(top, p.Y)
	}
	sin, cos := math.Sincos(turn)
	out := make(Line, len(l))
	for k, p := range l {
		x, y := p.X-left, p.Y-top
		out[k] = snap(Point{at.X + float64(x*cos) - float64(y*sin), at.Y + float64(x*sin) + float64(y*cos)})
	}
	return out
}

// Folded is a line with what lies beyond the outline's fold turned over it; as it is where
// the outline has none.
func (o Outline) Folded(line Line) Line {
	fold := o.FoldEdge()
	if fold < 0 {
		return line
	}
	a := o.Start(fold)
	way := unit(o.Edges[fold].To.Sub(a))
	var out Line
	for i, p := range line {
		beyond := cross(way, p.Sub(a))
		if i > 0 {
			if before := cross(way, line[i-1].Sub(a)); before*beyond < 0 { // it meets the fold in between
				out = append(out, line[i-1].Add(p.Sub(line[i-1]).times(before/(before-beyond))))
			}
		}
		if beyond < 0 {
			foot := a.Add(way.times(dot(p.Sub(a), way)))
			p = foot.Add(foot.Sub(p))
		}
		out = append(out, p)
	}
	return out
}

// Over is the edge over which a line reaches farthest out of the piece, and by how much; 0
// where it lies within. Over the fold of a half it may reach into the other half.
func (o Outline) Over(line Line, half bool) (edge string, by float64) {
	fold := o.FoldEdge()
	for _, p := range line {
		if half && fold >= 0 {
			if a, way := o.Start(fold), unit(o.Edges[fold].To.Sub(o.Start(fold))); cross(way, p.Sub(a)) < 0 { // beyond the fold
				foot := a.Add(way.times(dot(p.Sub(a), way)))
				p = foot.Add(foot.Sub(p))
			}
		}
		if o.Contains(p) {
			continue
		}
		least, over := math.Inf(1), ""
		for _, side := range o.Sides() {
			along := o.sideLine(side)
			for k := 1; k < len(along); k++ {
				if d := off(p, along[k-1], along[k]); d < least {
					least, over = d, side.Name
				}
			}
		}
		if least > by {
			edge, by = over, least
		}
	}
	return edge, by
}
