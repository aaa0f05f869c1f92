package capture

import (
	"strings"

	"rsc.io/qr"
)

// quiet is the white margin of a code in modules: ISO/IEC 18004 asks for four;
// two are enough for phones, and fit a terminal better (from memory, tried).
const quiet = 2

// QR draws a text as a QR code for a terminal, two modules to a character.
// In colour it is black on white whatever the terminal's colours are; without,
// the terminal is taken to be a dark one.
func QR(text string, colour bool) (string, error) {
	code, err := qr.Encode(text, qr.L)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	light := func(x, y int) bool { return !code.Black(x, y) }
	for y := -quiet; y < code.Size+quiet; y += 2 {
		if colour {
			b.WriteString("\x1b[97;40m")
		}
		for x := -quiet; x < code.Size+quiet; x++ {
			switch up, down := light(x, y), y+1 < code.Size+quiet && light(x, y+1); {
			case up && down:
				b.WriteRune('█')
			case up:
				b.WriteRune('▀')
			case down:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		if colour {
			b.WriteString("\x1b[0m")
		}
		b.WriteByte('\n')
	}
	return b.String(), nil
}
