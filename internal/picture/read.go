package picture

import (
	"bytes"
	"errors"
	"hembook/internal/fault"
	"hembook/internal/say"
	"image"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/webp"
)

// Read decodes a picture file within the limits and turns it upright. The
// colours of the image have eight bits each. Errors are of type *[fault.Refusal].
func Read(data []byte) (image.Image, Header, error) {
	img, h, held, err := read(data)
	if err != nil {
		return nil, h, err
	}
	return upright(img, held), h, nil
}

// read decodes a picture as it is stored, and says how the camera was held.
func read(data []byte) (image.Image, Header, int, error) {
	if err := CheckBytes(int64(len(data))); err != nil {
		return nil, Header{}, 0, err
	}
	h, err := Look(bytes.NewReader(data))
	if err != nil {
		return nil, h, 0, err
	}
	img, err := h.decode(data)
	if err != nil {
		return nil, h, 0, damaged(h.Format, err)
	}
	_, plain := img.(*image.YCbCr)
	h.Lossless = h.Format == "png" || h.Format == "webp" && !plain
	return halveDepth(img), h, heldAs(data, h.Format), nil
}

func (h Header) decode(data []byte) (image.Image, error) {
	in := bytes.NewReader(data)
	switch h.Format {
	case "png":
		return png.Decode(in)
	case "webp":
		return webp.Decode(in)
	}
	if bytes.Count(data, []byte{0xff, 0xda}) > mostPasses {
		return nil, fault.Refusing(say.Of("picture.open-it-and-save-it-as-an"), say.Of("picture.it-is-drawn-in-hundreds-of-passes"))
	}
	c, err := jpeg.DecodeConfig(in)
	switch {
	case err != nil:
		return nil, err
	case c.Width != h.Wide || c.Height != h.High:
		return nil, errors.New(say.Of("picture.it-says-two-sizes"))
	}
	in.Reset(data)
	return jpeg.Decode(in)
}

// halveDepth leaves the upper eight of sixteen bits a colour, in the memory
// that these take.
func halveDepth(img image.Image) image.Image {
	upper := func(pix []byte) []byte {
		for i := range len(pix) / 2 {
			pix[i] = pix[2*i]
		}
		return pix[:len(pix)/2]
	}
	switch p := img.(type) {
	case *image.RGBA64:
		return &image.RGBA{Pix: upper(p.Pix), Stride: p.Stride / 2, Rect: p.Rect}
	case *image.NRGBA64:
		return &image.NRGBA{Pix: upper(p.Pix), Stride: p.Stride / 2, Rect: p.Rect}
	case *image.Gray16:
		return &image.Gray{Pix: upper(p.Pix), Stride: p.Stride / 2, Rect: p.Rect}
	}
	return img
}
