package lay

import "math"

// tighten shifts all items at once, keeping every pair on the sides of each
// other where they are, so that the strip becomes as short as that allows:
// a linear programme (Gomes and Oliveira 2006), repeated while it gains.
// The board must be free of overlap and stays so. It returns the length.
func (b *board) tighten() float64 {
	for range 12 {
		was := b.used()
		keep := append([]spot(nil), b.at...)
		b.length = was
		if !b.shift(was) {
			b.set(keep, was)
			return was
		}
		now := b.used()
		if now > was*(1-1e-7) {
			if now > was {
				b.set(keep, was)
				return was
			}
			return now
		}
	}
	return b.used()
}

// mend tries to end all small overlaps at once within the board's length.
func (b *board) mend() bool {
	keep := append([]spot(nil), b.at...)
	length := b.length
	for range 3 {
		if !b.shift(length) {
			break
		}
		if b.overlap() == 0 {
			return true
		}
	}
	b.set(keep, length)
	return false
}

// reachOfShift is how far an item may move in one programme, as a share of
// the items' mean size.
const reachOfShift = 0.06

// mostTableau bounds the size of a programme. Lays of several hundred pieces
// go without: their programmes would take longer than they save.
const mostTableau = 1_500_000

// shift solves one programme and moves the items; true when the result is
// free of overlap within the given length.
func (b *board) shift(most float64) bool {
	p := b.programme(most)
	if p == nil || len(p.rows)*len(p.cost) > mostTableau {
		return false
	}
	n := len(b.items)
	z, steps := p.solve(40*n + 200)
	b.tried += steps*n*2 + len(p.rows)*2
	if z == nil {
		return false
	}
	for i := range b.at {
		b.at[i].x += z[2*i]
		b.at[i].y += z[2*i+1]
	}
	b.length = most
	b.refreshAll()
	return b.overlap() == 0 && b.inside()
}

func (b *board) programme(most float64) *program {
	n := len(b.items)
	size := 0.0
	for i := range b.items {
		size += b.items[i].size
	}
	t := reachOfShift * size / float64(n)
	p := &program{cost: make([]float64, 2*n+1), lo: make([]float64, 2*n+1), hi: make([]float64, 2*n+1)}
	p.cost[2*n], p.hi[2*n] = 1, most
	for i := range b.items {
		s := &b.m.shapes[b.at[i].shape]
		d, ok := b.domain(s)
		if !ok {
			return nil
		}
		at := b.at[i]
		p.lo[2*i], p.hi[2*i] = rangeOf(at.x, d.minX, d.maxX, t, s.stepX > 0 || s.onFold && s.zone.OnFrom)
		p.lo[2*i+1], p.hi[2*i+1] = rangeOf(at.y, d.minY, d.maxY, t, s.stepY > 0 || s.onFold && !s.zone.OnFrom)
		if p.lo[2*i] > p.hi[2*i] || p.lo[2*i+1] > p.hi[2*i+1] {
			return nil
		}
		// a gentle pull to the start settles ties the same way every time
		p.cost[2*i] = 1e-6 * (1 + float64(i%7)/7)
		p.cost[2*i+1] = 1e-8 * (1 + float64(i%5)/5)
		p.rows = append(p.rows, programRow{[]term{{2 * n, 1}, {2 * i, -1}}, at.x + s.box.maxX})
		p.lo[2*n] = math.Max(p.lo[2*n], at.x+s.box.maxX-t)
	}
	p.lo[2*n] = math.Min(p.lo[2*n], most)
	for i := range n {
		for j := range i {
			b.addRows(p, i, j, t)
		}
		b.addFixedRows(p, i, t)
	}
	return p
}

func rangeOf(at, lo, hi, t float64, stuck bool) (float64, float64) {
	if stuck {
		return 0, 0
	}
	return math.Max(-t, lo-at), math.Min(t, hi-at)
}

// addRows keeps items i and j apart: for every convex part of the forbidden
// region, beyond the edge that is furthest behind now.
func (b *board) addRows(p *program, i, j int, t float64) {
	s, r := &b.m.shapes[b.at[i].shape], &b.m.shapes[b.at[j].shape]
	f, sq := b.m.partsOf(s.base, s.way, r.base, r.way)
	b.rowsOf(p, f, sq, b.at[i].x-b.at[j].x, b.at[i].y-b.at[j].y, 2.83*t, i, j)
}

func (b *board) addFixedRows(p *program, i int, t float64) {
	s := &b.m.shapes[b.at[i].shape]
	for _, k := range b.fixed {
		f, sq := b.m.partsOf(s.base, s.way, k.base, k.way)
		b.rowsOf(p, f, sq, b.at[i].x-k.x, b.at[i].y-k.y, 1.42*t, i, -1)
	}
}

func (b *board) rowsOf(p *program, f *field, sq square, wx, wy, reach float64, i, j int) {
	x, y := sq.apply(wx, wy)
	if x <= f.box.minX-reach || x >= f.box.maxX+reach || y <= f.box.minY-reach || y >= f.box.maxY+reach {
		return
	}
	first := len(p.rows)
	back := sq.inverse()
parts:
	for k := range f.parts {
		q := &f.parts[k]
		if x <= q.box.minX-reach || x >= q.box.maxX+reach || y <= q.box.minY-reach || y >= q.box.maxY+reach {
			continue
		}
		best, at := math.Inf(-1), plane{}
		for _, e := range q.planes {
			if d := e.outside(x, y); d > best {
				best, at = d, e
			}
		}
		if best >= reach {
			continue
		}
		nx, ny := back.apply(at.nx, at.ny)
		for _, row := range p.rows[first:] {
			if math.Abs(row.term[0].k-nx) < 1e-12 && math.Abs(row.term[1].k-ny) < 1e-12 && row.bound >= -best {
				continue parts
			}
		}
		row := programRow{term: []term{{2 * i, nx}, {2*i + 1, ny}}, bound: -best}
		if j >= 0 {
			row.term = append(row.term, term{2 * j, -nx}, term{2*j + 1, -ny})
		}
		p.rows = append(p.rows, row)
	}
}
