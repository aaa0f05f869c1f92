package tracing

import (
	"math"

	"hembook/internal/shape"
)

// A notch is cut so wide and so deep, in millimetres (common practice, no source); the rim
// follows a narrow one a third of its depth, or more.
const (
	notchHalf     = 7  // points on each side of its middle that it may take
	notchBeside   = 10 // points on each side that tell of the edge
	leastNotch    = 1.2
	mostNotch     = 9.0
	notchEdgeEven = 0.3 // how even the edge must be beside it
)

// findNotches finds dents in an otherwise even edge, by the point at the middle of each,
// and marks their points as telling nothing of the edge's line.
func (w *walk) findNotches() (out []int) {
	n := len(w.at)
	depth := make([]float64, n)
	for i := range n {
		depth[i] = w.dentAt(i)
	}
	for i := range n {
		if depth[i] < leastNotch || depth[i] > mostNotch {
			continue
		}
		deepest := true
		for k := -notchHalf - 3; k <= notchHalf+3; k++ {
			o := depth[w.wrap(i+k)]
			deepest = deepest && (o < depth[i] || o == depth[i] && k >= 0)
		}
		if deepest {
			out = append(out, i)
		}
	}
	for _, d := range out {
		for k := -notchHalf; k <= notchHalf; k++ {
			w.skip[w.wrap(d+k)] = true
		}
	}
	return out
}

// dentAt is how deep the rim goes inwards at a point, from the line of the edge on both
// sides of it; 0 where these are not one line.
func (w *walk) dentAt(i int) float64 {
	a, b := w.at[w.wrap(i-notchHalf)], w.at[w.wrap(i+notchHalf)]
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < 2 {
		return 0
	}
	ux, uy := (b.X-a.X)/long, (b.Y-a.Y)/long
	frame := func(p shape.Point) (along, out float64) {
		x, y := p.X-(a.X+b.X)/2, p.Y-(a.Y+b.Y)/2
		return x*ux + y*uy, x*uy - y*ux
	}
	rim := newParabola()
	var beside [][2]float64
	for _, side := range []int{-1, 1} {
		for k := notchHalf; k < notchHalf+notchBeside; k++ {
			s, o := frame(w.at[w.wrap(i+side*k)])
			beside = append(beside, [2]float64{s, o})
			rim.add(s, o)
		}
	}
	k := rim.solved()
	line := func(s float64) float64 { return k[0] + s*(k[1]+s*k[2]) }
	for _, q := range beside {
		if math.Abs(q[1]-line(q[0])) > notchEdgeEven {
			return 0
		}
	}
	s, o := frame(w.at[i])
	return line(s) - o
}
