package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// stack lays storey to storey: the largest first, then always the one that most
// is sewn to.
func (t *netting) stack(all []*storey) {
	runs := t.ties(false)
	runs = append(runs, t.ties(true)...)
	in := make([]bool, len(all))
	of := map[int]int{}
	for i, st := range all {
		for _, u := range st.units {
			of[u] = i
		}
	}
	next := 0
	for i, st := range all {
		if st.area > all[next].area+1 {
			next = i
		}
	}
	for range all {
		st := all[next]
		if other := t.twin(next, all, in); other >= 0 && t.seatPair([2]int{next, other}, all, in, of, runs) {
			in[other] = true
			t.groups[Body] = append(t.groups[Body], &all[other].body)
		} else {
			t.seat(next, st, in, of, runs)
		}
		in[next] = true
		t.groups[Body] = append(t.groups[Body], &st.body)
		if next = nextStorey(in, of, runs); in[next] {
			return
		}
	}
}

// nextStorey is the storey that most is sewn to among those that are not laid.
func nextStorey(in []bool, of map[int]int, runs []tie) int {
	sewn := make([]float64, len(in))
	for _, k := range runs {
		a, ok := of[k.to[0]]
		b, ok2 := of[k.to[1]]
		if ok && ok2 && in[a] != in[b] {
			if in[a] {
				a = b
			}
			sewn[a] += k.size
		}
	}
	best := -1
	for i := range in {
		if !in[i] && (best < 0 || sewn[i] > sewn[best]+touch) {
			best = i
		}
	}
	return max(best, 0)
}

// seat finds a storey's place beside what is laid: on that side on which it lies
// nearest to what it is sewn to, faces it, and makes the net least large.
func (t *netting) seat(number int, st *storey, in []bool, of map[int]int, runs []tie) {
	laid := t.groups[Body]
	if len(laid) == 0 {
		return
	}
	here, there, met := t.between(number, st, in, of, runs)
	if !met {
		t.seatApart(st, laid)
		return
	}
	st.move(there.mid.Sub(here.mid))
	low, high := boundsOf(laid)
	size := sizeOf(low, high)
	best, least := shape.Point{}, math.Inf(1)
	for _, way := range t.ways(there, low, high) {
		tried := st.copy()
		tried.push(way, t.net.Gap/2, laid, t.net.Gap)
		moved := tried.laid[0].Shift.Sub(st.laid[0].Shift)
		a, z := tried.bounds()
		a.X, a.Y, z.X, z.Y = min(a.X, low.X), min(a.Y, low.Y), max(z.X, high.X), max(z.Y, high.Y)
		back := dot(here.out, way) // −1 where it faces what it is sewn to
		if cost := long(moved) + float64(0.3*size*(1+back)) + float64(0.8*(sizeOf(a, z)-size)); cost < least-1 {
			best, least = moved, cost
		}
	}
	st.move(best)
}

// seatApart lays a storey that nothing sews to the rest beside what was laid last, or in
// a row of its own below everything, as makes the net least large.
func (t *netting) seatApart(st *storey, laid []*body) {
	low, high := boundsOf(laid)
	a, z := st.bounds()
	_, last := laid[len(laid)-1].bounds()
	base, _ := laid[len(laid)-1].bounds()
	best, least := shape.Point{}, math.Inf(1)
	for _, corner := range [...]shape.Point{{X: high.X + 2*t.net.Gap, Y: low.Y}, {X: last.X + 2*t.net.Gap, Y: base.Y}, {X: low.X, Y: low.Y - 2*t.net.Gap - (z.Y - a.Y)}} {
		by := corner.Sub(a)
		tried := st.copy()
		if tried.move(by); !tried.clearOf(laid, t.net.Gap) {
			continue
		}
		p, q := a.Add(by), z.Add(by)
		size := sizeOf(shape.Point{X: min(p.X, low.X), Y: min(p.Y, low.Y)}, shape.Point{X: max(q.X, high.X), Y: max(q.Y, high.Y)})
		if size < least-touch {
			best, least = by, size
		}
	}
	st.move(best)
}

// sizeOf is how large a net is against a page a little higher than it is wide.
func sizeOf(low, high shape.Point) float64 { return max(high.X-low.X, float64(0.85*(high.Y-low.Y))) }

// ways are where a storey may be pushed, the way in which what it is sewn to lies
// from the middle first, so that a mirror image is laid as a mirror image.
func (t *netting) ways(there chord, low, high shape.Point) []shape.Point {
	side := 1.0
	if there.mid.X < (low.X+high.X)/2-touch {
		side = -1
	}
	return []shape.Point{{Y: 1}, {Y: -1}, {X: side}, {X: -side}}
}

func (s *storey) copy() *body {
	out := &body{}
	for _, l := range s.laid {
		l.ring.line = slices.Clone(l.ring.line)
		out.laid = append(out.laid, l)
	}
	return out
}

// between is the middle of all edges that sew a storey to what is laid, and which
// way they look, here and there.
func (t *netting) between(number int, st *storey, in []bool, of map[int]int, runs []tie) (here, there chord, met bool) {
	seen := map[SideID]bool{}
	sums := map[*chord]float64{}
	add := func(c *chord, id SideID, laid *Laid) {
		if seen[id] {
			return
		}
		seen[id] = true
		line := t.s.drawn(t.s.whole(id))
		for i := range line {
			line[i] = laid.At(line[i])
		}
		k, size := chordOf(line), t.s.Sides[id].Closed
		c.mid = c.mid.Add(shape.Point{X: float64(k.mid.X * size), Y: float64(k.mid.Y * size)})
		c.out = c.out.Add(shape.Point{X: float64(k.out.X * size), Y: float64(k.out.Y * size)})
		sums[c] += size
	}
	for _, k := range runs {
		a, ok := of[k.to[0]]
		b, ok2 := of[k.to[1]]
		if !ok || !ok2 || a == b || a != number && b != number || !in[a] && !in[b] || k.size == 0 {
			continue
		}
		j := &t.s.Joins[k.join]
		one, two := j.A.Side, j.B.Side
		if b != number {
			one, two = two, one
		}
		add(&there, one, t.placed(t.s.Sides[one].Copy))
		add(&here, two, st.of(t.s.Sides[two].Copy))
	}
	if sums[&here] == 0 || sums[&there] == 0 {
		return here, there, false
	}
	for _, c := range []*chord{&here, &there} {
		c.mid = shape.Point{X: c.mid.X / sums[c], Y: c.mid.Y / sums[c]}
		if size := long(c.out); size > touch {
			c.out = shape.Point{X: c.out.X / size, Y: c.out.Y / size}
		}
	}
	return here, there, true
}

// placed is where a copy lies among the storeys that are laid.
func (t *netting) placed(id CopyID) *Laid {
	for _, b := range t.groups[Body] {
		if l := b.of(id); l != nil {
			return l
		}
	}
	return nil
}

func boundsOf(list []*body) (low, high shape.Point) {
	for i, b := range list {
		a, z := b.bounds()
		if i == 0 {
			low, high = a, z
		}
		low.X, low.Y = min(low.X, a.X), min(low.Y, a.Y)
		high.X, high.Y = max(high.X, z.X), max(high.Y, z.Y)
	}
	return low, high
}

// aside lays the groups that do not hang together with the body in blocks below
// it or to its right, as makes the net less large.
func (t *netting) aside() {
	if len(t.groups[Back])+len(t.groups[Onto])+len(t.groups[Apart]) == 0 {
		return
	}
	t.below()
	below := t.size()
	t.right()
	if t.size() > below-touch {
		t.below()
	}
}

// size is how large the net is with all its groups.
func (t *netting) size() float64 {
	var all []*body
	for _, g := range t.groups {
		all = append(all, g...)
	}
	return sizeOf(boundsOf(all))
}

// between blocks lies so much of the gap: room for a frame and words.
const blockGaps = 4.4

func (t *netting) below() {
	low, high := boundsOf(t.groups[Body])
	wide, apart := high.X-low.X, blockGaps*t.net.Gap
	x, y, floor := low.X, low.Y-apart, low.Y
	for _, g := range [...]Group{Back, Onto, Apart} {
		if len(t.groups[g]) == 0 {
			continue
		}
		if need := t.widthOf(g); x > low.X && x+need > low.X+wide {
			x, y = low.X, floor-apart
		}
		t.flow(g, x, y, max(low.X+wide-x, wide/2, t.squareOf(g)))
		a, z := boundsOf(t.groups[g])
		x, floor = z.X+apart, min(floor, a.Y)
	}
}

func (t *netting) right() {
	low, high := boundsOf(t.groups[Body])
	apart := blockGaps * t.net.Gap
	x, y := high.X+apart, high.Y-t.net.Gap
	for _, g := range [...]Group{Back, Onto, Apart} {
		if len(t.groups[g]) == 0 {
			continue
		}
		t.flow(g, x, y, max((high.X-low.X)/2, t.squareOf(g)))
		a, _ := boundsOf(t.groups[g])
		y = a.Y - apart
	}
}

// widthOf is how wide a group is in one row.
func (t *netting) widthOf(g Group) float64 {
	wide := 0.0
	for _, b := range t.groups[g] {
		low, high := b.bounds()
		wide += high.X - low.X + t.net.Gap
	}
	return wide
}

// squareOf is how wide a group is in rows that are together as wide as they are high.
func (t *netting) squareOf(g Group) float64 {
	area := 0.0
	for _, b := range t.groups[g] {
		low, high := b.bounds()
		area += float64((high.X - low.X + t.net.Gap) * (high.Y - low.Y + t.net.Gap))
	}
	return math.Sqrt(area)
}

// flow lays the bodies of a group in rows, from an upper left corner.
func (t *netting) flow(g Group, left, top, wide float64) {
	x, y, tall := left, top, 0.0
	for _, b := range t.groups[g] {
		low, high := b.bounds()
		if x > left && x+high.X-low.X > left+wide {
			x, y, tall = left, y-tall-t.net.Gap, 0
		}
		b.move(shape.Point{X: x - low.X, Y: y - high.Y})
		x += high.X - low.X + t.net.Gap
		tall = max(tall, high.Y-low.Y)
	}
}
