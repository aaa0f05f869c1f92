package draw

import (
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/say"
)

// Swatch draws a small cutting of cloth in its colour, pinked all round. The
// colour is #rrggbb; anything else draws the cutting without a colour of its
// own.
func Swatch(colour, name string) *drawing.Drawing {
	const size, tooth = 16, 1
	if !isColour(colour) {
		colour = ""
	}
	d := drawing.New("swatch")
	d.Title = strings.TrimSpace(say.Of("draw.swatch-of", name))
	d.Box = drawing.Box{Left: -0.4, Top: -0.4, Right: size + 0.4, Bottom: size + 0.4}
	p := d.Coloured(drawing.Swatch, colour).Move(tooth, tooth)
	side := func(at func(along, in float64) (x, y float64)) {
		for i := 2.0 * tooth; i < size; i += 2 * tooth {
			p.Line(at(i, 0))
			p.Line(at(i+tooth, tooth))
		}
	}
	side(func(along, in float64) (x, y float64) { return along, in })
	side(func(along, in float64) (x, y float64) { return size - in, along })
	side(func(along, in float64) (x, y float64) { return size - along, size - in })
	side(func(along, in float64) (x, y float64) { return in, size - along })
	p.Close()
	return d
}

func isColour(s string) bool {
	if len(s) != 7 || s[0] != '#' {
		return false
	}
	return strings.Trim(s[1:], "0123456789abcdefABCDEF") == ""
}
