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
	m       *model
	items   []item
	fixed   []fixture
	length  float64
	at      []spot
	over    []float64 // depth of overlap of i and j at i*n+j, both ways round
	overFix []float64 // depth of i in fixture k at i*len(fixed)+k
	weight  []float64 // of pairs, as over
	wFix    []float64
	scale   []float64 // how dear an overlap of this item is, by its area
	rng     random
	tried   int // places tried: the measure of work
	hoods   []hood
	order   []int
	seeds   [keepSeeds]seed
}

// A neighbour is what one moving shape must know of one thing that lies still.
type neighbour struct {
	minX, maxX, minY, maxY float64 // no overlap beyond
	x, y                   float64 // added after the turn to reach the relative place
	weight                 float64
	t                      square
	f                      *field
}

// A hood holds the neighbours of one shape of the moving item, by columns.
type hood struct {
	shape   int
	ready   bool
	list    []neighbour
	columns [][]int32
	inv     float64 // columns per unit of length
	domain  box     // where the shape may lie
	fits    bool    // the strip is long enough for it
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
	return s.domain(b.length, b.m.width)
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
	return b.m.depthOf(p, q)
}

func (m *model) depthOf(p, q *spot) float64 {
	s, r := &m.shapes[p.shape], &m.shapes[q.shape]
	g := m.clearance
	if p.x+s.box.maxX+g <= q.x+r.box.minX || q.x+r.box.maxX+g <= p.x+s.box.minX ||
		p.y+s.box.maxY+g <= q.y+r.box.minY || q.y+r.box.maxY+g <= p.y+s.box.minY {
		if g == 0 {
			return 0
		}
	}
	return m.depthAt(s.base, s.way, r.base, r.way, p.x-q.x, p.y-q.y)
}

func (m *model) depthAt(a int, ga square, c int, gc square, dx, dy float64) float64 {
	f, t := m.fieldOf(a, ga, c, gc)
	x, y := t.apply(dx, dy)
	if x <= f.box.minX || x >= f.box.maxX || y <= f.box.minY || y >= f.box.maxY {
		return 0
	}
	return f.depth(x, y)
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
			p.y+s.box.minY < -slack || p.y+s.box.maxY > b.m.width+slack {
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
