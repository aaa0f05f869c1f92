package lay

import "math"

// blockSide is how many cells a block is wide.
const blockSide = 6

// A block fills a field's grid a few cells at a time: the parts and borders
// that matter anywhere in the block are picked out once for all its cells.
type block struct {
	f       *field
	first   []int // index of each part's first plane in f.planes
	parts   []int
	borders []int
	away    []float64                                 // squared distance of each border from the middle
	covered bool                                      // some part holds the whole block
	depth   [(blockSide + 1) * (blockSide + 1)]uint16 // in the field's unit
}

func newBlock(f *field) *block {
	b := &block{f: f, first: make([]int, len(f.parts))}
	for i := range f.parts {
		b.first[i] = len(f.planes)
		f.planes = append(f.planes, f.parts[i].planes...)
	}
	return b
}

// fill answers the cells from (x0, y0) on.
func (b *block) fill(x0, y0 int) {
	f := b.f
	half := blockSide * f.h / 2
	cx, cy := f.box.minX+float64(float64(x0)*f.h)+half, f.box.minY+float64(float64(y0)*f.h)+half
	b.gather(cx, cy, half*math.Sqrt2*(1+1e-6))
	if len(b.parts) == 0 && !b.covered {
		b.leaveOut(x0, y0)
		return
	}
	for j := range blockSide + 1 {
		for i := range blockSide + 1 {
			x, y := f.box.minX+float64(float64(x0+i)*f.h), f.box.minY+float64(float64(y0+j)*f.h)
			b.depth[j*(blockSide+1)+i] = b.rounded(b.depthAt(x, y))
		}
	}
	reach := f.h * (math.Sqrt2/2 + 1e-6)
	for j := range min(blockSide, f.ny-y0) {
		for i := range min(blockSide, f.nx-x0) {
			x := f.box.minX + float64((float64(x0+i)+0.5)*f.h)
			y := f.box.minY + float64((float64(y0+j)+0.5)*f.h)
			k := j*(blockSide+1) + i
			at := (y0+j)*f.nx + x0 + i
			f.cell[at], f.exact[at] = b.cellAt(x, y, reach, k)
		}
	}
}

// leaveOut marks a block that no part reaches.
func (b *block) leaveOut(x0, y0 int) {
	for y := y0; y < min(y0+blockSide, b.f.ny); y++ {
		for x := x0; x < min(x0+blockSide, b.f.nx); x++ {
			b.f.cell[y*b.f.nx+x] = outCell
		}
	}
}

// gather picks what matters within r of (x, y).
func (b *block) gather(x, y, r float64) {
	f := b.f
	b.parts, b.borders, b.covered = b.parts[:0], b.borders[:0], false
	for i := range f.parts {
		p := &f.parts[i]
		if x < p.box.minX-r || x > p.box.maxX+r || y < p.box.minY-r || y > p.box.maxY+r {
			continue
		}
		far := math.Inf(-1)
		for k := range p.planes {
			if far = max(far, p.planes[k].outside(x, y)); far > r {
				break
			}
		}
		switch {
		case far > r:
		case far < -r-tolerance:
			b.covered = true
		default:
			b.parts = append(b.parts, i)
		}
	}
	if len(b.parts) == 0 && !b.covered {
		return
	}
	best := math.Inf(1)
	b.away = b.away[:0]
	for i := range f.borders {
		d := f.borders[i].dist2(x, y)
		b.away = append(b.away, d)
		best = min(best, d)
	}
	near := math.Sqrt(best) + 2*r
	for i, d := range b.away {
		if d <= near*near {
			b.borders = append(b.borders, i)
		}
	}
}

func (b *block) toBorder(x, y float64) float64 {
	best := math.Inf(1)
	for _, i := range b.borders {
		best = min(best, b.f.borders[i].dist2(x, y))
	}
	return math.Sqrt(best)
}

// rounded is a depth in the field's unit; what overlaps at all stays above
// zero.
func (b *block) rounded(depth float64) uint16 {
	if depth <= 0 {
		return zeroDepth
	}
	return uint16(math.Max(zeroDepth+1, math.Min(mostDepth, zeroDepth+math.Round(depth/b.f.unit))))
}

// outside is a distance from the overlap as a negative depth.
func (b *block) outside(distance float64) uint16 {
	return uint16(math.Max(0, zeroDepth-math.Round(distance/b.f.unit)))
}

func (b *block) depthAt(x, y float64) float64 {
	in := b.covered
	for _, i := range b.parts {
		if in {
			break
		}
		in = b.f.parts[i].inside(x, y) > tolerance
	}
	if !in {
		return 0
	}
	return b.toBorder(x, y)
}

// cellAt makes the cell round (x, y), whose corners start at k, and tells
// where its exact data are if a border crosses it.
func (b *block) cellAt(x, y, reach float64, k int) (cell, uint32) {
	d := b.depth[k:]
	corners := [4]uint16{d[0], d[1], d[blockSide+1], d[blockSide+2]}
	if b.toBorder(x, y) <= reach {
		if at, ok := b.writeExact(x, y, reach); ok {
			return b.crossed(x, y, at, corners), uint32(at)
		}
	}
	return depthCell(corners), 0
}

// edgeSlack is how far, in cells, the depth that corners tell may be off at
// nine places of a cell; nothing that decides whether pieces overlap asks it.
const edgeSlack = 0.03

// crossed is a cell that a border crosses, with the exact data at the given
// offset: by its corners where these tell the depth within it.
func (b *block) crossed(x, y float64, at int, corners [4]uint16) cell {
	f := b.f
	half := f.h / 2
	for i, d := range corners {
		if d == zeroDepth {
			corners[i] = b.outside(b.toBorder(x+float64(half*float64(i&1*2-1)), y+float64(half*float64(i&2-1))))
		}
	}
	c := depthCell(corners)
	for _, ty := range [3]float64{0.02, 0.5, 0.98} {
		for _, tx := range [3]float64{0.02, 0.5, 0.98} {
			want := f.depthInCell(at, x+float64((tx-0.5)*f.h), y+float64((ty-0.5)*f.h))
			if math.Abs(float64(f.unit*max(0, c.between(tx, ty)))-want) > edgeSlack*f.h {
				return exactMark
			}
		}
	}
	return c
}

// writeExact writes the parts and borders that matter within reach of (x, y);
// not ok when the cell turns out to be wholly inside or outside.
func (b *block) writeExact(x, y, reach float64) (int, bool) {
	f := b.f
	at := len(f.data)
	f.data = append(f.data, 0)
	for _, i := range b.parts {
		start := len(f.data)
		f.data = append(f.data, 0)
		for k, e := range f.parts[i].planes {
			d := e.outside(x, y)
			if d > reach {
				f.data = f.data[:start]
				break
			}
			if d > -reach-tolerance {
				f.data = append(f.data, uint32(b.first[i]+k))
				f.data[start]++
			}
		}
		if len(f.data) == start {
			continue
		}
		f.data[at]++
		if f.data[start] == 0 { // holds the whole cell
			f.data = f.data[:at]
			return 0, false
		}
	}
	if f.data[at] == 0 || b.covered {
		f.data = f.data[:at]
		return 0, false
	}
	near := b.toBorder(x, y) + 2*reach
	count := len(f.data)
	f.data = append(f.data, 0)
	for _, i := range b.borders {
		if f.borders[i].dist2(x, y) <= near*near {
			f.data = append(f.data, uint32(i))
			f.data[count]++
		}
	}
	return at, true
}
