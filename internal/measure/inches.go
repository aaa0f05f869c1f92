package measure

import "strconv"

// Inches prints l to the nearest 1/16 in, half away from zero, such as
// "24 5/8 in", and tells how far off the print is: the printed length less l,
// at most 1/32 in either way.
func Inches(l Length) (text string, off Length) {
	const step = Inch / 16
	shown := l.Round(step)
	return fraction(int64(shown/step), 16) + " in", shown - l
}

// yards prints l in yards and eighths where that is exact, else in yards and
// whole inches; what is shorter than a yard in inches, to the nearest 1/16.
func yards(l Length) string {
	const eighth = Yard / 8
	if l%eighth == 0 {
		return fraction(int64(l/eighth), 8) + " yd"
	}
	if text, _ := Inches(l); l.Abs() < Yard {
		return text
	}
	n := int64(l.Round(Inch) / Inch)
	whole, rest := n/36, n%36
	if rest == 0 {
		return fraction(whole, 1) + " yd"
	}
	return fraction(whole, 1) + " yd " + fraction(int64(magnitude(rest)), 1) + " in"
}

// fraction prints n/of as a whole number and a fraction in lowest terms; of
// is positive.
func fraction(n, of int64) string {
	size := magnitude(n)
	whole, over := int64(size/uint64(of)), int64(size%uint64(of))
	var text []byte
	if n < 0 {
		text = append(text, minusSign...)
	}
	if whole != 0 || over == 0 {
		text = appendScaled(text, whole, 0, 0, ".")
	}
	if over == 0 {
		return string(text)
	}
	if whole != 0 {
		text = append(text, ' ')
	}
	over, of = lowest(over, of)
	text = strconv.AppendInt(text, over, 10)
	text = append(text, '/')
	return string(strconv.AppendInt(text, of, 10))
}
