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

// before is the segment that ends where segment k begins.
func (b *border) before(k int) int {
	if k == 0 {
		return len(b.base) - 1
	}
	return k - 1
}

// after is the segment that begins where segment k ends.
func (b *border) after(k int) int {
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
	j := b.before(k)
	in, out := b.dir[j], b.dir[k]
	if b.of[j] != b.of[k] { // between edges their own directions count, not those of chords
		in, out = b.ends[b.of[j]][1], b.ends[b.of[k]][0]
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

// A finish is how the allowances end at a corner: the line of the segment
// before ends at from, that of the segment after begins at to. Inward
// corners where the two must still be trimmed against each other, and
// whether the corner cuts into the strips, are marked.
type finish struct {
	from, to Point
	inward   bool
	ruled    bool // by a fold or a mirrored hem: strips end there
}

// finish shapes the corner where segment k begins.
func (b *border) finish(k int) finish {
	t := b.turn(k)
	i, j := b.of[b.before(k)], b.of[k]
	switch {
	case math.Abs(t.sin) <= straight && t.cos > 0:
		return finish{from: t.end1(), to: t.end2()}
	case i != j && (b.edges[i].Fold || b.edges[j].Fold):
		return t.atFold()
	case t.sin < 0:
		return finish{from: t.end1(), to: t.end2(), inward: true}
	case b.corners != nil && i != j:
		return t.ruled(b.corners[i], b.corners[j])
	}
	return t.mitre()
}

// atFold ends the allowance on the line of the fold.
func (t turn) atFold() finish {
	m := t.meeting()
	if wide := max(t.a1, t.a2); distance(m, t.at) > 50*wide {
		return finish{from: t.end1(), to: t.end2(), ruled: true}
	}
	return finish{from: m, to: m, ruled: true}
}

// mitre extends both lines to their meeting; where it lies far out the
// point is cut off, and where one line would have to be cut back (an open
// corner between unequal allowances) the ends are joined straight.
func (t turn) mitre() finish {
	if t.along1() < 0 || t.along2() > 0 {
		return finish{from: t.end1(), to: t.end2()}
	}
	m, wide := t.meeting(), max(t.a1, t.a2)
	if distance(m, t.at) <= float64(mitreLimit*wide) {
		return finish{from: m, to: m}
	}
	way := t.in // at a point like a needle's
	if t.sin > straight {
		way = unit(m.Sub(t.at))
	}
	n1, n2, reach := t.in.right(), t.out.right(), float64(mitreLimit*wide)
	s1 := (reach - float64(t.a1*dot(way, n1))) / dot(way, t.in)
	s2 := (reach - float64(t.a2*dot(way, n2))) / -dot(way, t.out)
	return finish{from: t.end1().Add(t.in.times(s1)), to: t.end2().Sub(t.out.times(s2))}
}

// ruled applies the rules of the edge before and the edge after.
func (t turn) ruled(before, after Corner) finish {
	switch {
	case before == after || t.sin <= straight:
		return t.mitre()
	case before > after:
		return t.shaped(before)
	}
	f := t.backward().shaped(after)
	f.from, f.to = flip(f.to), flip(f.from)
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
func (t turn) shaped(rule Corner) finish {
	reach, lean := t.a2/t.sin, 0.0
	if rule == Mirror {
		lean = float64(t.a1*t.cos) / t.sin
	}
	limit := mitreLimit * max(t.a1, t.a2)
	if reach > limit || math.Abs(lean) > limit || float64(t.a2*t.cos) > t.a1 {
		return t.mitre()
	}
	x := t.at.Add(t.in.times(reach))
	return finish{from: x.Add(t.in.right().times(t.a1)).Add(t.in.times(lean)), to: x, ruled: rule == Mirror}
}
