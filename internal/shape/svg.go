package shape

import "math"

// AppendNumber adds v to dst in plain decimal notation with at most
// decimals (0 to 6) decimals, trailing zeros cut. What is no number, or
// too large for a drawing, is written as 0.
func AppendNumber(dst []byte, v float64, decimals int) []byte {
	decimals = min(max(decimals, 0), len(powers)-1)
	scaled := math.Round(v * float64(powers[decimals]))
	if !(math.Abs(scaled) < 1e15) || scaled == 0 {
		return append(dst, '0')
	}
	if scaled < 0 {
		dst, scaled = append(dst, '-'), -scaled
	}
	n := uint64(scaled)
	for decimals > 0 && n%10 == 0 {
		n, decimals = n/10, decimals-1
	}
	var room [20]byte
	k := len(room)
	for digit := 0; n > 0 || digit <= decimals; digit++ {
		if digit == decimals && decimals > 0 {
			k--
			room[k] = '.'
		}
		k--
		room[k] = byte('0' + n%10)
		n /= 10
	}
	return append(dst, room[k:]...)
}

var powers = [...]uint64{1, 10, 100, 1000, 10000, 100000, 1000000}
