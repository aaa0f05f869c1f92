package measure

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestSumIsExact adds random fractions, small ones and some too large for a machine
// word, beside the same sum in big numbers.
func TestSumIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	large := 0
	for range 20_000 {
		s := newSum()
		want := new(big.Rat)
		for range 1 + r.IntN(3) {
			number := ratio{num: r.Uint64N(1 << r.IntN(50)), den: []uint64{1, 8, 10, 100, 1000, 64, 7, 1_000_000_000}[r.IntN(8)]}
			num, den := 1+r.Int64N(1<<r.IntN(36)), 1+r.Int64N(1000)
			s.add(number, num, den)
			want.Add(want, new(big.Rat).Mul(number.rat(), big.NewRat(num, den)))
		}
		if s.large != nil {
			large++
		}
		if f, _ := want.Float64(); s.float() != f {
			t.Fatalf("%v is %v, not %v", want, s.float(), f)
		}
		if want.Cmp(big.NewRat(1<<61, 1)) < 0 && s.round() != roundRat(want) {
			t.Fatalf("%v is rounded to %d, not %d", want, s.round(), roundRat(want))
		}
		for _, n := range []int64{0, 1, 1000, 1 << 40} {
			if got := s.over(n); got != (want.Cmp(big.NewRat(n, 1)) > 0) {
				t.Fatalf("%v over %d: %v", want, n, got)
			}
		}
	}
	if large < 1000 || large > 19_000 {
		t.Errorf("%d of 20000 sums needed big numbers: both ways should be tried", large)
	}
}

func BenchmarkParseShareAndTime(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = ParseRatio("0.975")
		_, _ = ParseDuration("1 h 20 min")
	}
}
