package paper

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // pictures come as JPEG
	_ "image/png"  // or as PNG

	"rsc.io/qr"
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
