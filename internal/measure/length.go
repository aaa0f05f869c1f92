package measure

import "math"

// A Length is a distance in nanometres. It is exact for every millimetre and
// for every inch fraction down to 1/64 (396 875 nm), and reaches beyond nine
// million kilometres.
type Length int64

// The lengths of the units. The inch is 25.4 mm exactly (NIST SP 811
// appendix B, from memory); a foot is 12 and a yard 36 of them.
const (
	Nanometre  Length = 1
	Micrometre        = 1_000 * Nanometre
	Millimetre        = 1_000_000 * Nanometre
	Centimetre        = 10 * Millimetre
	Metre             = 1_000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
	Yard              = 36 * Inch
)

// fromMM returns the length nearest to mm millimetres, half a nanometre away
// from zero. It reports false, and a zero length, when mm is not a number or
// does not fit.
func fromMM(mm float64) (Length, bool) {
	nm := math.Round(mm * 1e6)
	if !(nm >= -(1<<63) && nm < 1<<63) { // also false for a NaN
		return 0, false
	}
	return Length(nm), true
}

// MM returns the length nearest to mm millimetres, half a nanometre away from
// zero. A value that is no length (see fromMM) gives zero: ask fromMM where
// the value may be one.
func MM(mm float64) Length {
	l, _ := fromMM(mm)
	return l
}

// MM returns l in millimetres, the float64 nearest to it.
func (l Length) MM() float64 { return float64(l) / 1e6 }

// In returns l in a unit of length. Any other unit is our own mistake and
// panics.
func (l Length) In(u Unit) Quantity {
	return Quantity{Number: float64(l) / 1e6, Unit: UnitMM}.In(u)
}

// Abs returns l without its sign. The lowest length has no positive twin and
// becomes the highest.
func (l Length) Abs() Length {
	switch {
	case l == math.MinInt64:
		return math.MaxInt64
	case l < 0:
		return -l
	}
	return l
}

// Round returns the multiple of step nearest to l, half away from zero. A
// step that is not positive, or a multiple that does not fit, leaves l as it
// is.
func (l Length) Round(step Length) Length {
	if step <= 0 {
		return l
	}
	size, s := magnitude(int64(l)), uint64(step)
	over := size % s
	size -= over
	if over >= s-over {
		size += s
	}
	if size > math.MaxInt64 {
		return l
	}
	if l < 0 {
		return -Length(size)
	}
	return Length(size)
}

// String returns l in millimetres to the last nanometre, such as "15.875 mm".
func (l Length) String() string {
	return string(appendScaled(nil, int64(l), 6, 6, ".")) + " mm"
}

// magnitude returns n without its sign, for every n.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}
