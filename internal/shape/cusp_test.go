package shape

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestLengthNearACusp: curves that nearly come to a cusp, where the speed is all but
// nought for an instant that no sample of it need hit, held against a sum of chords
// graded towards that instant.
func TestLengthNearACusp(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	p := func() Point { return Point{r.Float64()*1000 - 500, r.Float64()*1000 - 500} }
	worst := 0.0
	for range 300 {
		// c[3] is chosen so that the velocity at t is nearly nought:
		// 0 = u²(c1−c0) + 2ut(c2−c1) + t²(c3−c2).
		at := 0.05 + 0.9*r.Float64()
		u := 1 - at
		c := cubic{p(), p(), p(), {}}
		rest := c[1].Sub(c[0]).times(u * u).Add(c[2].Sub(c[1]).times(2 * u * at)).times(-1 / (at * at))
		near := math.Pow(10, -6*r.Float64())
		c[3] = c[2].Add(rest).Add(p().times(near / 10))
		worst = max(worst, math.Abs(c.length()-chordsTowards(c, at)))
	}
	if worst > 0.001 {
		t.Errorf("a length is %.4f mm off", worst)
	}
}

// chordsTowards sums chords that grow shorter towards an instant.
func chordsTowards(c cubic, at float64) float64 {
	const n = 2000
	sum := 0.0
	for _, to := range [...]float64{0, 1} {
		before := c.at(at)
		for k := 1; k <= n; k++ {
			next := c.at(at + (to-at)*math.Pow(float64(k)/n, 2))
			sum += distance(before, next)
			before = next
		}
	}
	return sum
}
