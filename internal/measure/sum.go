package measure

import (
	"math/big"
	"math/bits"
)

// exact is up to where every whole number is a float64.
const exact = 1 << 53

// A sum is a sum of fractions without rounding. Almost all that is written in a record
// fits into two machine words; what does not goes on in big numbers.
type sum struct {
	num, den uint64   // below exact
	large    *big.Rat // nil while they suffice
}

func newSum() sum { return sum{den: 1} }

// add adds r times num/den; num and den are positive.
func (s *sum) add(r ratio, num, den int64) {
	if s.large == nil {
		n, ok1 := times(r.num, uint64(num))
		d, ok2 := times(r.den, uint64(den))
		left, ok3 := times(s.num, d)
		right, ok4 := times(n, s.den)
		all, ok5 := times(s.den, d)
		if ok1 && ok2 && ok3 && ok4 && ok5 && left+right < exact {
			s.num, s.den = left+right, all
			return
		}
		s.large = new(big.Rat).SetFrac(new(big.Int).SetUint64(s.num), new(big.Int).SetUint64(s.den))
	}
	s.large.Add(s.large, new(big.Rat).Mul(r.rat(), big.NewRat(num, den)))
}

// times is a product; false where it is not below exact.
func times(a, b uint64) (uint64, bool) {
	high, low := bits.Mul64(a, b)
	return low, high == 0 && low < exact
}

// float is the nearest float64.
func (s *sum) float() float64 {
	if s.large != nil {
		f, _ := s.large.Float64()
		return f
	}
	return float64(s.num) / float64(s.den) // both are exact, and so is the rounding
}

// over reports whether the sum is above n.
func (s *sum) over(n int64) bool {
	if s.large != nil {
		return s.large.Cmp(big.NewRat(n, 1)) > 0
	}
	high, low := bits.Mul64(uint64(n), s.den)
	return high == 0 && s.num > low
}

// round is the nearest whole number, half up; the sum must be one that fits.
func (s *sum) round() int64 {
	if s.large != nil {
		return roundRat(s.large)
	}
	whole, rest := s.num/s.den, s.num%s.den
	if rest >= s.den-rest {
		whole++
	}
	return int64(whole)
}

// above reports whether r is above n.
func (r ratio) above(n uint64) bool {
	high, low := bits.Mul64(n, r.den)
	return high == 0 && r.num > low
}
