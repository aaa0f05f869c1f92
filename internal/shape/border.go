package shape

import "math"

// A border is an outline flattened for its allowances. Segment k runs from
// base[k] to base[k+1] in direction dir[k] along edge of[k], and its
// allowance allow[k] lies on the right.
type border struct {
	base      Ring
	of        []int
	dir       []Point
	allow     []float64
	edges     []Edge
	ends      [][2]Point // by edge: its direction at its beginning and its end
	edgeAllow []float64  // by edge, nought on folds
	corners   []Corner   // by edge, or nil
}

// border flattens the outline finely enough for its allowances; false when
// it crosses itself.
func (o Outline) border(allow []float64, corners []Corner) (*border, bool) {
	b := &border{edges: o.Edges, corners: corners}
	b.edgeAllow, b.ends = make([]float64, len(allow)), make([][2]Point, len(allow))
	size := 0
	for i, e := range o.Edges {
		if !e.Fold {
			b.edgeAllow[i] = allow[i]
		}
		size++
		if e.Curved {
			size += o.cubic(i).pieces(cutTolerance)
		}
	}
	b.base, b.of = make(Ring, 0, size), make([]int, 0, size)
	for i, e := range o.Edges {
		b.base, b.of = append(b.base, snap(o.Start(i))), append(b.of, i)
		if e.Curved {
			c := o.cubic(i)
			b.follow(c, i)
			b.ends[i] = [2]Point{c.direction(0), c.direction(1)}
		}
	}
	b.measure()
	return b, b.base.simple()
}

// follow adds the inner points of a curved edge, so close together that
// neither the chords nor the joints of their offset lines stray more than
// cutTolerance.
func (b *border) follow(c cubic, edge int) {
	begin := len(b.base)
	for n := c.pieces(cutTolerance); ; n *= 2 {
		b.base, b.of = appendCurve(b.base[:begin], b.of[:begin], c, edge, n)
		for k := begin; k < len(b.base); k++ {
			b.base[k] = snap(b.base[k])
		}
		if n > mostPieces/16 || b.smooth(begin-1, c[3], b.edgeAllow[edge]) {
			return
		}
	}
}

// smooth reports whether the joints of the chords from point k on turn so
// little that a mitre reaches no further than cutTolerance beyond an
// allowance a: a(1/cos(θ/2) − 1) ≈ aθ²/8.
func (b *border) smooth(k int, end Point, a float64) bool {
	limit := 8 * cutTolerance / max(a, cutTolerance)
	for k++; k < len(b.base); k++ {
		next := end
		if k+1 < len(b.base) {
			next = b.base[k+1]
		}
		in, out := b.base[k].Sub(b.base[k-1]), next.Sub(b.base[k])
		turn := cross(in, out)
		if dot(in, out) <= 0 || float64(turn*turn) > float64(limit*dot(in, in))*dot(out, out) {
			return false
		}
	}
	return true
}

// measure sets the directions and allowances of the segments and the
// directions of the straight edges.
func (b *border) measure() {
	b.dir, b.allow = make([]Point, len(b.base)), make([]float64, len(b.base))
	for k, i := range b.of {
		b.dir[k] = unit(b.base.at(k + 1).Sub(b.base[k]))
		b.allow[k] = b.edgeAllow[i]
		if !b.edges[i].Curved {
			b.ends[i] = [2]Point{b.dir[k], b.dir[k]}
		}
	}
}

// previous is the segment that ends where segment k begins.
func (b *border) previous(k int) int {
	if k == 0 {
		return len(b.base) - 1
	}
	return k - 1
}

// next is the segment that begins where segment k ends.
func (b *border) next(k int) int {
	if k == len(b.base)-1 {
		return 0
	}
	return k + 1
}

// A turn is what a corner's allowances depend on: its point, the
// directions in and out, the allowances on either side, and the sine and
// cosine of the angle turned to the left.
type turn struct {
	at       Point
	in, out  Point
	a1, a2   float64
	sin, cos float64
}

func (b *border) turn(k int) turn {
	j := b.previous(k)
	in, out := b.dir[j], b.dir[k]
	if b.of[j] != b.of[k] { // between edges their own directions count, not those of chords
		p, q := b.ends[b.of[j]][1], b.ends[b.of[k]][0]
		if dot(p, q) > -0.9 || (cross(p, q) > 0) == (cross(in, out) > 0) { // unless at a needle's point
			in, out = p, q
		}
	}
	return turn{b.base[k], in, out, b.allow[j], b.allow[k], cross(in, out), dot(in, out)}
}

// straight is the sine below which two segments count as one line.
const straight = 1e-9

// ends1 and ends2 are where the strips beside the segment before and after
// the corner end when cut square at the corner.
func (t turn) end1() Point { return t.at.Add(t.in.right().times(t.a1)) }
func (t turn) end2() Point { return t.at.Add(t.out.right().times(t.a2)) }

// along1 and along2 are where, counted from the corner in the direction of
// the segment before and after it, the two lines of the allowances meet.
func (t turn) along1() float64 { return (t.a2 - float64(t.a1*t.cos)) / t.sin }
func (t turn) along2() float64 { return (float64(t.a2*t.cos) - t.a1) / t.sin }

// meeting is where the two lines of the allowances meet.
func (t turn) meeting() Point { return t.end1().Add(t.in.times(t.along1())) }

// A cornerEnd is how the allowances end at a corner: the line of the segment
// before ends at from, that of the segment after begins at to.
type cornerEnd struct {
	from, to Point
	shorten  flank // a strip that ends short of its segment
	mirrored bool  // by the rule of a mirrored hem
	shaped   flank // the edge that is squared or mirrored
	via      [mostFolds]Point
	vias     int // the points at its inner folds, on the way from from to to
}

// A flank is a side of a corner: the edge before it, after it, or neither.
type flank uint8

const (
	neither flank = iota
	before
	after
)

func (s flank) other() flank {
	if s == neither {
		return neither
	}
	return before + after - s
}

// finish shapes the corner where segment k begins.
func (b *border) finish(k int) cornerEnd {
	t := b.turn(k)
	i, j := b.of[b.previous(k)], b.of[k]
	switch {
	case math.Abs(t.sin) <= straight && t.cos > 0:
		return cornerEnd{from: t.end1(), to: t.end2()}
	case i != j && (b.edges[i].Fold || b.edges[j].Fold):
		return t.atFold()
	case t.sin < 0:
		return cornerEnd{from: t.end1(), to: t.end2()} // still to be trimmed against each other
	case b.corners != nil && i != j:
		return t.ruled(b.corners[i], b.corners[j])
	}
	return t.mitre()
}

// foldReach is how far, in allowances, the line of a fold is followed to
// meet the line of its neighbour's allowance.
const foldReach = 50

// atFold ends the allowance on the line of the fold.
func (t turn) atFold() cornerEnd {
	if distance(t.meeting(), t.at) > foldReach*max(t.a1, t.a2) {
		return cornerEnd{from: t.end1(), to: t.end2()}
	}
	return t.meet()
}

// meet ends both lines where they meet.
func (t turn) meet() cornerEnd {
	f := cornerEnd{from: t.meeting()}
	f.to = f.from
	switch {
	case t.along1() < 0:
		f.shorten = before
	case t.along2() > 0:
		f.shorten = after
	}
	return f
}

// mitre extends both lines to their meeting. Where that lies far out the
// point is cut off. At an open corner between unequal allowances the
// narrower line runs on through the wider strip and shortens it; where it
// would take more than the wider allowance off, the two ends are joined
// straight instead.
func (t turn) mitre() cornerEnd {
	wide := max(t.a1, t.a2)
	if back, on := t.along1(), t.along2(); back < 0 || on > 0 {
		if farther(-back, wide) || farther(on, wide) {
			return cornerEnd{from: t.end1(), to: t.end2()}
		}
		return t.meet()
	}
	m, reach := t.meeting(), float64(mitreLimit*wide)
	if distance(m, t.at) <= reach {
		return cornerEnd{from: m, to: m}
	}
	way := t.in // at a point like a needle's
	if t.sin > straight {
		way = unit(m.Sub(t.at))
	}
	s1 := (reach - float64(t.a1*dot(way, t.in.right()))) / dot(way, t.in)
	s2 := (reach - float64(t.a2*dot(way, t.out.right()))) / -dot(way, t.out)
	return cornerEnd{from: t.end1().Add(t.in.times(s1)), to: t.end2().Sub(t.out.times(s2))}
}

// farther reports whether a line goes on farther than the wider allowance. As far is not
// farther, though the ends of an edge that lies askew are rounded to a micrometre.
func farther(by, wide float64) bool { return by > wide+1e-4 }

// ruled applies the rules of the edge before and the edge after.
func (t turn) ruled(one, two Corner) cornerEnd {
	switch {
	case one.rule == two.rule || t.sin <= straight:
		return t.mitre()
	case one.rule > two.rule:
		return t.shaped(one)
	}
	f := t.backward().shaped(two)
	f.from, f.to = flip(f.to), flip(f.from)
	f.shorten, f.shaped = f.shorten.other(), f.shaped.other()
	for i, j := 0, f.vias-1; i <= j; i, j = i+1, j-1 {
		f.via[i], f.via[j] = flip(f.via[j]), flip(f.via[i])
	}
	return f
}

// backward is the same corner seen in a mirror, run the other way, so that
// the edge after becomes the edge before.
func (t turn) backward() turn {
	return turn{flip(t.at), flip(t.out.times(-1)), flip(t.in.times(-1)), t.a2, t.a1, t.sin, t.cos}
}

func flip(p Point) Point { return Point{-p.X, p.Y} }

// shaped squares or mirrors the allowance of the edge before. It begins
// where that edge's own line reaches the cut line of the edge after.
func (t turn) shaped(c Corner) cornerEnd {
	reach, limit := t.a2/t.sin, mitreLimit*max(t.a1, t.a2)
	if reach > limit || float64(t.a2*t.cos) > t.a1 || math.Abs(t.cos) < straight { // at a right angle all are one
		return t.mitre()
	}
	x := t.at.Add(t.in.times(reach))
	f := cornerEnd{to: x, mirrored: c.rule == mirror, shaped: before}
	down := func(depth, height float64) Point {
		return x.Add(t.in.right().times(depth)).Add(t.in.times(float64(height*t.cos) / t.sin))
	}
	if c.rule != mirror {
		f.from = down(t.a1, 0)
		return f
	}
	depth, height, n := c.heights(t.a1)
	for i := range n {
		if math.Abs(float64(height[i]*t.cos)/t.sin) > limit {
			return t.mitre()
		}
		if i < n-1 {
			f.via[n-2-i] = down(depth[i], height[i])
		}
	}
	f.vias, f.from = n-1, down(depth[n-1], height[n-1])
	return f
}

// foldIn shapes the ends of allowances that are turned more than once at their
// inner folds. The ring is right without them, from the raw edge straight to
// the sewing line; an end that would make it cross itself or the outline stays
// straight.
func (b *border) foldIn(c *Cut) {
	if b.corners == nil {
		return
	}
	for k := range b.base {
		if b.of[b.previous(k)] == b.of[k] {
			continue
		}
		if f := b.finish(k); f.vias > 0 {
			b.foldInAt(c, f)
		}
	}
}

func (b *border) foldInAt(c *Cut, f cornerEnd) {
	const near = 1e-3
	for i := range c.Ring {
		if !nearer(c.Ring[i], f.from, near) || !nearer(c.Ring.at(i+1), f.to, near) {
			continue
		}
		ring, of := append(make(Ring, 0, len(c.Ring)+f.vias), c.Ring[:i+1]...), append(make([]int, 0, len(c.Of)+f.vias), c.Of[:i]...)
		of = append(of, -1)
		for _, p := range f.via[:f.vias] {
			if b.base.Contains(p) {
				return
			}
			ring, of = append(ring, snap(p)), append(of, -1)
		}
		ring, of = append(ring, c.Ring[i+1:]...), append(of, c.Of[i+1:]...)
		ends := append([]Point{c.Ring[i]}, f.via[:f.vias]...)
		if ring.simple() && !b.crossed(append(ends, c.Ring.at(i+1))) {
			c.Ring, c.Of = ring, of
		}
		return
	}
}

// crossed reports whether a line crosses the outline.
func (b *border) crossed(line []Point) bool {
	for k := range b.base {
		for i := 1; i < len(line); i++ {
			if crosses(b.base[k], b.base.at(k+1), line[i-1], line[i]) {
				return true
			}
		}
	}
	return false
}

// crosses reports whether two stretches cross, and do not merely touch.
func crosses(a, b, c, d Point) bool {
	const touching = 1e-6
	way, other := unit(b.Sub(a)), unit(d.Sub(c))
	c1, d1 := cross(way, c.Sub(a)), cross(way, d.Sub(a))
	a1, b1 := cross(other, a.Sub(c)), cross(other, b.Sub(c))
	return (c1 > touching && d1 < -touching || c1 < -touching && d1 > touching) &&
		(a1 > touching && b1 < -touching || a1 < -touching && b1 > touching)
}
