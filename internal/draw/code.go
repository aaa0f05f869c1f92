package draw

import (
	"fmt"

	"rsc.io/qr"

	"hembook/internal/drawing"
)

// codeSide is how wide a code is, in millimetres, its quiet rim included.
const codeSide = 24.0

// Code draws an address as a code that a telephone reads, with the quiet rim of
// four squares that ISO/IEC 18004 asks for left white around it. The error says
// that the address is too long for one.
func Code(address string) (*drawing.Drawing, error) {
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil, fmt.Errorf("the address %q is too long for a code", address)
	}
	const quiet = 4
	one := codeSide / float64(code.Size+2*quiet)
	d := drawing.New("qr")
	d.Box = drawing.Box{Right: codeSide, Bottom: codeSide}
	d.Draw(drawing.CodeGround).Rect(0, 0, codeSide, codeSide)
	dark := d.Draw(drawing.CodeSquare)
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			if !code.Black(x, y) {
				continue
			}
			from := x
			for x+1 < code.Size && code.Black(x+1, y) {
				x++
			}
			dark.Rect(float64(from+quiet)*one, float64(y+quiet)*one, float64(x+1+quiet)*one, float64(y+quiet+1)*one)
		}
	}
	return d, nil
}
