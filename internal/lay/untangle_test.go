package lay

import (
	"math"
	"testing"
)

// Of three pairs, the one that overlaps most becomes twice as dear, one half
// as deep 1.6 times, and one apart fades by a twentieth, never below 1.
func TestReweigh(t *testing.T) {
	b := unitSquares(t, 3)
	put := func(i, j int, over, weight float64) {
		for _, at := range [2]int{i*3 + j, j*3 + i} {
			b.over[at], b.weight[at] = over, weight
		}
	}
	for _, c := range []struct{ over, weight, want float64 }{
		{0, 1, 1}, {0, 1.5, 1.425}, {0, 1.02, 1}, {0.2, 1, 1.6}, {0.2, 3, 4.8}, {0.4, 1, 2},
	} {
		put(0, 1, 0.4, 5)
		put(0, 2, c.over, c.weight)
		put(1, 2, 0, 1)
		b.reweigh()
		for _, at := range [2]int{0*3 + 2, 2*3 + 0} {
			if got := b.weight[at]; math.Abs(got-c.want) > 1e-12 {
				t.Errorf("weight %g with an overlap of %g of 0.4 becomes %g, want %g", c.weight, c.over, got, c.want)
			}
		}
		if b.weight[1] != 10 || b.weight[1*3+2] != 1 {
			t.Errorf("the worst pair weighs %g, one apart %g, want 10 and 1", b.weight[1], b.weight[1*3+2])
		}
	}
}
