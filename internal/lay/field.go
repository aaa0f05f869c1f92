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
	cell    []cell   // row by row
	data    []uint32 // exact cells: parts with the planes that cut them, borders
	planes  []plane
	borders []border
	parts   []part // those near the border; for line scans and compaction
}

// A cell holds the depths at its four corners; a cell wholly outside has
// outMark instead, and one that a border crosses has exactMark and then the
// offset of its data. One load of 16 bytes answers most questions.
type cell struct {
	sw, se, nw, ne float32
}

const (
	outMark   = -1
	exactMark = -2

	cellOut  = -1
	cellDeep = -2
)

func newField(moving, fixed [][]Point, clearance float64, cells int) *field {
	f := &field{parts: forbiddenParts(moving, fixed, clearance)}
	f.borders = borders(f.parts)
	f.box = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i := range f.parts {
		b := f.parts[i].box
		f.box.minX, f.box.maxX = math.Min(f.box.minX, b.minX), math.Max(f.box.maxX, b.maxX)
		f.box.minY, f.box.maxY = math.Min(f.box.minY, b.minY), math.Max(f.box.maxY, b.maxY)
	}
	side := math.Max(f.box.width(), f.box.height())
	f.h = side / float64(cells)
	f.invH = 1 / f.h
	f.nx = int(math.Ceil(f.box.width()*f.invH)) + 1
	f.ny = int(math.Ceil(f.box.height()*f.invH)) + 1
	f.fillCells(f.corners())
	return f
}

// exactDepth is the slow, obvious answer.
func (f *field) exactDepth(x, y float64) float64 {
	for i := range f.parts {
		if f.parts[i].inside(x, y) > tolerance {
			return f.toBorder(x, y)
		}
	}
	return 0
}

func (f *field) toBorder(x, y float64) float64 {
	best := math.Inf(1)
	for i := range f.borders {
		if d := f.borders[i].dist2(x, y); d < best {
			best = d
		}
	}
	return math.Sqrt(best)
}

func (f *field) corners() []float32 {
	out := make([]float32, (f.nx+1)*(f.ny+1))
	for iy := 0; iy <= f.ny; iy++ {
		for ix := 0; ix <= f.nx; ix++ {
			x, y := f.box.minX+float64(float64(ix)*f.h), f.box.minY+float64(float64(iy)*f.h)
			out[iy*(f.nx+1)+ix] = float32(f.exactDepth(x, y))
		}
	}
	return out
}

// fillCells sorts every cell into outside, deep, or crossed by a border.
func (f *field) fillCells(corner []float32) {
	f.cell = make([]cell, f.nx*f.ny)
	crossed := make([]bool, len(f.cell))
	half := f.h * (math.Sqrt2/2 + 1e-6)
	for _, s := range f.borders {
		b := boxOf([]Point{{s.ax, s.ay}, {s.ax + s.dx, s.ay + s.dy}})
		x0, x1 := f.column(b.minX-half), f.column(b.maxX+half)
		y0, y1 := f.row(b.minY-half), f.row(b.maxY+half)
		for iy := y0; iy <= y1; iy++ {
			for ix := x0; ix <= x1; ix++ {
				cx, cy := f.centre(ix, iy)
				if s.dist2(cx, cy) <= half*half {
					crossed[iy*f.nx+ix] = true
				}
			}
		}
	}
	firstPlane := make([]int, len(f.parts))
	for i := range f.parts {
		firstPlane[i] = len(f.planes)
		f.planes = append(f.planes, f.parts[i].planes...)
	}
	for iy := 0; iy < f.ny; iy++ {
		for ix := 0; ix < f.nx; ix++ {
			k := iy*f.nx + ix
			cx, cy := f.centre(ix, iy)
			code := int32(cellOut)
			switch {
			case crossed[k]:
				code = f.exactCell(cx, cy, half, firstPlane)
			case f.exactDepth(cx, cy) > 0:
				code = cellDeep
			}
			switch at := iy*(f.nx+1) + ix; code {
			case cellOut:
				f.cell[k] = cell{sw: outMark}
			case cellDeep:
				f.cell[k] = cell{corner[at], corner[at+1], corner[at+f.nx+1], corner[at+f.nx+2]}
			default:
				f.cell[k] = cell{sw: exactMark, se: math.Float32frombits(uint32(code))}
			}
		}
	}
}

// exactCell writes the parts and borders that matter within half of (x, y).
func (f *field) exactCell(x, y, half float64, firstPlane []int) int32 {
	at := len(f.data)
	f.data = append(f.data, 0)
	for i := range f.parts {
		p := &f.parts[i]
		if p.box.minX > x+half || p.box.maxX < x-half || p.box.minY > y+half || p.box.maxY < y-half {
			continue
		}
		start := len(f.data)
		f.data = append(f.data, 0)
		apart := false
		for k, e := range p.planes {
			d := e.outside(x, y)
			if d > half {
				apart = true
				break
			}
			if d > -half-tolerance {
				f.data = append(f.data, uint32(firstPlane[i]+k))
				f.data[start]++
			}
		}
		if apart {
			f.data = f.data[:start]
			continue
		}
		f.data[at]++
		if f.data[start] == 0 { // covers the whole cell
			f.data = f.data[:at]
			return cellDeep
		}
	}
	if f.data[at] == 0 {
		f.data = f.data[:at]
		return cellOut
	}
	near := f.toBorder(x, y) + 2*half
	count := len(f.data)
	f.data = append(f.data, 0)
	for i := range f.borders {
		if f.borders[i].dist2(x, y) <= near*near {
			f.data = append(f.data, uint32(i))
			f.data[count]++
		}
	}
	return int32(at)
}

func (f *field) centre(ix, iy int) (x, y float64) {
	return f.box.minX + float64((float64(ix)+0.5)*f.h), f.box.minY + float64((float64(iy)+0.5)*f.h)
}

func (f *field) column(x float64) int {
	return max(0, min(f.nx-1, int((x-f.box.minX)*f.invH)))
}

func (f *field) row(y float64) int {
	return max(0, min(f.ny-1, int((y-f.box.minY)*f.invH)))
}

// depth is how deep the shapes overlap at (x, y); the caller has checked
// that the place is within the box.
func (f *field) depth(x, y float64) float64 {
	gx, gy := (x-f.box.minX)*f.invH, (y-f.box.minY)*f.invH
	ix, iy := int(gx), int(gy)
	c := &f.cell[iy*f.nx+ix]
	if c.sw == outMark {
		return 0
	}
	if c.sw == exactMark {
		return f.depthInCell(int(math.Float32bits(c.se)), x, y)
	}
	tx, ty := gx-float64(ix), gy-float64(iy)
	low := float64(c.sw) + float64(tx*float64(c.se-c.sw))
	high := float64(c.nw) + float64(tx*float64(c.ne-c.nw))
	return low + float64(ty*(high-low))
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
