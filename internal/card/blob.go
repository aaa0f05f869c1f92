package card

import (
	"math"

	"hembook/internal/shape"
)

// A blob is a dark part of a picture that hangs together, as the first and last pixel of
// each of its rows.
type blob struct {
	top         int
	left, right []int
	area        int
}

// The smallest and the largest square that is looked for, in pixels and as a share of
// the picture's shorter side.
const (
	leastSquare = 9
	mostSquare  = 0.35
)

// blobsOf are the dark parts that could be squares by their size.
func blobsOf(dark []bool, wide, high int) (out []blob) {
	most := int(mostSquare * float64(min(wide, high)))
	seen := make([]bool, len(dark))
	var stack []int
	for start := range dark {
		if !dark[start] || seen[start] {
			continue
		}
		stack = append(stack[:0], start)
		seen[start] = true
		var in []int
		for len(stack) > 0 {
			at := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			in = append(in, at)
			x, y := at%wide, at/wide
			for _, n := range [4]struct {
				ok bool
				at int
			}{{x > 0, at - 1}, {x+1 < wide, at + 1}, {y > 0, at - wide}, {y+1 < high, at + wide}} {
				if n.ok && dark[n.at] && !seen[n.at] {
					seen[n.at] = true
					stack = append(stack, n.at)
				}
			}
		}
		if len(in) >= leastSquare*leastSquare/2 && len(in) <= most*most {
			if b, ok := rowsOf(in, wide, high, most); ok {
				out = append(out, b)
			}
		}
	}
	return out
}

// rowsOf are the rows of a blob; ok is false for one that touches the picture's rim or
// is too long for a square.
func rowsOf(in []int, wide, high, most int) (blob, bool) {
	top, foot := high, 0
	for _, at := range in {
		top, foot = min(top, at/wide), max(foot, at/wide)
	}
	tall := foot - top + 1
	if top == 0 || foot == high-1 || tall > 2*most || tall < leastSquare/2 {
		return blob{}, false
	}
	b := blob{top: top, left: make([]int, tall), right: make([]int, tall), area: len(in)}
	for i := range tall {
		b.left[i] = wide
	}
	for _, at := range in {
		x, i := at%wide, at/wide-top
		if x == 0 || x == wide-1 {
			return blob{}, false
		}
		b.left[i], b.right[i] = min(b.left[i], x), max(b.right[i], x)
	}
	return b, true
}

// quad are the four corners of a blob that is a square seen from somewhere, against the
// clock as they are seen; ok is false for any other.
func (b *blob) quad() (q [4]shape.Point, ok bool) {
	var rim []shape.Point
	full := 0.0
	for i := range b.left {
		y := float64(b.top + i)
		for _, dy := range []float64{0, 1} {
			rim = append(rim, shape.Point{X: float64(b.left[i]), Y: y + dy}, shape.Point{X: float64(b.right[i] + 1), Y: y + dy})
		}
		full += float64(b.right[i] + 1 - b.left[i])
	}
	if float64(b.area) < 0.45*full {
		return q, false // a ring, or letters
	}
	first := farthest(rim, func(p shape.Point) float64 { return math.Hypot(p.X-rim[0].X, p.Y-rim[0].Y) })
	far := farthest(rim, func(p shape.Point) float64 { return math.Hypot(p.X-first.X, p.Y-first.Y) })
	beside := func(p shape.Point) float64 {
		return (far.X-first.X)*(p.Y-first.Y) - (far.Y-first.Y)*(p.X-first.X)
	}
	left := farthest(rim, beside)
	right := farthest(rim, func(p shape.Point) float64 { return -beside(p) })
	// As they are seen, y down: first, left of it, far, right of it is with the clock or
	// against it by the sign of beside; beside is positive where y runs down and left is
	// with the clock, so go the other way.
	q = [4]shape.Point{first, right, far, left}
	area := 0.0
	for i := range q {
		a, c := q[i], q[(i+1)%4]
		area += (a.X*c.Y - a.Y*c.X) / 2
	}
	if area > 0 {
		q[1], q[3] = q[3], q[1]
	}
	area = math.Abs(area)
	return q, area > 0.8*full && area < 1.25*full && evenSides(q)
}

func farthest(of []shape.Point, by func(shape.Point) float64) (out shape.Point) {
	most := math.Inf(-1)
	for _, p := range of {
		if v := by(p); v > most {
			most, out = v, p
		}
	}
	return out
}

// evenSides reports whether no side is far longer than another: a square seen from 60°
// has sides of two to one.
func evenSides(q [4]shape.Point) bool {
	least, most := math.Inf(1), 0.0
	for i := range q {
		long := math.Hypot(q[(i+1)%4].X-q[i].X, q[(i+1)%4].Y-q[i].Y)
		least, most = min(least, long), max(most, long)
	}
	return least >= leastSquare/2 && most < 2.6*least
}
