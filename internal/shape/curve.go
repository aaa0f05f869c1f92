package shape

import "math"

// A cubic is one Bézier curve: its two ends and the control points between.
type cubic [4]Point

func (c cubic) at(t float64) Point {
	ab, bc, cd := lerp(c[0], c[1], t), lerp(c[1], c[2], t), lerp(c[2], c[3], t)
	return lerp(lerp(ab, bc, t), lerp(bc, cd, t), t)
}

// velocity is the derivative at t.
func (c cubic) velocity(t float64) Point {
	h := c.hodograph()
	return h.at(t)
}

// A hodograph is how a curve's velocity changes along it: the ways between its
// control points, and where it is slowest.
type hodograph struct {
	way  [3]Point
	slow [2]float64 // the instants at which its speed is least of all near it
	n    int        // how many of them there are
}

func (c cubic) hodograph() hodograph {
	h := hodograph{way: [3]Point{c[1].Sub(c[0]), c[2].Sub(c[1]), c[3].Sub(c[2])}}
	if a, b, d := h.way[0], h.way[1], h.way[2]; dot(a, b) <= 0 || dot(b, d) <= 0 || dot(a, d) <= 0 {
		h.findSlow() // it turns by more than a right angle: it may all but stand still
	}
	return h
}

// findSlow finds where the speed is least: its square is a polynomial of the
// fourth degree, whose slope changes from falling to rising there.
func (h *hodograph) findSlow() {
	c := h.way[0].times(3)
	b := h.way[1].Sub(h.way[0]).times(6)
	a := h.way[2].Sub(h.way[1].times(2)).Add(h.way[0]).times(3)
	k := [4]float64{dot(b, c), dot(b, b) + float64(2*dot(a, c)), 3 * dot(a, b), 2 * dot(a, a)}
	slope := func(t float64) float64 { return k[0] + float64(t*(k[1]+float64(t*(k[2]+float64(t*k[3]))))) }
	ends := [4]float64{0, 1, 1, 1} // where the slope itself turns, and the ends
	n := 2
	if root := float64(k[2]*k[2]) - float64(3*k[3]*k[1]); root > 0 && k[3] > 0 {
		n = 1
		for _, t := range [...]float64{(-k[2] - math.Sqrt(root)) / (3 * k[3]), (-k[2] + math.Sqrt(root)) / (3 * k[3])} {
			if t > 0 && t < 1 {
				ends[n] = t
				n++
			}
		}
		ends[n] = 1
		n++
	}
	for i := 1; i < n && h.n < len(h.slow); i++ {
		lo, hi := ends[i-1], ends[i]
		if !(slope(lo) < 0 && slope(hi) > 0) {
			continue
		}
		for range 60 {
			if m := (lo + hi) / 2; slope(m) < 0 {
				lo = m
			} else {
				hi = m
			}
		}
		h.slow[h.n] = (lo + hi) / 2
		h.n++
	}
}

func (h *hodograph) at(t float64) Point {
	u := 1 - t
	a, b, c := 3*u*u, 6*u*t, 3*t*t
	return Point{
		float64(h.way[0].X*a) + float64(h.way[1].X*b) + float64(h.way[2].X*c),
		float64(h.way[0].Y*a) + float64(h.way[1].Y*b) + float64(h.way[2].Y*c),
	}
}

func (h *hodograph) speed(t float64) float64 {
	v := h.at(t)
	return math.Sqrt(dot(v, v))
}

func (c cubic) split(t float64) (cubic, cubic) {
	ab, bc, cd := lerp(c[0], c[1], t), lerp(c[1], c[2], t), lerp(c[2], c[3], t)
	abc, bcd := lerp(ab, bc, t), lerp(bc, cd, t)
	m := lerp(abc, bcd, t)
	return cubic{c[0], ab, abc, m}, cubic{m, bcd, cd, c[3]}
}

func (c cubic) minus(p Point) cubic {
	return cubic{c[0].Sub(p), c[1].Sub(p), c[2].Sub(p), c[3].Sub(p)}
}

// areaFromOrigin is the signed area between the curve and the origin,
// ½∫(x dy − y dx), which for a cubic is this sum of cross products.
func (c cubic) areaFromOrigin() float64 {
	sum := 6*cross(c[0], c[1]) + 3*cross(c[0], c[2]) + cross(c[0], c[3]) +
		3*cross(c[1], c[2]) + 3*cross(c[1], c[3]) + 6*cross(c[2], c[3])
	return sum / 20
}

// lengthError is how far, in millimetres, the two estimates of a stretch's
// length may differ before it is halved; the sum stays far inside 0.01 mm.
const lengthError = 1e-7

// length measures the curve by Gauss–Legendre quadrature, halving the
// stretches that have not settled.
func (c cubic) length() float64 { return c.lengthTo(1) }

// stretches is how many parts a curve is measured in at least.
const stretches = 8

// lengthTo is the length of the curve from its beginning to t.
func (c cubic) lengthTo(t float64) float64 {
	h := c.hodograph()
	sum := 0.0
	for k := range stretches {
		sum += h.length(t*float64(k)/stretches, t*float64(k+1)/stretches)
	}
	return sum
}

// length is that of the stretch from a to b, in parts that begin and end where the
// curve is slowest: beside a cusp two estimates over it can agree by chance.
func (h *hodograph) length(a, b float64) float64 {
	sum := 0.0
	for _, t := range h.slow[:h.n] {
		if t > a && t < b {
			sum += h.settle(a, t, h.speedSum(a, t), 20)
			a = t
		}
	}
	return sum + h.settle(a, b, h.speedSum(a, b), 20)
}

func (h *hodograph) settle(a, b, whole float64, depth int) float64 {
	m := (a + b) / 2
	left, right := h.speedSum(a, m), h.speedSum(m, b)
	both := left + right
	unsettled := math.Abs(both-whole) > lengthError+1e-10*both
	if depth == 0 || !unsettled {
		return both
	}
	return h.settle(a, m, left, depth-1) + h.settle(m, b, right, depth-1)
}

// Five-point Gauss–Legendre nodes and weights on [−1, 1]; exact to printed
// digits (from memory; the test of a straight line's length checks the sum).
var (
	gaussNode   = [...]float64{0, 0.5384693101056831, 0.9061798459386640}
	gaussWeight = [...]float64{0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
)

func (h *hodograph) speedSum(a, b float64) float64 {
	mid, half := (a+b)/2, (b-a)/2
	sum := gaussWeight[0] * h.speed(mid)
	for k := 1; k < len(gaussNode); k++ {
		d := half * gaussNode[k]
		sum += gaussWeight[k] * (h.speed(mid-d) + h.speed(mid+d))
	}
	return sum * half
}

// A ruler measures along one curve: it knows how much of it has run where each
// of its stretches begins, and at its end.
type ruler struct {
	cubic
	way  hodograph
	upTo [stretches + 1]float64 // mm
}

func (c cubic) ruler() *ruler {
	r := &ruler{cubic: c, way: c.hodograph()}
	for k := range stretches {
		r.upTo[k+1] = r.upTo[k] + r.way.length(float64(k)/stretches, float64(k+1)/stretches)
	}
	return r
}

func (r *ruler) length() float64 { return r.upTo[stretches] }

// parameter returns the parameter at which the curve has run s millimetres;
// that of an end where s lies before it or beyond.
func (r *ruler) parameter(s float64) float64 {
	switch {
	case !(s > 0):
		return 0
	case s >= r.length():
		return 1
	}
	k := 0
	for k < stretches-1 && s >= r.upTo[k+1] {
		k++
	}
	return r.within(k, s)
}

// within finds the parameter in one stretch by Newton's steps within a bracket;
// where a step leaves the bracket, as at a cusp, where the speed is nought, the
// bracket is halved instead.
func (r *ruler) within(k int, s float64) float64 {
	lo, hi := float64(k)/stretches, float64(k+1)/stretches
	begin, t := lo, lo+(s-r.upTo[k])/(r.upTo[k+1]-r.upTo[k])/stretches
	for range 60 {
		over := r.upTo[k] + r.way.length(begin, t) - s
		switch {
		case over == 0:
			return t
		case over < 0:
			lo = t
		default:
			hi = t
		}
		next := t - over/r.way.speed(t)
		if !(next > lo && next < hi) { // too far, or the curve stands still there
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) < 1e-13 {
			return next
		}
		t = next
	}
	return t
}

// widen stretches a bounding rectangle over the curve.
func (c cubic) widen(least, most Point) (Point, Point) {
	for _, t := range turningPoints(c[0].X, c[1].X, c[2].X, c[3].X) {
		least, most = widenWithin(least, most, c, t)
	}
	for _, t := range turningPoints(c[0].Y, c[1].Y, c[2].Y, c[3].Y) {
		least, most = widenWithin(least, most, c, t)
	}
	return least, most
}

func widenWithin(least, most Point, c cubic, t float64) (Point, Point) {
	if t > 0 && t < 1 {
		return widen(least, most, c.at(t))
	}
	return least, most
}

// turningPoints returns the two parameters at which one coordinate of a
// cubic stops growing or shrinking; those that do not exist are NaN.
func turningPoints(p0, p1, p2, p3 float64) [2]float64 {
	a := p3 - 3*p2 + 3*p1 - p0
	b := 2 * (p2 - 2*p1 + p0)
	c := p1 - p0
	if root := math.Sqrt(b*b - 4*a*c); root >= 0 { // the stable form of the quadratic
		q := -(b + math.Copysign(root, b)) / 2
		return [2]float64{q / a, c / q}
	}
	return [2]float64{math.NaN(), math.NaN()}
}

// pieces returns how many equal steps of t keep the chords within tol of
// the curve: Wang's bound, d(d−1)/8 · the greatest second difference
// (from memory: Wang 1984).
func (c cubic) pieces(tol float64) int {
	a := c[2].Sub(c[1].times(2)).Add(c[0])
	b := c[3].Sub(c[2].times(2)).Add(c[1])
	bend := math.Sqrt(max(dot(a, a), dot(b, b)))
	n := math.Ceil(math.Sqrt(0.75 * bend / tol))
	if n >= 1 && n <= mostPieces {
		return int(n)
	}
	if n > mostPieces {
		return mostPieces
	}
	return 1
}

// mostPieces bounds the work a single curve may ask for.
const mostPieces = 1 << 14
