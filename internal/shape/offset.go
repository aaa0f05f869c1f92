package shape

// tops are the far sides of the strips beside the segments: segment k's
// runs from from[k] to to[k], or is a single point where its neighbours
// leave it no room.
type tops struct{ from, to []Point }

// offset finds the cut outline directly: each segment's line is moved out
// by its allowance, and neighbours are extended or trimmed at the corners.
// It reports false when the result is not proved right.
//
// The proof: every segment and its top are the parallel sides of a
// trapezoid that lies outward (or the base and tip of a triangle), and
// every corner's end is a triangle that lies outward. Sweeping the outline
// out to the ring then covers no place negatively, so a place between is
// covered as often as the ring winds round it more than the outline does.
// As neither crosses itself, that is exactly once inside the ring and
// outside the outline, never elsewhere: the ring bounds the outline and
// all strips together, and there are no holes.
func (b *border) offset() (Cut, bool) {
	n := len(b.base)
	t := b.untrimmed()
	for _, within := range []bool{true, false} { // along the edges first, then between them
		for k := range n {
			if (b.of[b.previous(k)] == b.of[k]) == within && !b.trimmed(t, k) {
				return Cut{}, false
			}
		}
	}
	for k := range n {
		t.from[k], t.to[k] = snap(t.from[k]), snap(t.to[k])
	}
	if !b.outward(t) {
		return Cut{}, false
	}
	cut := b.ring(t)
	if len(cut.Ring) < 3 || !cut.Ring.simple() || !b.withinFolds(cut.Ring) {
		return Cut{}, false
	}
	return cut, cut.Ring.Area() >= b.base.Area()-touch && b.covers(cut.Ring)
}

// covers reports whether the ring holds the corners of the strips that were
// trimmed where edges turn inward: beside a very short or very bent
// neighbour such a corner can reach out on its far side.
func (b *border) covers(r Ring) bool {
	const inset = 1e-3
	for k := range b.base {
		j := b.previous(k)
		if b.of[j] == b.of[k] || b.onFold(j, k) {
			continue
		}
		c := b.turn(k)
		if c.sin >= -straight {
			continue
		}
		one := lerp(c.at, c.end1(), 1-inset).Sub(c.in.times(inset))
		two := lerp(c.at, c.end2(), 1-inset).Add(c.out.times(inset))
		if c.a1 > inset && !r.Contains(one) || c.a2 > inset && !r.Contains(two) {
			return false
		}
	}
	return true
}

// untrimmed are the tops with their outward corners shaped and their
// inward ones ending square.
func (b *border) untrimmed() tops {
	n := len(b.base)
	points := make([]Point, 2*n)
	t := tops{points[:n], points[n:]}
	for k := range n {
		f, j := b.finish(k), b.previous(k)
		t.to[j], t.from[k] = f.from, f.to
		if f.shorten == neither && f.shaped == neither {
			continue
		}
		c := b.turn(k) // what cuts into a curve is worked out when its own joints are
		if b.edges[b.of[j]].Curved && f.shaped != before && dot(f.from.Sub(c.end1()), c.in) < 0 {
			t.to[j] = c.end1()
		}
		if b.edges[b.of[k]].Curved && f.shaped != after && dot(f.to.Sub(c.end2()), c.out) > 0 {
			t.from[k] = c.end2()
		}
	}
	return t
}

// trimmed shortens the tops on either side of a corner where they must be,
// and reports whether it could.
func (b *border) trimmed(t tops, k int) bool {
	j := b.previous(k)
	c := b.turn(k)
	if c.sin < -straight && !b.onFold(j, k) {
		return b.trim(t, k, c) || b.trimFar(t, k, c)
	}
	if b.of[j] == b.of[k] {
		return true
	}
	f := b.finish(k)
	if f.shaped != neither {
		b.trimBeside(t, k, c, f)
		return true
	}
	switch f.shorten {
	case before:
		i, p, ok := b.meetBefore(t, k, c)
		if ok {
			b.collapse(t, i, k, p)
		}
		return ok
	case after:
		i, p, ok := b.meetAfter(t, k, c)
		if ok {
			b.collapse(t, j, i, p)
		}
		return ok
	}
	return true
}

// trimBeside trims the curved neighbour of a squared or mirrored edge where
// that edge's own line, carried on, meets its tops.
func (b *border) trimBeside(t tops, k int, c turn, f cornerEnd) {
	j := b.previous(k)
	switch {
	case f.shaped == before && b.edges[b.of[k]].Curved && dot(f.to.Sub(c.end2()), c.out) > 0:
		bare := c
		bare.a1 = 0
		if i, p, ok := b.meetAfter(t, k, bare); ok {
			end := t.to[j]
			b.collapse(t, j, i, p)
			t.to[j] = end
		}
	case f.shaped == after && b.edges[b.of[j]].Curved && dot(f.from.Sub(c.end1()), c.in) < 0:
		bare := c
		bare.a2 = 0
		if i, p, ok := b.meetBefore(t, k, bare); ok {
			begin := t.from[k]
			b.collapse(t, i, k, p)
			t.from[k] = begin
		}
	}
}

// onFold reports whether one of two neighbours lies on the fold.
func (b *border) onFold(j, k int) bool {
	return b.of[j] != b.of[k] && (b.edges[b.of[j]].Fold || b.edges[b.of[k]].Fold)
}

// trim lets the tops before and after an inward corner meet, if they reach
// that far. Where one strip reaches out beyond the other its line runs on
// to the other's, or, if that is further than the wider allowance, it
// keeps its square end.
func (b *border) trim(t tops, k int, c turn) bool {
	j, wide := b.previous(k), max(c.a1, c.a2)
	back, on := c.along1(), c.along2()
	switch {
	case back <= 0 && on >= 0:
		return b.trimNear(t, k, c)
	case farther(back, wide):
		return b.stepAfter(t, k, c)
	case farther(-on, wide):
		return b.stepBefore(t, j, c)
	case back > 0:
		i, p, ok := b.meetAfter(t, k, c)
		if ok {
			b.collapse(t, j, i, p)
		}
		return ok
	default:
		i, p, ok := b.meetBefore(t, k, c)
		if ok {
			b.collapse(t, i, k, p)
		}
		return ok
	}
}

// meetAfter finds where the line of the allowance before the corner,
// carried straight on, meets the tops of the edge after it, and which.
func (b *border) meetAfter(t tops, k int, c turn) (int, Point, bool) {
	m := c.meeting()
	if !b.edges[b.of[k]].Curved {
		return k, m, b.roomAfter(t, k, c, c.along2())
	}
	begin := c.end1().Sub(c.in.times(c.a2))
	end := m.Add(c.in.times(distance(m, c.end1()) + c.a2))
	for x := range b.base {
		i := b.on(k, x)
		if i < 0 {
			break
		}
		from := t.from[i]
		if x == 0 {
			from = c.end2()
		}
		if p, ok := crossAt(from, t.to[i], begin, end); ok {
			return i, p, true
		}
	}
	return k, m, false
}

// meetBefore is [border.meetAfter] the other way round.
func (b *border) meetBefore(t tops, k int, c turn) (int, Point, bool) {
	j, m := b.previous(k), c.meeting()
	if !b.edges[b.of[j]].Curved {
		return j, m, b.roomBefore(t, j, c, -c.along1())
	}
	begin := c.end2().Add(c.out.times(c.a1))
	end := m.Sub(c.out.times(distance(m, c.end2()) + c.a1))
	for x := range b.base {
		i := b.back(j, x)
		if i < 0 {
			break
		}
		to := t.to[i]
		if x == 0 {
			to = c.end1()
		}
		if p, ok := crossAt(t.from[i], to, begin, end); ok {
			return i, p, true
		}
	}
	return j, m, false
}

// trimNear lets the tops on either side of an inward corner meet, if they
// reach that far.
func (b *border) trimNear(t tops, k int, c turn) bool {
	j := b.previous(k)
	if b.of[j] != b.of[k] && (b.edges[b.of[j]].Curved || b.edges[b.of[k]].Curved) {
		m, ok := crossAt(t.from[j], t.to[j], t.from[k], t.to[k])
		if ok {
			t.to[j], t.from[k] = m, m
		}
		return ok
	}
	back, on := c.along1(), c.along2()
	if !(back <= 0 && on >= 0) || !b.roomBefore(t, j, c, -back) || !b.roomAfter(t, k, c, on) {
		return false
	}
	m := c.meeting()
	t.to[j], t.from[k] = m, m
	return true
}

// roomBefore reports whether the top of segment j, the one before the
// corner, can be cut back by that much.
func (b *border) roomBefore(t tops, j int, c turn, by float64) bool {
	return dot(c.at.Sub(t.from[j]), c.in) >= by
}

func (b *border) roomAfter(t tops, k int, c turn, by float64) bool {
	return dot(t.to[k].Sub(c.at), c.out) >= by
}

// stepAfter begins the top of segment k where the square end of the wider
// strip before the corner crosses it.
func (b *border) stepAfter(t tops, k int, c turn) bool {
	p, ok := b.squareEnd(t, k, c, c.a2/c.cos, c.in, c.end1(), b.roomAfter)
	if ok {
		t.from[k] = p
	}
	return ok
}

// stepBefore ends the top of segment j where the square end of the wider
// strip after the corner crosses it.
func (b *border) stepBefore(t tops, j int, c turn) bool {
	p, ok := b.squareEnd(t, j, c, c.a1/c.cos, c.out, c.end2(), b.roomBefore)
	if ok {
		t.to[j] = p
	}
	return ok
}

// squareEnd is where the square end of a strip, that along side and as far as end,
// crosses the top of the segment on the other side of the corner, which is depth away
// along it. room is whether that top reaches so far.
func (b *border) squareEnd(t tops, seg int, c turn, depth float64, side, end Point, room func(tops, int, turn, float64) bool) (Point, bool) {
	if b.edges[b.of[seg]].Curved && depth > 0 {
		return crossAt(c.at, end, t.from[seg], t.to[seg])
	}
	return c.at.Add(side.right().times(depth)), c.cos > 0 && room(t, seg, c, -float64(depth*c.sin))
}

// farthest is how many segments of two edges together may be trimmed away at an
// inward corner before the search is given up: all pairs of them are tried.
const farthest = 24

// trimFar lets the tops of two edges meet further from the corner, where
// the corner leaves the nearest segments no room: the first pair of tops
// that cross, counted from the corner.
func (b *border) trimFar(t tops, k int, c turn) bool {
	last := b.previous(k)
	if b.of[last] == b.of[k] || c.along1() > 0 || c.along2() < 0 {
		return false
	}
	for sum := 1; sum < farthest; sum++ {
		for x := 0; x <= sum; x++ {
			j, m := b.back(last, x), b.on(k, sum-x)
			if j < 0 || m < 0 {
				continue
			}
			if p, ok := crossAt(t.from[j], t.to[j], t.from[m], t.to[m]); ok {
				b.collapse(t, j, m, p)
				return true
			}
		}
	}
	return false
}

// back is the segment x before j on the same edge, or −1.
func (b *border) back(j, x int) int {
	i := j - x
	if i < 0 {
		i += len(b.base)
	}
	if i < 0 || b.of[i] != b.of[j] {
		return -1
	}
	return i
}

// on is the segment x after k on the same edge, or −1.
func (b *border) on(k, x int) int {
	i := k + x
	if i >= len(b.base) {
		i -= len(b.base)
	}
	if i >= len(b.base) || b.of[i] != b.of[k] {
		return -1
	}
	return i
}

// collapse ends the top of segment j and begins that of m at p, and leaves
// those between nothing but p.
func (b *border) collapse(t tops, j, m int, p Point) {
	t.to[j], t.from[m] = p, p
	for k := b.next(j); k != m; k = b.next(k) {
		t.from[k], t.to[k] = p, p
	}
}

// crossAt returns where the stretches ab and cd cross.
func crossAt(a, b, c, d Point) (Point, bool) {
	in, out := b.Sub(a), d.Sub(c)
	turn := cross(in, out)
	s, t := cross(c.Sub(a), out)/turn, cross(c.Sub(a), in)/turn
	if !(s >= 0 && s <= 1 && t >= 0 && t <= 1) {
		return Point{}, false
	}
	return a.Add(in.times(s)), true
}

// outward checks that every top keeps the direction of its segment and
// lies outside it, and that every corner's end turns outward.
func (b *border) outward(t tops) bool {
	for k := range b.base {
		n := b.dir[k].right()
		up, over := dot(t.from[k].Sub(b.base[k]), n), dot(t.to[k].Sub(b.base[k]), n)
		if up < -touch || over < -touch || dot(t.to[k].Sub(t.from[k]), b.dir[k]) < -touch/2 {
			return false
		}
		j := b.previous(k)
		if cross(t.to[j].Sub(b.base[k]), t.from[k].Sub(b.base[k])) < -touch {
			return false
		}
	}
	return true
}

// ring strings the tops together, without points that fall on one
// another.
func (b *border) ring(t tops) Cut {
	n := len(b.base)
	cut := Cut{Ring: make(Ring, 0, n+8), Of: make([]int, 0, n+8)}
	for k := range n {
		cut.add(t.from[k], b.of[k])
		cut.add(t.to[k], -1)
	}
	if last := len(cut.Ring) - 1; last > 0 && nearer(cut.Ring[last], cut.Ring[0], joined) {
		cut.Ring, cut.Of = cut.Ring[:last], cut.Of[:last]
	}
	return cut
}

// joined is how near two points of a cut outline fall into one.
const joined = 2e-6

// add appends a point and the edge of the segment that begins at it; a
// point that falls on the one before takes its place.
func (c *Cut) add(p Point, of int) {
	if last := len(c.Ring) - 1; last >= 0 && nearer(p, c.Ring[last], joined) {
		c.Of[last] = of
		return
	}
	c.Ring, c.Of = append(c.Ring, p), append(c.Of, of)
}

// withinFolds reports whether no allowance reaches over the line of a fold.
func (b *border) withinFolds(r Ring) bool {
	for k := range b.base {
		if !b.edges[b.of[k]].Fold {
			continue
		}
		n := b.dir[k].right()
		for _, p := range r {
			if dot(p.Sub(b.base[k]), n) > 2*touch {
				return false
			}
		}
	}
	return true
}
