package draw

import "strings"

// Swatch adds a small cutting of cloth in its colour to dst, pinked all
// round. The colour is #rrggbb; anything else draws the cutting without a
// colour of its own.
func Swatch(dst []byte, colour, name string) []byte {
	const size, tooth = 160, 10
	b := box{-4, -4, size + 4, size + 4}
	dst = open(dst, "swatch", b, strings.TrimSpace("swatch of "+name), "")
	dst = append(dst, `<path class="pinked"`...)
	if isColour(colour) {
		dst = append(append(append(dst, ` fill="`...), colour...), '"')
	}
	p := pen{dst: append(dst, ` d="`...)}
	p.move(tooth, tooth)
	for i := 2 * tooth; i < size; i += 2 * tooth {
		p.line(float64(i), 0)
		p.line(float64(i+tooth), tooth)
	}
	for i := 2 * tooth; i < size; i += 2 * tooth {
		p.line(size, float64(i))
		p.line(size-tooth, float64(i+tooth))
	}
	for i := 2 * tooth; i < size; i += 2 * tooth {
		p.line(float64(size-i), size)
		p.line(float64(size-i-tooth), size-tooth)
	}
	for i := 2 * tooth; i < size; i += 2 * tooth {
		p.line(0, float64(size-i))
		p.line(tooth, float64(size-i-tooth))
	}
	p.close()
	return append(p.dst, `"/></svg>`...)
}

func isColour(s string) bool {
	if len(s) != 7 || s[0] != '#' {
		return false
	}
	return strings.Trim(s[1:], "0123456789abcdefABCDEF") == ""
}
