package lay

import "math"

// A field answers, for one shape moving against one fixed shape, how deep
// they overlap at the relative place d: zero outside, else the least move
// that separates them. A grid makes the answer cheap: deep cells are
// interpolated, cells that a border crosses are answered exactly.
type field struct {
	box     box
	h, invH float64
	nx, ny  int
	unit    float64   // of the depths in cells
	cell    []cell    // row by row
	rough   []float32 // about the depth in each cell, for surveys
	exact   []uint32  // by cell: where its data begin if a border crosses it, else 0
	data    []uint32  // exact cells: parts with the planes that cut them, borders
	planes  []plane   // of all parts, one after the other
	borders []border
	parts   []convexPart
}

// A cell holds the depths at its four corners (south-west first, sixteen bits
// each, in the field's unit, zeroDepth being none). Where a border crosses a
// cell, corners outside have their distance as a negative depth if what lies
// between the corners then follows the border closely enough for a search, and
// the first place is exactMark if not. One load of 8 bytes answers most
// questions, and the fields of a lay stay small enough for a processor's cache.
type cell uint64

const (
	exactMark = 0xffff
	zeroDepth = 0x2000
	mostDepth = 0xfff0
	outCell   = cell(zeroDepth * 0x0001_0001_0001_0001) // wholly outside
)

func depthCell(corner [4]uint16) cell {
	return cell(corner[0]) | cell(corner[1])<<16 | cell(corner[2])<<32 | cell(corner[3])<<48
}

// between is the depth in a cell, negative outside, tx and ty being how far
// into it the place lies, from 0 to 1.
func (c cell) between(tx, ty float64) float64 {
	sw, se := float64(c&0xffff), float64(c>>16&0xffff)
	nw, ne := float64(c>>32&0xffff), float64(c>>48)
	low := sw + float64(tx*(se-sw))
	high := nw + float64(tx*(ne-nw))
	return low + float64(ty*(high-low)) - zeroDepth
}

// partsField is a field that knows its parts alone, which is enough for line
// scans and compaction.
func partsField(moving, fixed [][]Point, clearance float64) *field {
	f := &field{parts: forbiddenParts(moving, fixed, clearance)}
	f.box = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i := range f.parts {
		b := f.parts[i].box
		f.box.minX, f.box.maxX = math.Min(f.box.minX, b.minX), math.Max(f.box.maxX, b.maxX)
		f.box.minY, f.box.maxY = math.Min(f.box.minY, b.minY), math.Max(f.box.maxY, b.maxY)
	}
	return f
}

// fill makes the grid, about so many cells along the longer side.
func (f *field) fill(cells int) {
	f.borders = borders(f.parts)
	side := math.Max(f.box.width(), f.box.height())
	f.h = side / float64(cells)
	f.invH = 1 / f.h
	f.nx = int(math.Ceil(f.box.width()*f.invH)) + 1
	f.ny = int(math.Ceil(f.box.height()*f.invH)) + 1
	f.unit = math.Min(f.box.width(), f.box.height()) / 2 / (mostDepth - zeroDepth) // nothing lies deeper than the middle
	f.cell = make([]cell, f.nx*f.ny)
	f.exact = make([]uint32, len(f.cell))
	f.data = append(f.data, 0) // so that no cell's data begin at 0
	b := newBlock(f)
	for y := 0; y < f.ny; y += blockSide {
		for x := 0; x < f.nx; x += blockSide {
			b.fill(x, y)
		}
	}
	f.rough = make([]float32, len(f.cell))
	for k, c := range f.cell {
		f.rough[k] = float32(f.unit * float64(int(uint16(c))-zeroDepth))
		if f.exact[k] != 0 {
			f.rough[k] = float32(edgeDepth * f.h)
		}
	}
}

// depth is how deep the shapes overlap at (x, y); the caller has checked
// that the place is within the box.
func (f *field) depth(x, y float64) float64 {
	gx, gy := (x-f.box.minX)*f.invH, (y-f.box.minY)*f.invH
	ix, iy := int(gx), int(gy)
	k := iy*f.nx + ix
	if at := f.exact[k]; at != 0 {
		return f.depthInCell(int(at), x, y)
	}
	return f.unit * f.cell[k].between(gx-float64(ix), gy-float64(iy))
}

func (f *field) depthInCell(at int, x, y float64) float64 {
	data := f.data[at:]
	planes := f.planes
	k := 1
	in := false
	for range data[0] {
		n := int(data[k])
		k++
		if !in {
			in = true
			for _, e := range data[k : k+n] {
				p := &planes[e]
				if float64(p.nx*x)+float64(p.ny*y) > p.c-tolerance {
					in = false
					break
				}
			}
		}
		k += n
	}
	if !in {
		return 0
	}
	best := math.Inf(1)
	for _, e := range data[k+1 : k+1+int(data[k])] {
		s := &f.borders[e]
		px, py := x-s.ax, y-s.ay
		t := (float64(px*s.dx) + float64(py*s.dy)) * s.inv
		if t > 0 {
			t = min(t, 1)
			px -= float64(t * s.dx)
			py -= float64(t * s.dy)
		}
		if d := float64(px*px) + float64(py*py); d < best {
			best = d
		}
	}
	return math.Sqrt(best)
}
