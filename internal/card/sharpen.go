package card

import (
	"math"
	"slices"

	"hembook/internal/photo"
	"hembook/internal/shape"
)

// sharpen finds the corners of a dark square to a small part of a pixel: from where its
// sides are nearly, it looks so far to both sides of each for the place where the light
// is half way, lays a line through these, and lets neighbours meet. soft is how wide the
// sides are blurred, in pixels.
func sharpen(l *photo.Light, quad [4]shape.Point, reach float64) (out [4]shape.Point, soft float64, ok bool) {
	var lines [4]straightLine
	for i := range 4 {
		line, wide, ok := sideLine(l, quad[i], quad[(i+1)%4], reach)
		if !ok {
			return out, 0, false
		}
		lines[i] = line
		soft += wide / 4
	}
	for i := range 4 {
		at, ok := lines[(i+3)%4].meets(lines[i])
		if !ok || math.Hypot(at.X-quad[i].X, at.Y-quad[i].Y) > 3*reach+2 {
			return out, 0, false
		}
		out[i] = at
	}
	return out, soft, true
}

// A straightLine is all points p with p·n = d, n of length 1.
type straightLine struct{ nx, ny, d float64 }

func (a straightLine) meets(b straightLine) (shape.Point, bool) {
	det := a.nx*b.ny - a.ny*b.nx
	if math.Abs(det) < 0.2 {
		return shape.Point{}, false
	}
	return shape.Point{X: (a.d*b.ny - a.ny*b.d) / det, Y: (a.nx*b.d - a.d*b.nx) / det}, true
}

// sideLine is the line along one side of a square that lies to the left of it as seen
// with y down: against the clock on the screen, the outside is to the right.
func sideLine(l *photo.Light, a, b shape.Point, reach float64) (straightLine, float64, bool) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < leastSquare/2 {
		return straightLine{}, 0, false
	}
	ux, uy := (b.X-a.X)/long, (b.Y-a.Y)/long
	nx, ny := -uy, ux // outwards
	count := min(max(int(0.8*long), 7), 60)
	var rises []rise
	for i := range count {
		s := long * (0.1 + 0.8*(float64(i)+0.5)/float64(count))
		x, y := a.X+s*ux, a.Y+s*uy
		if !l.Holds(x, y, reach+1) {
			return straightLine{}, 0, false
		}
		if r, ok := riseIn(func(t float64) float64 { return l.At(x+t*nx, y+t*ny) }, reach); ok {
			r.x, r.y = x, y
			rises = append(rises, r)
		}
	}
	if len(rises) < max(count*6/10, 5) {
		return straightLine{}, 0, false
	}
	ink := inkOf(rises)
	var at []shape.Point
	soft := 0.0
	for _, r := range rises {
		off := r.passes(0.5, ink)
		at = append(at, shape.Point{X: r.x + off*nx, Y: r.y + off*ny})
		soft += (r.passes(0.9, ink) - r.passes(0.1, ink)) / float64(len(rises))
	}
	line, off := lineThrough(at)
	return line, soft, off < 0.8
}

// A rise is light that rises from dark, before 0, to bright, behind it, along a line
// through a place on the side of a square.
type rise struct {
	x, y         float64
	from         float64 // where the first of the light is, along that line
	of           []float64
	dark, bright float64
}

const riseEach = 0.25 // pixels

// riseIn is the steepest rise within reach; ok is false where there is none.
func riseIn(light func(t float64) float64, reach float64) (r rise, ok bool) {
	n := int(2*reach/riseEach) + 1
	of := make([]float64, n)
	for i := range of {
		of[i] = light(-reach + riseEach*float64(i))
	}
	// The steepest rise over a pixel, and the levels about it.
	const span = int(1 / riseEach)
	at, most := -1, 0.0
	for i := 0; i+span < n; i++ {
		if rise := of[i+span] - of[i]; rise > most {
			at, most = i, rise
		}
	}
	if at < 0 || most < 0.02 {
		return r, false
	}
	low, high := at, at+span
	for low > 0 && of[low-1] < of[low] {
		low--
	}
	for high+1 < n && of[high+1] > of[high] {
		high++
	}
	r = rise{from: -reach + riseEach*float64(low), of: of[low : high+1], dark: of[low], bright: of[high]}
	return r, r.bright >= 1.5*r.dark
}

// inkOf is how dark the ink of a side is beside its white: the least that many places say,
// as near a white pip it seems brighter than it is.
func inkOf(rises []rise) float64 {
	var shares []float64
	for _, r := range rises {
		shares = append(shares, r.dark/r.bright)
	}
	slices.Sort(shares)
	return shares[len(shares)/4]
}

// passes is where the light has risen by a share of what it rises by, from ink that is so
// dark beside the white.
func (r *rise) passes(share, ink float64) float64 {
	level := r.bright * (ink + share*(1-ink))
	for i := 0; i+1 < len(r.of); i++ {
		if r.of[i] <= level && r.of[i+1] > level {
			return r.from + riseEach*(float64(i)+(level-r.of[i])/(r.of[i+1]-r.of[i]))
		}
	}
	return r.from
}

// lineThrough is the line with the least squared distances to points, those far off left
// out; off is the root mean square of the others.
func lineThrough(at []shape.Point) (straightLine, float64) {
	use := slices.Clone(at)
	for {
		line := leastSquares(use)
		sum := 0.0
		for _, p := range use {
			d := p.X*line.nx + p.Y*line.ny - line.d
			sum += d * d
		}
		off := math.Sqrt(sum / float64(len(use)))
		kept := slices.DeleteFunc(slices.Clone(use), func(p shape.Point) bool {
			return math.Abs(p.X*line.nx+p.Y*line.ny-line.d) > max(2.5*off, 0.03)
		})
		if len(kept) == len(use) || len(kept) < len(at)/2 {
			return line, off
		}
		use = kept
	}
}

func leastSquares(at []shape.Point) straightLine {
	n := float64(len(at))
	var mx, my, xx, xy, yy float64
	for _, p := range at {
		mx, my = mx+p.X/n, my+p.Y/n
	}
	for _, p := range at {
		x, y := p.X-mx, p.Y-my
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	along := math.Atan2(2*xy, xx-yy) / 2
	s, c := math.Sincos(along)
	return straightLine{-s, c, my*c - mx*s}
}

// A mapping is how a plane is seen from somewhere: a homography, row by row.
type mapping [9]float64

func (m mapping) at(p shape.Point) shape.Point {
	w := m[6]*p.X + m[7]*p.Y + m[8]
	return shape.Point{X: (m[0]*p.X + m[1]*p.Y + m[2]) / w, Y: (m[3]*p.X + m[4]*p.Y + m[5]) / w}
}

// homography is the mapping that takes four points to four others; ok is false where
// three of them lie on a line.
func homography(from, to [4]shape.Point) (m mapping, ok bool) {
	var rows [8][9]float64
	for i := range 4 {
		x, y, u, v := from[i].X, from[i].Y, to[i].X, to[i].Y
		rows[2*i] = [9]float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u}
		rows[2*i+1] = [9]float64{0, 0, 0, x, y, 1, -v * x, -v * y, v}
	}
	for c := range 8 {
		best := c
		for r := c + 1; r < 8; r++ {
			if math.Abs(rows[r][c]) > math.Abs(rows[best][c]) {
				best = r
			}
		}
		rows[c], rows[best] = rows[best], rows[c]
		if math.Abs(rows[c][c]) < 1e-12 {
			return m, false
		}
		for r := range 8 {
			if r == c {
				continue
			}
			k := rows[r][c] / rows[c][c]
			for j := c; j < 9; j++ {
				rows[r][j] -= k * rows[c][j]
			}
		}
	}
	for i := range 8 {
		m[i] = rows[i][8] / rows[i][i]
	}
	m[8] = 1
	return m, true
}
