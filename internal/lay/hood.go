package lay

import (
	"math/bits"
	"slices"
)

// A neighbour is what one moving shape must know of one thing that lies still.
// It is small, since every move makes a list of them anew; what does not
// depend on where the thing lies is in the pairing.
type neighbour struct {
	minX, maxX, minY, maxY float64 // no overlap beyond
	gx, gy                 float64 // column and row of the field's grid for a place (0, 0)
	weight                 float64
	p                      *pairing
	x, y                   float64 // added after the turn to reach the relative place
}

// A hood holds the neighbours of one shape of the moving item. The strip is
// divided into columns and rows, and for each of them a set of bits says which
// neighbours reach into it: those of one place are what both sets share.
type hood struct {
	shape       int
	ready       bool
	list        []neighbour
	own         []pairing // those of the list that are in no table
	words       int       // of 64 neighbours each, in one set
	column, row stripes
	domain      box  // where the shape may lie
	fits        bool // the strip is long enough for it
}

// Stripes are the columns or the rows of a hood, one set of bits each.
type stripes struct {
	set, last []uint64 // in last, the neighbours that reach no further
	perUnit   float64
}

// hoodOf readies the neighbours of item i lying as its k-th shape.
func (b *board) hoodOf(i, k int) *hood {
	h := &b.hoods[k]
	if h.ready {
		return h
	}
	h.ready = true
	h.shape = b.items[i].shapes[k]
	s := &b.m.shapes[h.shape]
	h.domain, h.fits = b.domain(s)
	n := len(b.items)
	h.list = h.list[:0]
	h.own = slices.Grow(h.own[:0], len(b.fixed)+n) // so that no pairing moves
	for j := range b.items {
		if j != i {
			q := &b.at[j]
			p := b.pairingOf(h.shape, q.shape)
			if p == &b.lone {
				p = h.keep(*p)
			}
			h.add(p, q.x, q.y, b.weight[i*n+j]*b.scale[i]*b.scale[j])
		}
	}
	for j, f := range b.fixed {
		p := h.keep(b.m.pairing(s.base, s.way, f.base, f.way))
		h.add(p, f.x, f.y, b.wFix[i*len(b.fixed)+j])
	}
	h.divide()
	return h
}

func (h *hood) keep(p pairing) *pairing {
	h.own = append(h.own, p)
	return &h.own[len(h.own)-1]
}

// add takes in what lies at (x, y) if the moving shape can reach it.
func (h *hood) add(p *pairing, x, y, weight float64) {
	r, d := &p.reach, &h.domain
	minX, maxX, minY, maxY := x+r.minX, x+r.maxX, y+r.minY, y+r.maxY
	if maxX <= d.minX || minX > d.maxX || maxY <= d.minY || minY > d.maxY {
		return
	}
	h.list = append(h.list, neighbour{})
	nb := &h.list[len(h.list)-1]
	nb.minX, nb.maxX, nb.minY, nb.maxY = minX, maxX, minY, maxY
	nb.x, nb.y = p.t.apply(-x, -y)
	nb.gx, nb.gy = (nb.x-p.f.box.minX)*p.f.invH, (nb.y-p.f.box.minY)*p.f.invH
	nb.weight, nb.p = weight, p
}

const (
	mostColumns = 64
	mostRows    = 32
)

// divide notes which neighbours reach into which columns and rows.
func (h *hood) divide() {
	n := len(h.list)
	h.words = (n + 63) / 64
	columns, rows := min(mostColumns, 1+2*n), min(mostRows, 1+2*n)
	d := &h.domain
	h.column.lay(columns, h.words, d.width())
	h.row.lay(rows, h.words, d.height())
	for k := range h.list {
		nb := &h.list[k]
		h.column.add(h.words, k, nb.minX-d.minX, nb.maxX-d.minX)
		h.row.add(h.words, k, nb.minY-d.minY, nb.maxY-d.minY)
	}
	h.column.join(h.words)
	h.row.join(h.words)
}

// lay makes empty stripes over a span.
func (s *stripes) lay(count, words int, span float64) {
	s.set, s.last = zeros(s.set, count*words), zeros(s.last, count*words)
	s.perUnit = 0
	if span > 0 {
		s.perUnit = float64(count) / span * (1 - 1e-9) // a hair less, so that the end of the span is in the last
	}
}

// add notes the first and the last stripe of neighbour k.
func (s *stripes) add(words, k int, from, to float64) {
	bit, at := uint64(1)<<(k&63), k>>6
	end := len(s.set) - words
	s.set[min(end, max(0, int(from*s.perUnit))*words)+at] |= bit
	s.last[min(end, int(to*s.perUnit)*words)+at] |= bit
}

// join puts every neighbour into the stripes between its first and its last.
func (s *stripes) join(words int) {
	for k := words; k < len(s.set); k++ {
		s.set[k] |= s.set[k-words] &^ s.last[k-words]
	}
}

// of is the set of the stripe at a place, counted from the first one's start.
func (s *stripes) of(at float64, words int) []uint64 {
	first := int(at*s.perUnit) * words
	return s.set[first : first+words]
}

// zeros is a slice of n zeros, in the place of an old one where that is long
// enough.
func zeros[T any](old []T, n int) []T {
	if cap(old) < n {
		return make([]T, n)
	}
	old = old[:n]
	clear(old)
	return old
}

// priceAt is the weighted overlap at a place; once it reaches limit the
// exact figure no longer matters.
func (b *board) priceAt(h *hood, x, y, limit float64) float64 {
	b.tried++
	sum := 0.0
	row := h.row.of(y-h.domain.minY, h.words)
	for w, column := range h.column.of(x-h.domain.minX, h.words) {
		for set := column & row[w]; set != 0; set &= set - 1 {
			nb := &h.list[w<<6+bits.TrailingZeros64(set)]
			if x <= nb.minX || x >= nb.maxX || y <= nb.minY || y >= nb.maxY {
				continue
			}
			sum += nb.priceAt(x, y)
			if sum >= limit {
				return sum
			}
		}
	}
	return sum
}

// onGrid is a place in cells of the field's grid.
func (nb *neighbour) onGrid(x, y float64) (gx, gy float64) {
	p := nb.p
	return float64(p.gxx*x) + float64(p.gxy*y) + nb.gx, float64(p.gyx*x) + float64(p.gyy*y) + nb.gy
}

// priceAt is the weighted overlap with this neighbour at a place within reach.
func (nb *neighbour) priceAt(x, y float64) float64 {
	p := nb.p
	gx, gy := nb.onGrid(x, y)
	ix, iy := int(gx), int(gy)
	k := iy*p.nx + ix
	c := p.cell[k]
	if uint16(c) == exactMark {
		// the turn only changes places and signs: nothing is rounded
		dx := float64(p.t.a*x) + float64(p.t.b*y) + nb.x
		dy := float64(p.t.c*x) + float64(p.t.d*y) + nb.y
		return float64(nb.weight * p.f.depthInCell(int(p.f.exact[k]), dx, dy))
	}
	return float64(nb.weight * p.unit * max(0, c.between(gx-float64(ix), gy-float64(iy))))
}
