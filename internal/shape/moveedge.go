package shape

import (
	"errors"
	"math"

	"hembook/internal/say"
)

// EdgeMoved returns the outline with an edge of count parts, from part first
// on, moved outwards by d millimetres (inwards where d is negative) along its
// normal. Its ends slide along the neighbouring edges, so that the line is cut
// off or carried on there; in between it lies d away from where it lay.
//
// The moved line is the offset of the edge's control polygon (after Tiller
// and Hanson 1984, from memory), which is exact for straight edges; the handles
// of its curves are then fitted to their true offset.
func (o Outline) EdgeMoved(first, count int, d float64) (Outline, error) {
	n := len(o.Edges)
	if count >= n || n < 2 {
		return o, errors.New(say.Of("shape.it-is-the-whole-outline"))
	}
	last := (first + count - 1) % n
	before, after := (first+n-1)%n, (last+1)%n
	line := controlLine(o, first, count)
	shifted := offsetLine(line, d)
	curved := curvesOf(o, first, count)
	for _, k := range curved {
		fitOffset(cubic(line[k:k+4]), shifted[k:k+4], d)
	}
	lead, trail := arriving(controlLine(o, before, 1)), leaving(controlLine(o, after, 1))
	onAtStart, onAtEnd := runAlike(leaving(line), lead), runAlike(arriving(line), trail)
	start := slide(shifted[0], leaving(line), line[0], lead)
	end := slide(shifted[len(shifted)-1], arriving(line), line[len(line)-1], trail)
	moved := Outline{From: o.From, Edges: append([]Edge(nil), o.Edges...)}
	if onAtStart {
		follow(&moved.Edges[before], start.Sub(line[0]), 1.0/3, 2.0/3)
	} else if t, ok := carriedTo(o, before, 1, shifted[0], leaving(line)); ok {
		_, start = cutCurve(&moved.Edges[before], o.Start(before), 0, t)
	} else {
		carryOn(&moved.Edges[before], o.Start(before), start, false)
	}
	if onAtEnd {
		follow(&moved.Edges[after], end.Sub(line[len(line)-1]), 2.0/3, 1.0/3)
	} else if t, ok := carriedTo(o, after, 0, shifted[len(shifted)-1], arriving(line)); ok && before != after {
		end, _ = cutCurve(&moved.Edges[after], o.Start(after), t, 1)
	} else {
		carryOn(&moved.Edges[after], o.Start(after), end, true)
	}
	endAt(shifted, curved, start, end, onAtStart, onAtEnd)
	k := 1
	for part := range count {
		i := (first + part) % n
		if e := &moved.Edges[i]; e.Curved {
			e.C1, e.C2 = shifted[k], shifted[k+1]
			k += 2
		}
		setStart(&moved, (i+1)%n, shifted[k])
		k++
	}
	setStart(&moved, first, start)
	for _, i := range [...]int{before, first, after} {
		if turnedRound(o, moved, i) {
			return o, errors.New(say.Of("shape.it-or-an-edge-beside-it-would"))
		}
	}
	return moved, nil
}

// turnedRound reports whether an edge runs backwards after a move, or has no
// length any more.
func turnedRound(o, moved Outline, i int) bool {
	was, ok := way(o.Start(i), o.Edges[i].To)
	is, still := way(moved.Start(i), moved.Edges[i].To)
	return ok && (!still || float64(was.X*is.X)+float64(was.Y*is.Y) <= 0)
}

// setStart moves the point where edge i begins, which is where the edge
// before it ends.
func setStart(o *Outline, i int, p Point) {
	if i == 0 {
		o.From = p
		i = len(o.Edges)
	}
	o.Edges[i-1].To = p
}

// follow lets the control points of a curve follow one of its ends, each by
// its share.
func follow(e *Edge, by Point, c1, c2 float64) {
	if e.Curved {
		e.C1, e.C2 = along(e.C1, by, c1), along(e.C2, by, c2)
	}
}

// controlLine lists the points of an edge of count parts, control points
// among them.
func controlLine(o Outline, first, count int) []Point {
	line := []Point{o.Start(first)}
	for part := range count {
		e := o.Edges[(first+part)%len(o.Edges)]
		if e.Curved {
			line = append(line, e.C1, e.C2)
		}
		line = append(line, e.To)
	}
	return line
}

// leaving and arriving are the directions of a line at its two ends: those of
// its first and last leg that has a length.
func leaving(line []Point) Point {
	for i := 1; i < len(line); i++ {
		if dir, ok := way(line[0], line[i]); ok {
			return dir
		}
	}
	return Point{}
}

func arriving(line []Point) Point {
	end := line[len(line)-1]
	for i := len(line) - 2; i >= 0; i-- {
		if dir, ok := way(line[i], end); ok {
			return dir
		}
	}
	return Point{}
}

// way is the direction from a to b, and whether they lie apart.
func way(a, b Point) (Point, bool) {
	d := b.Sub(a)
	length := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
	if !(length > 1e-6) {
		return Point{}, false
	}
	return Point{X: d.X / length, Y: d.Y / length}, true
}

// along is p moved by so much of a way.
func along(p, way Point, by float64) Point {
	return Point{X: p.X + float64(way.X*by), Y: p.Y + float64(way.Y*by)}
}

// offsetLine moves every leg of a line outwards, to its right, by d, and lets
// neighbouring legs meet again.
func offsetLine(line []Point, d float64) []Point {
	out := make([]Point, len(line))
	for i, p := range line {
		in, out1 := arriving(line[:i+1]), leaving(line[i:])
		if in == (Point{}) {
			in = out1
		}
		if out1 == (Point{}) {
			out1 = in
		}
		normal := Point{X: in.Y + out1.Y, Y: -in.X - out1.X} // the two normals added
		size := 1 + float64(in.X*out1.X) + float64(in.Y*out1.Y)
		if size < 0.1 { // the legs double back: no meeting point worth the name
			normal, size = Point{X: in.Y, Y: -in.X}, 1
		}
		out[i] = along(p, normal, d/size)
	}
	return out
}

// leastTurn is the sine of the least angle at which two edges are taken to
// meet in a corner: below it, where their lines cross says little.
const leastTurn = 0.2

// runAlike reports whether two edges run on in so nearly the same line where they
// meet that neither can be cut by the other moved: their corner goes straight out.
func runAlike(dir, neighbour Point) bool {
	return math.Abs(float64(dir.X*neighbour.Y)-float64(dir.Y*neighbour.X)) < leastTurn
}

// slide is where a moved end comes to lie: on the neighbouring edge's own
// line through the old end, or straight out where the two run alike, with a
// gradual passage between, so that a little change of the angle never makes
// the corner jump.
func slide(moved, dir, old, neighbour Point) Point {
	turn := float64(dir.X*neighbour.Y) - float64(dir.Y*neighbour.X)
	gap := moved.Sub(old)
	out := float64(dir.X*gap.Y) - float64(dir.Y*gap.X)
	if !runAlike(dir, neighbour) {
		return along(old, neighbour, out/turn)
	}
	crossing := along(old, neighbour, out/math.Copysign(leastTurn, turn))
	return along(moved, crossing.Sub(moved), math.Abs(turn)/leastTurn)
}
