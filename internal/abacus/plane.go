package abacus

import (
	"math"
	"slices"
)

type point struct{ x, y float64 }

func (p point) add(q point) point         { return point{p.x + q.x, p.y + q.y} }
func (p point) sub(q point) point         { return point{p.x - q.x, p.y - q.y} }
func (p point) times(f float64) point     { return point{p.x * f, p.y * f} }
func (p point) cross(q point) float64     { return p.x*q.y - p.y*q.x }
func (p point) dot(q point) float64       { return p.x*q.x + p.y*q.y }
func (p point) size() float64             { return math.Hypot(p.x, p.y) }
func (p point) unit() point               { return p.times(1 / p.size()) }
func (p point) right() point              { return point{p.y, -p.x} } // turned by a quarter, with the clock
func between(a, b point, t float64) point { return a.add(b.sub(a).times(t)) }

// fine is into how many straight bits a curve is cut.
const fine = 512

// sampled draws a curve of t from 0 to 1 as straight bits. The first and the
// last are very short, so that they run as the curve does at its ends.
func sampled(at func(t float64) point) []point {
	const short = 1e-5
	out := make([]point, 0, fine+3)
	for i := range fine + 1 {
		if i == fine {
			out = append(out, at(1-short))
		}
		out = append(out, at(float64(i)/fine))
		if i == 0 {
			out = append(out, at(short))
		}
	}
	return out
}

// bezier is the curve from a to b with its two control points, by repeated
// halving of lines between them (de Casteljau).
func bezier(a, c, d, b point) []point {
	out := sampled(func(t float64) point {
		ac, cd, db := between(a, c, t), between(c, d, t), between(d, b, t)
		return between(between(ac, cd, t), between(cd, db, t), t)
	})
	out[0], out[len(out)-1] = a, b
	return out
}

// arc is a part of a circle about the origin, angles in radians.
func arc(radius, from, to float64) []point {
	return sampled(func(t float64) point {
		a := from + (to-from)*t
		return point{radius * math.Cos(a), radius * math.Sin(a)}
	})
}

func pathLength(path []point) float64 {
	sum := 0.0
	for i := 1; i < len(path); i++ {
		sum += path[i].sub(path[i-1]).size()
	}
	return sum
}

// along is the point so far along a path, and the way the path runs there.
func along(path []point, at float64) (p, way point) {
	for i := 1; i < len(path); i++ {
		step := path[i].sub(path[i-1])
		if l := step.size(); at <= l || i == len(path)-1 {
			return between(path[i-1], path[i], at/l), step.unit()
		} else {
			at -= l
		}
	}
	return
}

// ringArea is the area within a closed line, above 0 against the clock.
func ringArea(ring []point) float64 {
	sum := 0.0
	for i, p := range ring {
		sum += p.cross(ring[(i+1)%len(ring)])
	}
	return sum / 2
}

// widthAt is how much of the level line at height y lies within the ring.
func widthAt(ring []point, y float64) float64 {
	var xs []float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p.y > y) != (q.y > y) {
			xs = append(xs, p.x+(y-p.y)/(q.y-p.y)*(q.x-p.x))
		}
	}
	slices.Sort(xs)
	sum := 0.0
	for i := 0; i+1 < len(xs); i += 2 {
		sum += xs[i+1] - xs[i]
	}
	return sum
}

// meet is where two lines meet, each through a point in a direction.
func meet(p, way, q, other point) (point, bool) {
	d := way.cross(other)
	if math.Abs(d) < 1e-9 {
		return point{}, false
	}
	return p.add(way.times(q.sub(p).cross(other) / d)), true
}

// A ringBit is one straight bit of a ring, with +1 where it runs up and −1 where
// it runs down.
type ringBit struct {
	low, high point
	turn      int
}

func (s ringBit) xAt(y float64) float64 {
	return s.low.x + (y-s.low.y)/(s.high.y-s.low.y)*(s.high.x-s.low.x)
}

// unionArea is the area that at least one of the rings covers. Every ring runs
// against the clock. The plane is sliced at every corner and every crossing;
// between two slices no lines cross, so what is covered there is a row of
// trapezoids, and a trapezoid's area is its height times its middle width.
func unionArea(rings [][]point) float64 {
	var sides []ringBit
	for _, ring := range rings {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			switch {
			case p.y < q.y:
				sides = append(sides, ringBit{p, q, 1})
			case p.y > q.y:
				sides = append(sides, ringBit{q, p, -1})
			}
		}
	}
	slices.SortFunc(sides, func(a, b ringBit) int { return compareFloat(a.low.y, b.low.y) })
	var ys []float64
	for i, s := range sides {
		ys = append(ys, s.low.y, s.high.y)
		for _, o := range sides[i+1:] {
			if o.low.y >= s.high.y {
				break
			}
			way, other := s.high.sub(s.low), o.high.sub(o.low)
			if p, ok := meet(s.low, way, o.low, other); ok && p.y > o.low.y && p.y < min(s.high.y, o.high.y) {
				ys = append(ys, p.y)
			}
		}
	}
	slices.Sort(ys)
	sum := 0.0
	first := 0
	type crossing struct {
		x    float64
		turn int
	}
	var row []crossing
	for i := 1; i < len(ys); i++ {
		height := ys[i] - ys[i-1]
		if height < 1e-9 {
			continue
		}
		y := ys[i-1] + height/2
		row = row[:0]
		for first < len(sides) && sides[first].high.y < y {
			first++
		}
		for _, s := range sides[first:] {
			if s.low.y > y {
				break
			}
			if s.high.y > y {
				row = append(row, crossing{s.xAt(y), s.turn})
			}
		}
		slices.SortFunc(row, func(a, b crossing) int { return compareFloat(a.x, b.x) })
		depth := 0
		for j, c := range row {
			if depth != 0 {
				sum += height * (c.x - row[j-1].x)
			}
			depth += c.turn
		}
	}
	return sum
}

func compareFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
