package paper

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // pictures come as JPEG
	_ "image/png"  // or as PNG
	"strings"

	"rsc.io/qr"

	"hembook/internal/drawing"
)

// kind is "jpeg" or "png", with the picture's size in dots.
func (p Picture) kind() (kind string, wide, high int, err error) {
	c, kind, err := image.DecodeConfig(bytes.NewReader(p.Data))
	if err != nil || c.Width < 1 || c.Height < 1 {
		return "", 0, 0, fmt.Errorf("the picture %q is neither JPEG nor PNG", p.Alt)
	}
	return kind, c.Width, c.Height, nil
}

func (p Picture) checkKind() error {
	_, _, _, err := p.kind()
	return err
}

// matrix is the code's dark and light squares.
func (q QR) matrix() (*qr.Code, error) {
	if q.Address == "" {
		return nil, fmt.Errorf("a code without an address")
	}
	code, err := qr.Encode(q.Address, qr.M)
	if err != nil {
		return nil, fmt.Errorf("the address %q is too long for a code", q.Address)
	}
	return code, nil
}

// drawing is the code as squares, with the quiet rim of four squares that
// ISO/IEC 18004 asks for left white around it.
func (q QR) drawing(side float64) (*drawing.Drawing, error) {
	code, err := q.matrix()
	if err != nil {
		return nil, err
	}
	const quiet = 4
	one := side / float64(code.Size+2*quiet)
	d := drawing.New("qr")
	d.Box = drawing.Box{Right: side, Bottom: side}
	d.Draw(drawing.CodeGround).Rect(0, 0, side, side)
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

// safeLink is an address that may be followed, or nothing.
func safeLink(address string) string {
	for _, start := range []string{"https://", "http://", "mailto:"} {
		if strings.HasPrefix(address, start) && !strings.ContainsAny(address, " \n\t\"<>") {
			return address
		}
	}
	return ""
}
