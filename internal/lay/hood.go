package lay

import "math/bits"

// A neighbour is what one moving shape must know of one thing that lies still.
// What every question needs comes first.
type neighbour struct {
	minX, maxX, minY, maxY float64 // no overlap beyond
	gxx, gxy, gx           float64 // column of the field's grid: gxx·x + gxy·y + gx
	gyx, gyy, gy           float64 // row likewise
	cell                   []cell
	nx                     int
	perUnit                float64 // price of the field's unit of depth
	weight                 float64
	x, y                   float64 // added after the turn to reach the relative place
	t                      square
	f                      *field
}

// A hood holds the neighbours of one shape of the moving item. The strip is
// divided into columns and rows, and for each of them a set of bits says which
// neighbours reach into it: those of one place are what both sets share.
type hood struct {
	shape      int
	ready      bool
	list       []neighbour
	words      int // of 64 neighbours each, in one set
	column     []uint64
	row        []uint64
	perX, perY float64 // columns and rows per unit
	domain     box     // where the shape may lie
	fits       bool    // the strip is long enough for it
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
	h.list = h.list[:0]
	n := len(b.items)
	for j := range b.items {
		if j != i {
			q := &b.at[j]
			h.add(b.pairingOf(h.shape, q.shape), q.x, q.y, b.weight[i*n+j]*b.scale[i]*b.scale[j])
		}
	}
	for j, f := range b.fixed {
		p := b.m.pairing(s.base, s.way, f.base, f.way)
		h.add(&p, f.x, f.y, b.wFix[i*len(b.fixed)+j])
	}
	h.divide()
	return h
}

// add takes in what lies at (x, y) if the moving shape can reach it.
func (h *hood) add(p *pairing, x, y, weight float64) {
	r, d := &p.reach, &h.domain
	minX, maxX, minY, maxY := x+r.minX, x+r.maxX, y+r.minY, y+r.maxY
	if maxX <= d.minX || minX > d.maxX || maxY <= d.minY || minY > d.maxY {
		return
	}
	f := p.f
	h.list = append(h.list, neighbour{minX: minX, maxX: maxX, minY: minY, maxY: maxY,
		gxx: p.t.a * f.invH, gxy: p.t.b * f.invH, gyx: p.t.c * f.invH, gyy: p.t.d * f.invH,
		cell: f.cell, nx: f.nx, perUnit: weight * f.unit, weight: weight, t: p.t, f: f})
	nb := &h.list[len(h.list)-1]
	nb.x, nb.y = p.t.apply(-x, -y)
	nb.gx, nb.gy = (nb.x-f.box.minX)*f.invH, (nb.y-f.box.minY)*f.invH
}

const (
	mostColumns = 32
	mostRows    = 16
)

// divide notes which neighbours reach into which columns and rows.
func (h *hood) divide() {
	n := len(h.list)
	h.words = (n + 63) / 64
	columns, rows := min(mostColumns, 1+n/2), min(mostRows, 1+n/2)
	h.column, h.perX = zeros(h.column, columns*h.words), perUnit(columns, h.domain.width())
	h.row, h.perY = zeros(h.row, rows*h.words), perUnit(rows, h.domain.height())
	for k := range h.list {
		nb := &h.list[k]
		addTo(h.column, h.words, k, (nb.minX-h.domain.minX)*h.perX, (nb.maxX-h.domain.minX)*h.perX)
		addTo(h.row, h.words, k, (nb.minY-h.domain.minY)*h.perY, (nb.maxY-h.domain.minY)*h.perY)
	}
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

// perUnit is how many of a number of stripes make one unit, a hair less so
// that the end of the span is in the last of them.
func perUnit(count int, span float64) float64 {
	if span <= 0 {
		return 0
	}
	return float64(count) / span * (1 - 1e-9)
}

// addTo puts neighbour k into the sets from one stripe to another.
func addTo(sets []uint64, words, k int, from, to float64) {
	bit, at := uint64(1)<<(k&63), k>>6
	last := min(len(sets), (int(to)+1)*words)
	for c := max(0, int(from))*words + at; c < last; c += words {
		sets[c] |= bit
	}
}

// priceAt is the weighted overlap at a place; once it reaches limit the
// exact figure no longer matters.
func (b *board) priceAt(h *hood, x, y, limit float64) float64 {
	b.tried++
	sum := 0.0
	column := h.column[int((x-h.domain.minX)*h.perX)*h.words:]
	row := h.row[int((y-h.domain.minY)*h.perY)*h.words:]
	for w := range h.words {
		for set := column[w] & row[w]; set != 0; set &= set - 1 {
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
	return float64(nb.gxx*x) + float64(nb.gxy*y) + nb.gx, float64(nb.gyx*x) + float64(nb.gyy*y) + nb.gy
}

// priceAt is the weighted overlap with this neighbour at a place within reach.
func (nb *neighbour) priceAt(x, y float64) float64 {
	gx, gy := nb.onGrid(x, y)
	ix, iy := int(gx), int(gy)
	k := iy*nb.nx + ix
	c := nb.cell[k]
	switch uint16(c) {
	case outMark:
		return 0
	case exactMark:
		// the turn only changes places and signs: nothing is rounded
		dx := float64(nb.t.a*x) + float64(nb.t.b*y) + nb.x
		dy := float64(nb.t.c*x) + float64(nb.t.d*y) + nb.y
		return float64(nb.weight * nb.f.depthInCell(int(nb.f.exact[k]), dx, dy))
	}
	return float64(nb.perUnit * max(0, c.between(gx-float64(ix), gy-float64(iy))))
}
