package tracing

import (
	"math"

	"hembook/internal/shape"
)

// evenly are points along a closed line, a step apart or nearly.
func evenly(ring []shape.Point, step float64) []shape.Point {
	long := roundLength(ring)
	n := max(int(long/step+0.5), 8)
	each := long / float64(n)
	out := make([]shape.Point, 0, n)
	left := 0.0 // of the way to the next point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		far := math.Hypot(b.X-a.X, b.Y-a.Y)
		at := left
		for ; at < far && len(out) < n; at += each {
			k := at / far
			out = append(out, shape.Point{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)})
		}
		left = at - far
	}
	return out
}

func roundLength(ring []shape.Point) (sum float64) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	return sum
}

// smoothed is a closed line with each point the mean of those about it, weighed by a bell
// so many millimetres wide.
func smoothed(ring []shape.Point, sigma float64) []shape.Point {
	even := evenly(ring, 0.5)
	n := len(even)
	each := roundLength(even) / float64(n)
	reach := min(int(3*sigma/each)+1, n/2-1)
	bell := make([]float64, reach+1)
	sum := 0.0
	for i := range bell {
		d := float64(i) * each
		bell[i] = math.Exp(-d * d / (2 * sigma * sigma))
		sum += bell[i]
		if i > 0 {
			sum += bell[i]
		}
	}
	out := make([]shape.Point, n)
	for i := range out {
		for k := -reach; k <= reach; k++ {
			w := bell[max(k, -k)] / sum
			p := even[(i+k+n)%n]
			out[i].X += w * p.X
			out[i].Y += w * p.Y
		}
	}
	return out
}

// outwards are the directions square to a closed line that runs against the clock, to its
// right, from the way between the points before and behind.
func outwards(ring []shape.Point, about int) []shape.Point {
	n := len(ring)
	out := make([]shape.Point, n)
	for i := range ring {
		a, b := ring[(i-about+n)%n], ring[(i+about)%n]
		x, y := b.X-a.X, b.Y-a.Y
		long := max(math.Hypot(x, y), 1e-9)
		out[i] = shape.Point{X: y / long, Y: -x / long}
	}
	return out
}
