// Package picture reads photographs the right way up and in the sizes they are
// shown in, and says in one place which are read at all.
//
// It promises that a picture taken in any of the eight ways a camera can be
// held comes out as it was seen, and that none takes more memory than
// [MostMemory]. It opens no files.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"strconv"

	"github.com/bep/imagemeta"
)

// heldAs reads how the camera was held from the bytes of a picture file
// (format "jpeg", "png" or "webp"): EXIF's 1 to 8, and 1 where nothing is said.
func heldAs(data []byte, format string) int {
	kind := imagemeta.JPEG
	switch format {
	case "png":
		kind = imagemeta.PNG
	case "webp":
		kind = imagemeta.WebP
	}
	held := 1
	_, _ = imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(data), ImageFormat: kind, Sources: imagemeta.EXIF,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool { return t.Tag == "Orientation" },
		HandleTag: func(t imagemeta.TagInfo) error {
			if n, err := strconv.Atoi(fmt.Sprint(t.Value)); err == nil && n >= 1 && n <= 8 {
				held = n
			}
			return imagemeta.ErrStopWalking
		},
	})
	return held
}

// upright turns and mirrors a picture as its orientation says (Exif 2.3, tag
// 274, from memory).
func upright(img image.Image, held int) image.Image {
	if held <= 1 || held > 8 {
		return img
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	size := image.Rect(0, 0, w, h)
	if held >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	out, row := image.NewRGBA(size), image.NewRGBA(image.Rect(0, 0, w, 1))
	for y := range h {
		draw.Draw(row, row.Bounds(), img, b.Min.Add(image.Pt(0, y)), draw.Src)
		for x := range w {
			u, v := turned(held, x, y, w, h)
			copy(out.Pix[out.PixOffset(u, v):][:4], row.Pix[4*x:][:4])
		}
	}
	return out
}

// turned is where the pixel (x, y) of a picture w by h belongs.
func turned(held, x, y, w, h int) (u, v int) {
	switch held {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return y, w - 1 - x
	}
	return x, y
}
