package tracing

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// How corners are told from curves: our own choice, measured on made-up photographs.
const (
	cornerGap    = 4  // points next to a corner that its rounding by blur spoils
	cornerWindow = 20 // points looked at on each side
	cornerFew    = 6  // at least
	cornerApart  = 5  // points between corners
	leastCorner  = 9 * math.Pi / 180
	fewCorner    = 16 * math.Pi / 180 // where few points tell
)

// A walk is the rim as it is taken apart: which points tell nothing of its line, as those
// of a notch, and where it is broken.
type walk struct {
	*rim
	skip    []bool
	corners []int // in order
	turns   map[int]float64
}

func (w *walk) wrap(i int) int { n := len(w.at); return (i%n + n) % n }

// findCorners finds where the rim turns at once: again and again the place where the
// curves on both sides meet at the widest angle, with no curve taken over a corner that
// is known.
func (w *walk) findCorners() {
	n := len(w.at)
	turn := make([]float64, n)
	fresh := make([]bool, n) // whether turn is up to date
	for {
		best := -1
		for i := range n {
			if !fresh[i] {
				turn[i], fresh[i] = w.turnAt(i), true
			}
			if best < 0 || math.Abs(turn[i]) > math.Abs(turn[best]) {
				best = i
			}
		}
		if best < 0 || math.Abs(turn[best]) < leastCorner {
			break
		}
		w.turns[best] = turn[best]
		w.corners = append(w.corners, best)
		for k := -cornerWindow - cornerGap - 2; k <= cornerWindow+cornerGap+2; k++ {
			i := w.wrap(best + k)
			fresh[i] = max(k, -k) <= cornerApart
			if fresh[i] {
				turn[i] = 0
			}
		}
	}
	slices.Sort(w.corners)
}

// turnAt is how far the rim turns at a point, in radians, against the clock.
func (w *walk) turnAt(i int) float64 {
	if w.skip[i] || slices.Contains(w.corners, i) {
		return 0
	}
	behind, ahead := w.beside(i, -1, cornerWindow), w.beside(i, 1, cornerWindow)
	few := min(len(behind), len(ahead))
	if few < cornerFew {
		return 0
	}
	a, b := curveThrough(behind).way(0), curveThrough(ahead).way(0)
	t := math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)
	if few < cornerWindow/2 && math.Abs(t) < fewCorner {
		return 0
	}
	return t
}

// A told is a point of the rim and how many points along it lies from another.
type told struct {
	u float64
	p shape.Point
}

// beside are the points on one side of a point that tell of the rim's way there, up to
// the next corner.
func (w *walk) beside(i, side, most int) (out []told) {
	for k := cornerGap; k < cornerGap+most; k++ {
		at := w.wrap(i + side*k)
		if slices.ContainsFunc(w.corners, func(c int) bool { d := w.wrap(c - at); return c != i && (d <= cornerGap || d >= len(w.at)-cornerGap) }) {
			break
		}
		if !w.skip[at] {
			out = append(out, told{float64(side*k) * w.each, w.at[at]})
		}
	}
	return out
}

// wayOut is the curve along the rim on one side of a corner: over as many points as it
// follows closely.
func (w *walk) wayOut(i, side int) bow {
	const even = 0.1 // mm
	for most := 3 * cornerWindow; ; most = most * 2 / 3 {
		of := w.beside(i, side, most)
		b, sum := curveThrough(of), 0.0
		for _, o := range of {
			q := b.at(o.u)
			sum += (q.X-o.p.X)*(q.X-o.p.X) + (q.Y-o.p.Y)*(q.Y-o.p.Y)
		}
		if most <= cornerWindow || sum < even*even*float64(len(of)) {
			return b
		}
	}
}

// A bow is a point moving along a parabola: p + u·v + u²·a.
type bow struct{ p, v, a shape.Point }

func (b bow) at(u float64) shape.Point {
	return shape.Point{X: b.p.X + u*(b.v.X+u*b.a.X), Y: b.p.Y + u*(b.v.Y+u*b.a.Y)}
}

func (b bow) way(u float64) shape.Point {
	return shape.Point{X: b.v.X + 2*u*b.a.X, Y: b.v.Y + 2*u*b.a.Y}
}

// curveThrough is the bow nearest to points by least squares; straight through few.
func curveThrough(of []told) bow {
	terms := 3
	if len(of) < cornerWindow/2 {
		terms = 2
	}
	m := make([][]float64, terms)
	for r := range m {
		m[r] = make([]float64, terms+2)
	}
	for _, o := range of {
		row := [3]float64{1, o.u, o.u * o.u}
		for r := range terms {
			for c := range terms {
				m[r][c] += row[r] * row[c]
			}
			m[r][terms] += row[r] * o.p.X
			m[r][terms+1] += row[r] * o.p.Y
		}
	}
	solveRows(m)
	b := bow{p: shape.Point{X: m[0][terms], Y: m[0][terms+1]}, v: shape.Point{X: m[1][terms], Y: m[1][terms+1]}}
	if terms == 3 {
		b.a = shape.Point{X: m[2][terms], Y: m[2][terms+1]}
	}
	return b
}

// solveRows makes the left square of rows of equations the identity, so that what stands
// to its right are the answers; a row that says nothing gives zero.
func solveRows(m [][]float64) {
	n := len(m)
	for c := range n {
		best := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		if math.Abs(m[c][c]) < 1e-12 {
			clear(m[c])
			continue
		}
		for j := len(m[c]) - 1; j >= c; j-- {
			m[c][j] /= m[c][c]
		}
		for r := range n {
			if r == c || m[r][c] == 0 {
				continue
			}
			k := m[r][c]
			for j := c; j < len(m[r]); j++ {
				m[r][j] -= k * m[c][j]
			}
		}
	}
}
