package shape

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"hembook/internal/say"
)

// A PleatFold is one fold of a pleat on an edge: its outer fold comes to lie Along
// millimetres from where the edge begins, and the cloth goes Depth millimetres under
// what lies onward along the edge, or under what lies before. A knife pleat is one
// fold; box and inverted pleats are two that lie the other way each.
type PleatFold struct {
	Along, Depth float64
	Onward       bool
	Taper        Taper // of one that is drawn open
}

// A Taper says that a fold goes another depth under from so many millimetres inside its
// edge on; between them its depth changes evenly, and the place it is laid on runs
// straight. The zero Taper is none.
type Taper struct{ Until, Depth float64 }

// RunsOut reports whether the fold comes to nothing there: its lines end in one point.
func (t Taper) RunsOut() bool { return t.Until > 0 && t.Depth == 0 }

// PleatLines are the lines by which a pleat is folded, on the cloth laid open, each from
// the pleated edge to where it leaves the piece: the outer fold is laid on the place.
type PleatLines struct {
	Place, Inner, Outer Line
	Mouth               [2]float64 // mm along the pleated edge, what is folded away
	Far                 string     // the edge at which they leave the piece, and
	FarMouth            [2]float64 // what is folded away there
}

// A Pleated outline is one that was cut open and has its pleats let in.
type Pleated struct {
	Outline Outline
	Of      []int        // of each of its edges: which edge it was
	Lines   []PleatLines // of the folds, in their order
	events  []pleatEvent
	folds   []pleatCut
	right   Point
	base    float64
}

// A pleatSpot is a place on an outline: s millimetres along edge i.
type pleatSpot struct {
	i int
	s float64
}

// A pleatCut is a fold with where its line enters and leaves the closed outline, and
// where the end of what goes under does.
type pleatCut struct {
	PleatFold
	at         float64 // across the way of the lines
	in, out    pleatSpot
	inEnd      pleatSpot
	outEnd     pleatSpot
	from, gone Point // places of in and out
}

// A pleatEvent is where the boundary crosses the line of a fold.
type pleatEvent struct {
	spot  pleatSpot
	fold  int
	exit  bool
	side  string
	along float64 // on its named edge, closed
	gain  float64 // how much longer that edge is for it
}

// A pleater looks along the lines of pleats on one edge: way points from the edge
// into the piece.
type pleater struct {
	o, turned  Outline
	edge       string
	way, right Point
}

func newPleater(o Outline, edge string, way Point) *pleater {
	l := way.left()
	return &pleater{o: o, edge: edge, way: way, right: way.right(),
		turned: o.moved(func(p Point) Point { return Point{dot(p, way), dot(p, l)} })}
}

// chord is where the line that lies so far to the right enters the piece at the edge
// and leaves it.
func (c *pleater) chord(t float64, near Point) (in, out pleatSpot, ok bool) {
	least, most := c.turned.Bounds()
	level := -t
	const fuzz = 1e-6
	if level < least.Y-fuzz || level > most.Y+fuzz {
		return in, out, false
	}
	level = clamp(level, least.Y, most.Y)
	points := c.turned.LevelPoints(level)
	best, from := reach, dot(near, c.way)
	for k := 0; k+1 < len(points); k += 2 {
		a, b := points[k], points[k+1]
		if c.o.Edges[a.Edge].Name != c.edge {
			continue
		}
		far := a.X - from
		if far = max(far, -far); far < best {
			best, in, out, ok = far, pleatSpot{a.Edge, a.Along}, pleatSpot{b.Edge, b.Along}, true
		}
	}
	return in, out, ok
}

func (c *pleater) point(s pleatSpot) Point {
	p, _ := c.o.PointAt(s.i, s.s)
	return p
}

// alongSide is how far along its named edge a spot lies.
func (o Outline) alongSide(s pleatSpot) (string, float64) {
	side, _ := o.Side(o.Edges[s.i].Name)
	n, sum := len(o.Edges), s.s
	for k := range side.Count {
		i := (side.First + k) % n
		if i == s.i {
			break
		}
		sum += o.EdgeLength(i)
	}
	return side.Name, sum
}

// between is the boundary from one spot on to another, on one named edge.
func (o Outline) between(from, to pleatSpot) (start Point, path []Edge, of []int, ok bool) {
	start, _ = o.PointAt(from.i, from.s)
	name, a := o.alongSide(from)
	other, b := o.alongSide(to)
	if name != other || b < a-touch {
		return start, nil, nil, false
	}
	for i, s := from.i, from.s; ; i, s = (i+1)%len(o.Edges), 0 {
		end := o.EdgeLength(i)
		if i == to.i {
			end = to.s
		}
		if end-s > touch {
			path, of = append(path, o.stretchOf(i, s, end)), append(of, i)
		}
		if i == to.i {
			return start, path, of, true
		}
	}
}

// stretchOf is the part of edge i from s to end, millimetres along it.
func (o Outline) stretchOf(i int, s, end float64) Edge {
	e := o.Edges[i]
	if !e.Curved {
		e.To, _ = o.PointAt(i, end)
		if end >= o.EdgeLength(i)-touch {
			e.To = o.Edges[i].To
		}
		return e
	}
	c := o.cubic(i)
	r := c.ruler()
	t0, t1 := r.parameter(s), r.parameter(end)
	_, c = c.split(t0)
	if t0 < 1 {
		c, _ = c.split((t1 - t0) / (1 - t0))
	}
	e.C1, e.C2, e.To = c[1], c[2], c[3]
	return e
}

// mirrorPath is a path mirrored and run the other way round.
func mirrorPath(start Point, path []Edge, mirror func(Point) Point) (Point, []Edge) {
	o := Outline{From: start, Edges: path}
	out := make([]Edge, len(path))
	for i, e := range path {
		e.To, e.C1, e.C2 = mirror(o.Start(i)), mirror(path[i].C2), mirror(path[i].C1)
		out[len(path)-1-i] = e
	}
	if len(path) == 0 {
		return mirror(start), nil
	}
	return mirror(path[len(path)-1].To), out
}

// Pleated cuts the outline open along the lines of folds on an edge, all of one way,
// and lets in what they take: twice the depth each. What goes under has the edges of
// what it lies under, so that the edge is straight or curved as drawn with the pleat
// folded (derived). The folds are given in their order along the edge.
func (o Outline) Pleated(edge string, way Point, folds []PleatFold) (*Pleated, error) {
	c := newPleater(o, edge, unit(way))
	p := &Pleated{right: c.right}
	for k, f := range folds {
		cut, err := c.cut(f)
		if err != nil {
			return nil, err
		}
		p.folds = append(p.folds, cut)
		for _, e := range []pleatEvent{{spot: cut.in, fold: k}, {spot: cut.out, fold: k, exit: true}} {
			e.side, e.along = o.alongSide(e.spot)
			e.gain = 2 * c.lengthOver(cut, e.exit)
			p.events = append(p.events, e)
		}
	}
	slices.SortStableFunc(p.events, func(a, b pleatEvent) int {
		order := cmp.Or(cmp.Compare(a.spot.i, b.spot.i), cmp.Compare(a.spot.s, b.spot.s))
		if order == 0 && a.exit && b.exit {
			return cmp.Compare(b.fold, a.fold)
		}
		return order
	})
	p.assemble(c)
	p.lay(c)
	return p, nil
}

// cut finds where a fold's line runs, and where what goes under ends.
func (c *pleater) cut(f PleatFold) (pleatCut, error) {
	cut := pleatCut{PleatFold: f}
	at, _, ok := c.o.PointOn(c.edge, f.Along)
	if !ok {
		return cut, errors.New(say.Of("shape.there-is-no-edge", c.edge))
	}
	cut.at = dot(at, c.right)
	if cut.in, cut.out, ok = c.chord(cut.at, at); !ok {
		return cut, errors.New(say.Of("shape.its-line-does-not-run-into-the", c.edge))
	}
	by := f.Depth
	if !f.Onward {
		by = -by
	}
	if cut.inEnd, cut.outEnd, ok = c.chord(cut.at+by, at); !ok {
		return cut, ErrPleatBeyond
	}
	cut.from, cut.gone = c.point(cut.in), c.point(cut.out)
	if _, _, _, ok = c.o.between(c.inOrder(cut, false)); !ok {
		return cut, ErrPleatBeyond
	}
	if _, _, _, ok = c.o.between(c.inOrder(cut, true)); !ok {
		return cut, ErrPleatBeyond
	}
	return cut, nil
}

// ErrPleatBeyond says that a pleat goes under more cloth than lies beside it.
var ErrPleatBeyond = say.Error("shape.there-is-less-cloth-beside-it-than")

// inOrder are the ends of what lies over a fold, as the outline runs.
func (c *pleater) inOrder(cut pleatCut, exit bool) (from, to pleatSpot) {
	from, to = cut.in, cut.inEnd
	if exit {
		from, to = cut.outEnd, cut.out
	}
	if !cut.Onward {
		from, to = to, from
	}
	return from, to
}

func (c *pleater) lengthOver(cut pleatCut, exit bool) float64 {
	start, path, _, _ := c.o.between(c.inOrder(cut, exit))
	o := Outline{From: start, Edges: path}
	sum := 0.0
	for i := range path {
		sum += o.EdgeLength(i)
	}
	return sum
}

// letIn is what is let in at an event, from where the boundary comes to it on, in
// places of the closed piece: the part before the line stands still.
func (c *pleater) letIn(cut pleatCut, exit bool) (start Point, path []Edge, of []int) {
	from, over, which, _ := c.o.between(c.inOrder(cut, exit))
	twice := c.right.times(2 * cut.Depth)
	shifted := func(q Point) Point { return q.Add(twice) }
	mirror := func(q Point) Point { // about the inner fold
		t := cut.at + cut.Depth - dot(q, c.right)
		return q.Add(c.right.times(2 * t))
	}
	if !cut.Onward { // about the outer fold
		mirror = func(q Point) Point { return q.Add(c.right.times(2 * (cut.at - dot(q, c.right)))) }
	}
	back, folded := mirrorPath(from, over, mirror)
	turned := slices.Clone(which)
	slices.Reverse(turned)
	switch {
	case cut.Onward && !exit:
		return from, append(slices.Clone(over), folded...), append(slices.Clone(which), turned...)
	case cut.Onward:
		return back, append(folded, over...), append(turned, which...)
	}
	moved := Outline{From: from, Edges: over}.moved(shifted)
	if !exit {
		return back, append(folded, moved.Edges...), append(turned, which...)
	}
	return moved.From, append(slices.Clone(moved.Edges), folded...), append(slices.Clone(which), turned...)
}

// assemble walks the closed outline and lets in what the folds take.
func (p *Pleated) assemble(c *pleater) {
	o := c.o
	shift := 0.0 // to the right
	k := 0
	var from Point
	begun := false
	add := func(e Edge, by float64, of int) {
		move := c.right.times(by)
		e.To = snap(e.To.Add(move))
		if e.Curved {
			e.C1, e.C2 = e.C1.Add(move), e.C2.Add(move)
		}
		p.Outline.Edges, p.Of = append(p.Outline.Edges, e), append(p.Of, of)
	}
	begin := func(at Point) {
		if !begun {
			from, begun = snap(at), true
		}
	}
	for i := range o.Edges {
		s, length := 0.0, o.EdgeLength(i)
		for ; k < len(p.events) && p.events[k].spot.i == i; k++ {
			e := &p.events[k]
			cut := p.folds[e.fold]
			begin(o.Start(i))
			if e.spot.s-s > touch {
				add(o.stretchOf(i, s, e.spot.s), shift, i)
			}
			s = e.spot.s
			by := shift
			if e.exit {
				by -= 2 * cut.Depth
			}
			_, path, of := c.letIn(cut, e.exit)
			for j, part := range path {
				add(part, by, of[j])
			}
			if e.exit {
				shift = by
			} else {
				shift += 2 * cut.Depth
			}
		}
		begin(o.Start(i))
		if length-s > touch {
			add(o.stretchOf(i, s, length), shift, i)
		}
	}
	p.Outline.From = from
	if n := len(p.Outline.Edges); n > 0 {
		p.Outline.Edges[n-1].To = from
	}
	crossed := make([]bool, len(p.folds))
	for _, e := range p.events { // where the boundary leaves first, it began to the right of that fold
		if !crossed[e.fold] && e.exit {
			p.base -= 2 * p.folds[e.fold].Depth
		}
		crossed[e.fold] = true
	}
}

// Shift is by how much a place of the closed piece has moved to the right.
func (p *Pleated) shift(t float64) float64 {
	by := p.base
	for _, cut := range p.folds {
		if cut.at < t-touch {
			by += 2 * cut.Depth
		}
	}
	return by
}

// At is where a place of the closed piece, as it is seen, lies on the cloth laid open.
func (p *Pleated) At(q Point) Point { return q.Add(p.right.times(p.shift(dot(q, p.right)))) }

// Along is how far along a named edge of the open outline lies what lies so far along
// it on the closed one.
func (p *Pleated) Along(edge string, at float64) float64 {
	out := at
	for _, e := range p.events {
		if e.side == edge && e.along < at-touch {
			out += e.gain
		}
	}
	return out
}

// before is what the events before one add to its edge.
func (p *Pleated) before(k int) float64 {
	sum := 0.0
	for j, e := range p.events {
		if e.side == p.events[k].side && (e.along < p.events[k].along-touch || e.along <= p.events[k].along+touch && j < k) {
			sum += e.gain
		}
	}
	return sum
}

// lay finds the lines of every fold.
func (p *Pleated) lay(c *pleater) {
	p.Lines = make([]PleatLines, len(p.folds))
	for k := range p.Lines {
		p.Lines[k].Place, p.Lines[k].Inner, p.Lines[k].Outer = make(Line, 2), make(Line, 2), make(Line, 2)
	}
	for k, e := range p.events {
		cut, l := p.folds[e.fold], &p.Lines[e.fold]
		begin := e.along + p.before(k)
		at := 0
		if e.exit {
			at = 1
			l.Far, l.FarMouth = e.side, [2]float64{begin, begin + e.gain}
		} else {
			l.Mouth = [2]float64{begin, begin + e.gain}
		}
		on, end := c.point(cut.in), c.point(cut.inEnd)
		if e.exit {
			on, end = c.point(cut.out), c.point(cut.outEnd)
		}
		by := p.leftOf(e.fold)
		still, far := c.right.times(by), c.right.times(by+2*cut.Depth)
		l.Place[at], l.Inner[at], l.Outer[at] = snap(on.Add(still)), snap(end.Add(still)), snap(on.Add(far))
		if !cut.Onward {
			l.Place[at], l.Inner[at], l.Outer[at] = snap(on.Add(far)), snap(end.Add(far)), snap(on.Add(still))
		}
	}
}

// leftOf is by how much what lies to the left of a fold has moved.
func (p *Pleated) leftOf(fold int) float64 {
	by := p.base
	for k, cut := range p.folds {
		if cut.at < p.folds[fold].at-touch || cut.at <= p.folds[fold].at+touch && k < fold {
			by += 2 * cut.Depth
		}
	}
	return by
}

// PleatLines are the lines of a fold on an outline that is drawn with its pleats open:
// its place lies Along millimetres from where the edge begins, its depth is measured
// along the edge.
func (o Outline) PleatLines(edge string, way Point, f PleatFold) (l PleatLines, err error) {
	c := newPleater(o, edge, unit(way))
	if _, _, ok := o.PointOn(edge, f.Along); !ok {
		return l, errors.New(say.Of("shape.there-is-no-edge", edge))
	}
	by := f.Depth
	if !f.Onward {
		by = -by
	}
	length, _ := o.LengthOf(edge)
	var mouth, far [2]float64
	for k, line := range []*Line{&l.Place, &l.Inner, &l.Outer} {
		along := f.Along + float64(float64(k)*by)
		if along < -touch || along > length+touch {
			return l, ErrPleatBeyond
		}
		at, _, _ := o.PointOn(edge, along)
		in, out, ok := c.chord(dot(at, c.right), at)
		_, one := o.alongSide(in)
		*line = Line{snap(c.point(in))}
		if ok && f.Taper.RunsOut() {
			end := l.Place[0].Add(c.way.times(f.Taper.Until))
			if !c.o.Contains(end) {
				return l, ErrPleatBeyond
			}
			*line = append(*line, snap(end))
			mouth[min(k, 1)] = one
			continue
		}
		if ok && f.Taper != (Taper{}) && k > 0 {
			var bend Point
			bend, out, ok = c.tapered(l.Place[0], *line, f, k)
			*line = append(*line, snap(bend))
		}
		if !ok {
			return l, ErrPleatBeyond
		}
		*line = append(*line, snap(c.point(out)))
		side, two := o.alongSide(out)
		if k == 0 {
			mouth[0], far[0], l.Far = one, two, side
		} else if k == 2 {
			mouth[1], far[1] = one, two
			if side != l.Far {
				l.Far = ""
			}
		}
	}
	l.Mouth = [2]float64{min(mouth[0], mouth[1]), max(mouth[0], mouth[1])}
	l.FarMouth = [2]float64{min(far[0], far[1]), max(far[0], far[1])}
	return l, nil
}

// tapered is where the inner fold of a pleat, or its outer one, bends, and where it leaves
// the piece from there.
func (c *pleater) tapered(place Point, line Line, f PleatFold, k int) (bend Point, out pleatSpot, ok bool) {
	by := float64(k) * f.Taper.Depth
	if dot(line[0].Sub(place), c.right) < 0 {
		by = -by
	}
	bend = place.Add(c.right.times(by)).Add(c.way.times(f.Taper.Until))
	_, out, ok = c.chord(dot(bend, c.right), line[0])
	return bend, out, ok && c.o.Contains(bend)
}

// PleatWay is the way in which pleats run into a piece from a place on an edge: along
// the piece or straight across it where that is within 30° of square to the edge, and
// else square to it (own choice, no source).
func (o Outline) PleatWay(edge string, along float64) Point {
	_, dir, _ := o.PointOn(edge, along)
	in := dir.left()
	const near = 0.8660254 // cos 30°
	for _, axis := range [...]Point{{0, 1}, {0, -1}, {1, 0}, {-1, 0}} {
		if dot(in, axis) >= near {
			return axis
		}
	}
	return in
}

// AcrossFrom is how far along an edge lies what is so far beside a place on it, in
// millimetres across the way of its pleats; below 0 it is before that place. On a curve
// that is more along the edge than across. Past an end the edge goes on straight.
func (o Outline) AcrossFrom(edge string, way Point, at, by float64) float64 {
	length, _ := o.LengthOf(edge)
	right := unit(way).right()
	from, _, ok := o.PointOn(edge, at)
	across := func(s float64) float64 {
		q, _, _ := o.PointOn(edge, s)
		return math.Abs(dot(q.Sub(from), right))
	}
	want := math.Abs(by)
	near, far := at, clamp(at+2*by, 0, length)
	if straight := at + by; !ok || straight < 0 || straight > length || math.Abs(across(straight)-want) < touch || across(far) < want {
		return straight
	}
	for range 60 {
		middle := (near + far) / 2
		if across(middle) < want {
			near = middle
		} else {
			far = middle
		}
	}
	return (near + far) / 2
}
