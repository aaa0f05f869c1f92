package shape

import (
	"errors"
	"math"
	"slices"

	"hembook/internal/say"
)

// A Slash is a cut through a piece from one place on its outline to another. One of the
// parts is moved so that the ends lie apart by Open, in millimetres: where they are
// negative, the parts lap.
type Slash struct {
	From, To Point
	On       [2]string // the edges that its ends lie on
	Open     [2]float64
	Moves    string // an edge of the part that is moved; "" for the smaller part
}

// A Slashed is an outline that was slashed and opened, or lapped.
type Slashed struct {
	Outline Outline
	From    []int // for each edge the old one it is of, that of the end for what lies in the opening

	base  Outline // the old one, with corners where it was cut
	was   []int   // for each new edge that of base; −1 in an opening
	moves []bool  // for each edge of base, whether it was moved

	about, shift Point
	cos, sin     float64
	part         Outline // what was moved, before
	even         bool    // both parts are equal
}

// Moved is where a point of the part that was moved has come to.
func (s *Slashed) Moved(p Point) Point { return s.Stayed(s.move(p)) }

// Stayed is where a point of the other part has come to: it stays, unless both parts are
// equal, which turn by half each so that the grain runs midway between them.
func (s *Slashed) Stayed(p Point) Point {
	if !s.even {
		return p
	}
	half := math.Atan2(s.sin, s.cos) / 2
	return s.about.Add(turnedBy(p.Sub(s.about), math.Cos(half), -math.Sin(half)))
}

func (s *Slashed) move(p Point) Point {
	return s.about.Add(s.shift).Add(turnedBy(p.Sub(s.about), s.cos, s.sin))
}

func turnedBy(d Point, cos, sin float64) Point {
	return Point{float64(d.X*cos) - float64(d.Y*sin), float64(d.X*sin) + float64(d.Y*cos)}
}

// back is where a point lay before it was moved.
func (s *Slashed) back(p Point) Point {
	return s.about.Add(turnedBy(p.Sub(s.about).Sub(s.shift), s.cos, -s.sin))
}

// Holds reports whether a point lies in the part that is moved.
func (s *Slashed) Holds(p Point) bool { return s.part.Contains(p) }

// Along is how far along a named edge of the new outline lies what lay so far along it on
// the old one, and whether it was moved.
func (s *Slashed) Along(edge string, at float64) (along float64, moved bool) {
	k, off, ok := s.base.partAt(edge, at)
	if !ok {
		return at, false
	}
	j := slices.Index(s.was, k)
	if j < 0 { // folded away
		for k, off = k-1, math.Inf(1); j < 0 && k >= 0; k-- {
			j = slices.Index(s.was, k)
		}
		if j < 0 {
			return 0, true
		}
		k++
	}
	side, _ := s.Outline.Side(edge)
	sum := 0.0
	for n := range side.Count {
		i := (side.First + n) % len(s.Outline.Edges)
		if i == j {
			return sum + min(off, s.Outline.EdgeLength(i)), s.moves[k]
		}
		sum += s.Outline.EdgeLength(i)
	}
	return sum, s.moves[k]
}

// partAt finds the part of a named edge on which a distance along it lies, and how far
// along that.
func (o Outline) partAt(edge string, at float64) (part int, off float64, ok bool) {
	side, ok := o.Side(edge)
	for n := range side.Count {
		part = (side.First + n) % len(o.Edges)
		length := o.EdgeLength(part)
		if at <= length+sameCorner || n == side.Count-1 {
			return part, min(at, length), ok
		}
		at -= length
	}
	return 0, 0, false
}

// ErrSlashLeaves says that a slash does not run through the piece.
var ErrSlashLeaves = say.Error("shape.the-slash-would-leave-the-piece")

// ErrFoldBent says that a slash would bend the edge on the fold.
var ErrFoldBent = say.Error("shape.the-edge-on-the-fold-would-no")

// Slashed cuts the outline along a slash and moves one part so that both ends open by
// what it says. The openings lie opposite each other: with both cut lines they are an
// isosceles trapezoid, whose parallel sides they are. Where the parts lap, as much is cut
// off the part that is moved, and straight steps join edges that do not meet.
func (o Outline) Slashed(a Slash) (Slashed, error) {
	var s Slashed
	length := distance(a.From, a.To)
	switch {
	case length < 1:
		return s, errors.New(say.Of("shape.both-ends-of-the-slash-lie-at"))
	case a.Open[0]*a.Open[1] < 0:
		return s, errors.New(say.Of("shape.it-cannot-open-at-one-end-and"))
	case math.Abs(a.Open[0]-a.Open[1]) >= length:
		return s, errors.New(say.Of("shape.its-ends-cannot-lie-so-far-apart"))
	}
	beside := unit(a.To.Sub(a.From)).left().times(0.01)
	for k := 1; k < 20; k++ {
		if at := lerp(a.From, a.To, float64(k)/20); !o.Contains(at.Add(beside)) || !o.Contains(at.Sub(beside)) {
			return s, ErrSlashLeaves
		}
	}
	c := cutUp{o, indices(len(o.Edges))}
	if c.vertex(a.From) != nil || c.vertex(a.To) != nil {
		return s, errors.New(say.Of("shape.its-ends-do-not-lie-on-the"))
	}
	first := s.choose(&c, a)
	s.motion(a, first, length)
	ends := [2]Point{a.From, a.To} // of what is moved
	if a.Open[0] < 0 || a.Open[1] < 0 {
		var err error
		if ends, err = s.lapped(&c, a, first); err != nil {
			return s, err
		}
	}
	s.assemble(&c, a, first, ends)
	if s.even {
		s.Outline = s.Outline.moved(func(p Point) Point { return snap(s.Stayed(p)) })
	}
	for _, side := range s.Outline.Sides() {
		if side.Fold && !s.Outline.straightSide(side) {
			return s, ErrFoldBent
		}
	}
	return s, nil
}

// choose tells which part is moved: whether that which runs from the first end of the
// slash to the second.
func (s *Slashed) choose(c *cutUp, a Slash) (first bool) {
	one, two := c.stretch(a.From, a.To), c.stretch(a.To, a.From)
	first = one.turns(two)
	has := func(r *stretch) bool {
		return slices.ContainsFunc(r.Edges, func(e Edge) bool { return e.Name == a.Moves })
	}
	if one.holdsFold() == two.holdsFold() && has(one) != has(two) {
		first = has(one)
	} else {
		const equal = 0.5 // mm round either part; own choice, no source
		s.even = !one.holdsFold() && !two.holdsFold() && math.Abs(one.length()-two.length()) < equal
	}
	moving, back := one, a.From
	if !first {
		moving, back = two, a.To
	}
	s.part = Outline{From: moving.Start, Edges: append(slices.Clone(moving.Edges), Edge{To: back})}
	return first
}

// motion finds how the part is moved.
func (s *Slashed) motion(a Slash, first bool, length float64) {
	u := unit(a.To.Sub(a.From))
	out := u.left()
	if first {
		out = u.right()
	}
	lean := (a.Open[0] - a.Open[1]) / (2 * length)
	w := u.times(lean).Add(out.times(math.Sqrt(1 - float64(lean*lean))))
	now := a.To.Add(w.times(a.Open[1])).Sub(a.From.Add(w.times(a.Open[0]))).times(1 / length)
	s.about, s.shift = a.From, w.times(a.Open[0])
	s.cos, s.sin = dot(u, now), cross(u, now)
}

// lapped finds where the part that is moved is cut off, so that it ends on the slash once
// it was moved, and makes corners there.
func (s *Slashed) lapped(c *cutUp, a Slash, first bool) (ends [2]Point, err error) {
	p, q := s.back(a.From), s.back(a.To)
	way := unit(q.Sub(p))
	middle := dot(lerp(p, q, 0.5).Sub(p), way)
	low, high := math.Inf(-1), math.Inf(1)
	for i := range s.part.Edges[:len(s.part.Edges)-1] {
		for _, at := range s.part.crossings(i, p, way) {
			if d := dot(at.Sub(p), way); d < middle && d > low {
				low, ends[0] = d, at
			} else if d >= middle && d < high {
				high, ends[1] = d, at
			}
		}
	}
	wide := errors.New(say.Of("shape.it-would-lap-farther-than-the-piece"))
	for k, end := range [...]Point{a.From, a.To} {
		if a.Open[k] == 0 { // it turns there
			ends[k] = end
		} else if math.IsInf([...]float64{low, high}[k], 0) || c.vertex(ends[k]) != nil {
			return ends, wide
		}
	}
	if !s.part.Contains(lerp(ends[0], ends[1], 0.5)) {
		return ends, wide
	}
	return ends, nil
}

// crossings are the points at which edge i crosses a line.
func (o Outline) crossings(i int, p, way Point) (list []Point) {
	const steps = 64
	c := o.cubic(i)
	above := func(t float64) bool { return cross(way, c.at(t).Sub(p)) > 0 }
	for k := range steps {
		lo, hi := float64(k)/steps, float64(k+1)/steps
		rising := above(hi)
		if above(lo) == rising {
			continue
		}
		for range 60 {
			if mid := (lo + hi) / 2; above(mid) == rising {
				hi = mid
			} else {
				lo = mid
			}
		}
		list = append(list, c.at(hi))
	}
	return list
}

// assemble sets what was moved, what stays and what lies in the openings end to end.
func (s *Slashed) assemble(c *cutUp, a Slash, first bool, ends [2]Point) {
	s.base, s.moves = c.o, make([]bool, len(c.o.Edges))
	whole, moving := [2]Point{a.From, a.To}, ends
	on := a.On
	if !first {
		whole, moving, on = [2]Point{a.To, a.From}, [2]Point{ends[1], ends[0]}, [2]string{a.On[1], a.On[0]}
	}
	for _, i := range c.between(whole[0], whole[1]) {
		s.moves[i] = true
	}
	edges := c.between(moving[0], moving[1])
	at := s.move(moving[0])
	s.join(c, whole[0], at, on[0], edges[0])
	for _, i := range edges {
		e := c.o.Edges[i]
		e.To, e.C1, e.C2 = snap(s.move(e.To)), s.move(e.C1), s.move(e.C2)
		s.add(e, i, c.from[i])
	}
	still := c.between(whole[1], whole[0])
	s.join(c, s.move(moving[1]), whole[1], on[1], still[0])
	for _, i := range still {
		s.add(c.o.Edges[i], i, c.from[i])
	}
	s.begin()
}

func (s *Slashed) add(e Edge, was, from int) {
	s.Outline.Edges, s.was, s.From = append(s.Outline.Edges, e), append(s.was, was), append(s.From, from)
}

// join draws what lies in an opening: straight on, as a part of the edge that its end lies
// on, which ends or begins there.
func (s *Slashed) join(c *cutUp, from, to Point, on string, next int) {
	if distance(from, to) < sameCorner {
		return
	}
	of := next
	if n := len(c.o.Edges); c.o.Edges[next].Name != on && c.o.Edges[(next+n-1)%n].Name == on {
		of = (next + n - 1) % n
	}
	s.add(Edge{Name: c.o.Edges[of].Name, Fold: c.o.Edges[of].Fold, To: snap(to)}, -1, c.from[of])
}

// begin lets the outline begin with its old first edge, where that is left.
func (s *Slashed) begin() {
	n, first := len(s.From), 0
	for k := range n {
		if s.From[k] == 0 && s.From[(k+n-1)%n] != 0 {
			first = k
		}
	}
	s.Outline.Edges = append(slices.Clone(s.Outline.Edges[first:]), s.Outline.Edges[:first]...)
	s.From = append(slices.Clone(s.From[first:]), s.From[:first]...)
	s.was = append(slices.Clone(s.was[first:]), s.was[:first]...)
	s.Outline.From = s.Outline.Edges[n-1].To
}

// between are the edges from one corner to another.
func (c *cutUp) between(from, to Point) (list []int) {
	n := len(c.o.Edges)
	first := -1
	for i := range n {
		if distance(c.o.Start(i), from) < sameCorner {
			first = i
		}
	}
	for k := 0; first >= 0 && k < n; k++ {
		i := (first + k) % n
		list = append(list, i)
		if distance(c.o.Edges[i].To, to) < sameCorner {
			break
		}
	}
	return list
}

// straightSide reports whether a side runs straight from end to end.
func (o Outline) straightSide(side NamedEdge) bool {
	from := o.Start(side.First)
	way := unit(o.Edges[(side.First+side.Count-1)%len(o.Edges)].To.Sub(from))
	for n := range side.Count {
		e := o.Edges[(side.First+n)%len(o.Edges)]
		if e.Curved || math.Abs(cross(way, e.To.Sub(from))) > 1e-3 {
			return e.Curved
		}
	}
	return true
}
