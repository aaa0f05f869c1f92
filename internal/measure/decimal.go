package measure

import (
	"math"
	"strconv"

	"hembook/internal/say"
)

// The signs that numbers are shown with.
const (
	minusSign = "\u2212"
	groupGap  = "\u202f" // between groups of three figures, from 10 000 up
)

// Figures are a number as its decimal figures: 0.d₁d₂d₃… × 10^point. All
// rounding of shown numbers happens on these figures, so that it cannot depend
// on how a processor computes.
type figures struct {
	neg    bool
	digits []byte // '0' to '9'
	point  int
}

// appendScaled appends n ÷ 10^scale with at most the given decimals.
func appendScaled(dst []byte, n int64, scale, decimals int, mark string) []byte {
	var room [20]byte
	digits := strconv.AppendUint(room[:0], magnitude(n), 10)
	d := figures{neg: n < 0, digits: digits, point: len(digits) - scale}
	return d.append(dst, decimals, true, mark)
}

// appendFloat appends x with at most the given decimals. The number is taken
// to 15 significant figures first, so that the last bit of a computation
// never shows and 1.15 counts as the half it was meant to be.
func appendFloat(dst []byte, x float64, decimals int, mark string) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return append(dst, say.Of("measure.not-known")...)
	}
	var room [32]byte
	text := strconv.AppendFloat(room[:0], math.Abs(x), 'e', 14, 64) // d.dddddddddddddde±dd
	exponent, _ := strconv.Atoi(string(text[17:]))                  // the form is fixed
	text[1] = text[0]
	d := figures{neg: math.Signbit(x), digits: text[1:16], point: exponent + 1}
	return d.append(dst, decimals, true, mark)
}

// append appends d rounded half away from zero to the given decimals, without
// closing zeros if trim is set, figures grouped from five before the mark on.
func (d figures) append(dst []byte, decimals int, trim bool, mark string) []byte {
	d = d.round(decimals)
	last := d.point + decimals // figures up to here are shown
	if trim {
		for last > d.point && d.at(last-1) == '0' {
			last--
		}
	}
	if d.neg && !d.zero() {
		dst = append(dst, minusSign...)
	}
	dst = d.appendWhole(dst)
	if last <= d.point {
		return dst
	}
	dst = append(dst, mark...)
	for i := d.point; i < last; i++ {
		dst = append(dst, d.at(i))
	}
	return dst
}

func (d figures) appendWhole(dst []byte) []byte {
	first := 0
	for first < d.point && d.at(first) == '0' {
		first++
	}
	if first >= d.point {
		return append(dst, '0')
	}
	grouped := d.point-first >= 5
	for i := first; i < d.point; i++ {
		if grouped && i > first && (d.point-i)%3 == 0 {
			dst = append(dst, groupGap...)
		}
		dst = append(dst, d.at(i))
	}
	return dst
}

// at returns the figure at place i; beyond the known ones they are zeros.
func (d figures) at(i int) byte {
	if i < 0 || i >= len(d.digits) {
		return '0'
	}
	return d.digits[i]
}

func (d figures) zero() bool {
	for _, c := range d.digits {
		if c != '0' {
			return false
		}
	}
	return true
}

// round returns d to so many decimals, half away from zero.
func (d figures) round(decimals int) figures {
	keep := d.point + decimals
	if keep >= len(d.digits) {
		return d
	}
	up := keep >= 0 && d.digits[keep] >= '5'
	kept := []byte{'0'} // room for a carry
	if keep > 0 {
		kept = append(kept, d.digits[:keep]...)
	}
	if keep < 0 { // the last place shown lies left of every figure
		return figures{neg: d.neg, point: 0}
	}
	for i := len(kept) - 1; up; i-- {
		if kept[i] < '9' {
			kept[i]++
			break
		}
		kept[i] = '0'
	}
	return figures{neg: d.neg, digits: kept, point: d.point + 1}
}

// scaledText returns the figures of a whole number in text, ÷ 10^scale.
func scaledText(text string, scale int) figures {
	digits, neg := []byte(text), false
	if text[0] == '-' {
		digits, neg = digits[1:], true
	}
	return figures{neg: neg, digits: digits, point: len(digits) - scale}
}
