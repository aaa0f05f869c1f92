package shape

import "math"

// A Frame says how millimetres on the piece become numbers in a drawing
// whose y runs downward: x is counted from Left, y down from Top, both
// stretched by Scale, and written with at most Decimals decimals (0 to 6).
type Frame struct {
	Left, Top, Scale float64
	Decimals         int
}

// AppendRing adds the ring to dst as the data of an SVG path.
func AppendRing(dst []byte, r Ring, f Frame) []byte {
	for i, p := range r {
		step := byte('L')
		if i == 0 {
			step = 'M'
		}
		dst = f.appendPoint(append(dst, step), p)
	}
	if len(r) > 0 {
		dst = append(dst, 'Z')
	}
	return dst
}

// AppendEdge adds edge i alone to dst as an open SVG path.
func AppendEdge(dst []byte, o Outline, i int, f Frame) []byte {
	dst = f.appendPoint(append(dst, 'M'), o.Start(i))
	e := o.Edges[i]
	if e.Curved {
		dst = f.appendPoint(append(dst, 'C'), e.C1)
		dst = f.appendPoint(append(dst, ' '), e.C2)
		return f.appendPoint(append(dst, ' '), e.To)
	}
	return f.appendPoint(append(dst, 'L'), e.To)
}

func (f Frame) appendPoint(dst []byte, p Point) []byte {
	dst = AppendNumber(dst, float64((p.X-f.Left)*f.Scale), f.Decimals)
	y := float64((f.Top - p.Y) * f.Scale)
	return AppendNumber(append(dst, ','), y, f.Decimals)
}

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
