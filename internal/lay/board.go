package lay

import "math"

// A spot is where an item lies.
type spot struct {
	shape int
	x, y  float64
}

// A board is one searcher's working state: all items of one stage on a
// strip of given length, overlapping or not. Nothing is allocated while
// pieces move.
type board struct {
	m        *model
	items    []item
	fixed    []fixture
	length   float64
	at       []spot
	over     []float64 // depth of overlap of i and j at i*n+j, both ways round
	overFix  []float64 // depth of i in fixture k at i*len(fixed)+k
	weight   []float64 // of pairs, as over
	wFix     []float64
	scale    []float64 // how dear an overlap of this item is, by its area
	rng      random
	tried    int // places tried: the measure of work
	hoods    []hood
	order    []int
	seeds    [keepSeeds]seed
	surveyed survey
	pairs    []pairing // of every two shapes, empty when there are too many
	lone     pairing   // then the one last asked for
}

// A pairing is the field of two shapes and how to ask it.
type pairing struct {
	gxx, gxy float64 // column of the field's grid, of a place (x, y): gxx·x + gxy·y + …
	gyx, gyy float64 // row likewise
	cell     []cell  // of the field, at hand for every question
	nx       int     // likewise
	unit     float64 // likewise
	f        *field
	t        square // turns a relative place before it is asked for
	reach    box    // relative places beyond which nothing overlaps
}

func (m *model) pairing(a int, ga square, b int, gb square) pairing {
	f, t := m.fieldOf(a, ga, b, gb)
	return newPairing(f, t)
}

func newPairing(f *field, t square) pairing {
	return pairing{gxx: t.a * f.invH, gxy: t.b * f.invH, gyx: t.c * f.invH, gyy: t.d * f.invH,
		cell: f.cell, nx: f.nx, unit: f.unit, f: f, t: t, reach: t.inverse().applyBox(f.box)}
}

// mostPairings bounds the memory of a board's table of pairings to 38 MB.
const mostPairings = 1 << 18

// pairingOf is the pairing of two shapes, looked up once.
func (b *board) pairingOf(s, r int) *pairing {
	p := &b.lone
	if len(b.pairs) > 0 {
		p = &b.pairs[s*len(b.m.shapes)+r]
		if p.f != nil {
			return p
		}
	}
	moving, still := &b.m.shapes[s], &b.m.shapes[r]
	*p = b.m.pairing(moving.base, moving.way, still.base, still.way)
	return p
}

func newBoard(m *model, items []item, fixed []fixture, seed uint64) *board {
	n := len(items)
	b := &board{m: m, items: items, fixed: fixed}
	b.at = make([]spot, n)
	b.over = make([]float64, n*n)
	b.overFix = make([]float64, n*len(fixed))
	b.weight = make([]float64, n*n)
	b.wFix = make([]float64, n*len(fixed))
	b.rng = newRandom(seed)
	most := 0
	for i := range items {
		most = max(most, len(items[i].shapes))
	}
	b.hoods = make([]hood, most)
	if n := len(m.shapes); n*n <= mostPairings {
		b.pairs = make([]pairing, n*n)
	}
	b.scale = scalesOf(items)
	b.resetWeights()
	return b
}

// scalesOf makes overlaps of large items dearer: small ones find another
// place more easily. It is the fourth root of the area, by two square roots,
// relative to the mean.
func scalesOf(items []item) []float64 {
	mean := 0.0
	for i := range items {
		mean += items[i].area / float64(len(items))
	}
	out := make([]float64, len(items))
	for i := range items {
		out[i] = math.Sqrt(math.Sqrt(items[i].area / mean))
	}
	return out
}

func (b *board) resetWeights() {
	for i := range b.weight {
		b.weight[i] = 1
	}
	for i := range b.wFix {
		b.wFix[i] = 1
	}
}

// set puts everything at the given spots on a strip of the given length;
// what sticks out is pushed back in, and what lies a way for which the strip
// is too short is turned to one for which it is not.
func (b *board) set(at []spot, length float64) {
	b.length = length
	copy(b.at, at)
	for i := range b.at {
		b.at[i] = b.clamp(i, b.at[i])
	}
	b.refreshAll()
}

// domain is where a shape's place may be on the strip; not ok when the strip
// cannot hold it.
func (b *board) domain(s *shape) (d box, ok bool) {
	return s.domain(b.length)
}

// clamp brings a spot of item i onto the strip and onto the repeat.
func (b *board) clamp(i int, p spot) spot {
	d, ok := b.domain(&b.m.shapes[p.shape])
	if !ok {
		for _, k := range b.items[i].shapes {
			if e, fits := b.domain(&b.m.shapes[k]); fits {
				p.shape, d = k, e
				break
			}
		}
	}
	p.x, p.y = b.m.shapes[p.shape].bring(&d, p.x, p.y)
	return p
}

func (b *board) depthBetween(i, j int) float64 {
	p, q := &b.at[i], &b.at[j]
	if b.apart(p, q) {
		return 0
	}
	return b.pairingOf(p.shape, q.shape).depth(p.x-q.x, p.y-q.y)
}

// apart tells at a glance that two things do not overlap.
func (b *board) apart(p, q *spot) bool {
	s, r := &b.m.shapes[p.shape].box, &b.m.shapes[q.shape].box
	g := b.m.clearance
	return p.x+s.maxX+g <= q.x+r.minX || q.x+r.maxX+g <= p.x+s.minX || p.y+s.maxY+g <= q.y+r.minY || q.y+r.maxY+g <= p.y+s.minY
}

func (p *pairing) depth(dx, dy float64) float64 {
	x, y := p.t.apply(dx, dy)
	b := &p.f.box
	if x <= b.minX || x >= b.maxX || y <= b.minY || y >= b.maxY {
		return 0
	}
	return p.f.depth(x, y)
}

func (m *model) depthAt(a int, ga square, c int, gc square, dx, dy float64) float64 {
	p := m.pairing(a, ga, c, gc)
	return p.depth(dx, dy)
}

// refresh recomputes the overlaps of item i.
func (b *board) refresh(i int) {
	n := len(b.items)
	for j := range b.items {
		if j != i {
			d := b.depthBetween(i, j)
			b.over[i*n+j], b.over[j*n+i] = d, d
		}
	}
	s := &b.m.shapes[b.at[i].shape]
	for k, f := range b.fixed {
		b.overFix[i*len(b.fixed)+k] = b.m.depthAt(s.base, s.way, f.base, f.way, b.at[i].x-f.x, b.at[i].y-f.y)
	}
}

func (b *board) refreshAll() {
	for i := range b.items {
		b.refresh(i)
	}
}

// overlap is the sum of all depths.
func (b *board) overlap() float64 {
	sum := 0.0
	n := len(b.items)
	for i := range n {
		for j := range i {
			sum += b.over[i*n+j]
		}
	}
	for _, d := range b.overFix {
		sum += d
	}
	return sum
}

func (b *board) collides(i int) bool {
	n := len(b.items)
	for _, d := range b.over[i*n : i*n+n] {
		if d > 0 {
			return true
		}
	}
	for _, d := range b.overFix[i*len(b.fixed) : (i+1)*len(b.fixed)] {
		if d > 0 {
			return true
		}
	}
	return false
}

// inside tells whether every item lies on the cloth; a strip too short for
// one of them cannot hold it.
func (b *board) inside() bool {
	for i := range b.at {
		p := &b.at[i]
		s := &b.m.shapes[p.shape]
		const slack = 1e-11
		if p.x+s.box.minX < -slack || p.x+s.box.maxX > b.length+slack ||
			p.y+s.box.minY < s.zone.Near-slack || p.y+s.box.maxY > s.zone.Far+slack {
			return false
		}
	}
	return true
}

// used is the length reached by the furthest item.
func (b *board) used() float64 { return usedBy(b.m, b.at) }

func usedBy(m *model, at []spot) float64 {
	far := 0.0
	for i := range at {
		far = math.Max(far, at[i].x+m.shapes[at[i].shape].box.maxX)
	}
	return far
}
