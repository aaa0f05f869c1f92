package lay

import (
	"math"
	"slices"
)

// gaps is the cloth as a grid of little squares, for finding what is left.
type gaps struct {
	origin Point
	h      float64
	nx, ny int
	free   []bool
}

// remnants finds the empty cloth worth keeping: every place that a square of
// the least width fits, joined into outlines, largest first. The outlines
// run at most a few hundredths of that width inside the true gap.
func remnants(p *Problem, plan *Plan, least float64) [][]Point {
	if least <= 0 {
		least = plan.Width / 10
	}
	s := newGaps(p, plan, least)
	if s == nil {
		return nil
	}
	for _, at := range plan.Placements {
		s.cover(p.Placed(at))
	}
	for _, flaw := range slices.Concat(p.Cloth.Flaws, p.Cloth.Holes) {
		for _, lying := range p.Cloth.asItLies(plan.Folding, flaw) {
			s.cover(lying)
		}
	}
	s.part(plan.Zones(p.Cloth.Width), plan.Width)
	s.open(int(math.Ceil(least / s.h)))
	return s.outlines()
}

// part keeps what is left in one zone from what is left in the next, and takes away what
// lies in none.
func (s *gaps) part(zones []Zone, width float64) {
	if len(zones) < 2 {
		return
	}
	end := s.origin.X + float64(float64(s.nx)*s.h)
	for _, z := range zones {
		to := min(z.To, end)
		if z.Far < width {
			s.edge([]Point{{z.From, z.Far}, {to, z.Far}})
		}
		if z.To < end {
			s.edge([]Point{{to, 0}, {to, width}})
			s.fill([]Point{{z.From, z.Far}, {to, z.Far}, {to, width}, {z.From, width}}, false)
		}
	}
}

// gridOfRemnant is how many little squares go into the least width.
const gridOfRemnant = 24

func newGaps(p *Problem, plan *Plan, least float64) *gaps {
	b := box{0, 0, max(plan.Length, p.Cloth.Length) / plan.Layers(), plan.Width}
	if p.Cloth.Outline != nil {
		b = boxOf(p.Cloth.Outline)
	}
	if !(least > 0) || !(b.width() > 0) {
		return nil
	}
	s := &gaps{origin: Point{b.minX, b.minY}, h: least / gridOfRemnant}
	for b.width()/s.h*b.height()/s.h > 2_000_000 {
		s.h *= 1.25
	}
	s.nx, s.ny = int(b.width()/s.h), int(b.height()/s.h)
	if s.nx < 1 || s.ny < 1 {
		return nil
	}
	s.free = make([]bool, s.nx*s.ny)
	if p.Cloth.Outline == nil {
		for i := range s.free {
			s.free[i] = true
		}
		return s
	}
	s.fill(p.Cloth.Outline, true)
	s.edge(p.Cloth.Outline)
	return s
}

func (s *gaps) cover(ring []Point) {
	s.fill(ring, false)
	s.edge(ring)
}

// fill sets the squares whose middles lie in the ring: along each row, those with an odd
// number of sides further on.
func (s *gaps) fill(ring []Point, to bool) {
	sides := s.crossed(ring)
	for iy, xs := range sides {
		slices.Sort(xs)
		for k := len(xs) - 1; k > 0; k -= 2 {
			for ix := s.column(xs[k-1]); ix < s.column(xs[k]); ix++ {
				s.free[iy*s.nx+ix] = to
			}
		}
	}
}

// crossed are, by row, where the sides of a ring cross the middles of its squares.
func (s *gaps) crossed(ring []Point) [][]float64 {
	out := make([][]float64, s.ny)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		low, high := min(a.Y, b.Y), max(a.Y, b.Y)
		for iy := s.index(low-s.origin.Y, s.ny); iy <= s.index(high-s.origin.Y, s.ny); iy++ {
			if y := s.origin.Y + float64((float64(iy)+0.5)*s.h); (a.Y > y) != (b.Y > y) {
				out[iy] = append(out[iy], a.X+float64((y-a.Y)/(b.Y-a.Y)*(b.X-a.X)))
			}
		}
	}
	return out
}

// column is the first square of a row whose middle lies at x or further.
func (s *gaps) column(x float64) int {
	ix := max(0, min(s.nx, int((x-s.origin.X)/s.h)))
	middle := func(ix int) float64 { return s.origin.X + float64((float64(ix)+0.5)*s.h) }
	for ix > 0 && middle(ix-1) >= x {
		ix--
	}
	for ix < s.nx && middle(ix) < x {
		ix++
	}
	return ix
}

// edge takes away the squares along the ring.
func (s *gaps) edge(ring []Point) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		steps := int(distance(a, b)/s.h*2) + 1
		for k := 0; k <= steps; k++ {
			t := float64(k) / float64(steps)
			x := a.X + float64(t*(b.X-a.X)) - s.origin.X
			y := a.Y + float64(t*(b.Y-a.Y)) - s.origin.Y
			s.take(x, y)
		}
	}
}

// take removes the square at (x, y) and those round it, so that smoothing an
// outline by less than a square never reaches a piece.
func (s *gaps) take(x, y float64) {
	ix, iy := int(math.Floor(x/s.h)), int(math.Floor(y/s.h))
	for v := max(0, iy-1); v <= min(s.ny-1, iy+1); v++ {
		for u := max(0, ix-1); u <= min(s.nx-1, ix+1); u++ {
			s.free[v*s.nx+u] = false
		}
	}
}

func (s *gaps) index(v float64, n int) int {
	return max(0, min(n-1, int(v/s.h)))
}

// open keeps only squares that belong to some free k×k block.
func (s *gaps) open(k int) {
	sum := make([]int, (s.nx+1)*(s.ny+1))
	row := s.nx + 1
	for iy := range s.ny {
		for ix := range s.nx {
			v := 0
			if s.free[iy*s.nx+ix] {
				v = 1
			}
			sum[(iy+1)*row+ix+1] = v + sum[iy*row+ix+1] + sum[(iy+1)*row+ix] - sum[iy*row+ix]
		}
	}
	keep := make([]int, (s.nx+1)*(s.ny+1)) // differences, to be summed up
	for iy := 0; iy+k <= s.ny; iy++ {
		for ix := 0; ix+k <= s.nx; ix++ {
			if sum[(iy+k)*row+ix+k]-sum[iy*row+ix+k]-sum[(iy+k)*row+ix]+sum[iy*row+ix] == k*k {
				keep[iy*row+ix]++
				keep[(iy+k)*row+ix]--
				keep[iy*row+ix+k]--
				keep[(iy+k)*row+ix+k]++
			}
		}
	}
	for iy := range s.ny {
		for ix := range s.nx {
			at := iy*row + ix
			if ix > 0 {
				keep[at] += keep[at-1]
			}
			if iy > 0 {
				keep[at] += keep[at-row]
			}
			if ix > 0 && iy > 0 {
				keep[at] -= keep[at-row-1]
			}
			s.free[iy*s.nx+ix] = keep[at] > 0
		}
	}
}
