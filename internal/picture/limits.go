package picture

import (
	"bufio"
	"hembook/internal/fault"
	"hembook/internal/say"
	"image/png"
	"io"

	"golang.org/x/image/webp"
)

// What a picture may be, whichever way it comes into the workroom. All of it
// is our own choice, no source, but for the side: more cannot be said in a
// JPEG (ITU-T T.81, table B.2, from memory).
const (
	MostBytes  = 64 << 20    // of the file
	mostPixels = 100_000_000 // across times down
	MostSide   = 65_535      // pixels across, and down
	MostMemory = 600 << 20   // bytes that decoding it and turning it upright take
	mostPasses = 200         // a JPEG drawn in more of them takes hours
)

// A Header is what the head of a picture file says.
type Header struct {
	Format     string // "jpeg", "png" or "webp"
	Wide, High int    // pixels as they are stored, not turned upright yet
	Lossless   bool   // nothing was left out of it, or it is not opaque; told by Read
	each       float64
}

// Memory is how many bytes decoding the picture and turning it upright take.
func (h Header) Memory() int64 {
	const turning = 4 // bytes a pixel: red, green, blue and how opaque
	return int64((h.each + turning) * float64(h.Wide) * float64(h.High))
}

// Look reads the head of a picture file and decodes nothing. What is no
// picture, or one that is too large, is refused with a *[fault.Refusal].
func Look(r io.Reader) (Header, error) {
	in := bufio.NewReader(r)
	start, _ := in.Peek(64)
	h := Header{Format: formatOf(start)}
	var err error
	switch h.Format {
	case "jpeg":
		err = h.lookJPEG(in)
	case "png":
		config, bad := png.DecodeConfig(in)
		h.Wide, h.High, h.each, err = config.Width, config.Height, pngCost(start), bad
	case "webp":
		config, bad := webp.DecodeConfig(in)
		h.Wide, h.High, h.each, err = config.Width, config.Height, webpCost(start), bad
	default:
		return h, notRead(start)
	}
	if err != nil {
		return h, damaged(h.Format, err)
	}
	return h, h.tooLarge()
}

// tooLarge refuses what is beyond the limits.
func (h Header) tooLarge() error {
	switch {
	case h.Wide <= 0 || h.High <= 0:
		return fault.Refusing(say.Of("picture.save-it-anew-as-jpeg-or-png"), say.Of("picture.it-has-no-size"))
	case h.Wide > MostSide || h.High > MostSide:
		return fault.Refusing(say.Of("picture.cut-it-or-make-it-smaller"), say.Of("picture.it-is-by-pixels-and-no-side", h.Wide, h.High, MostSide))
	case int64(h.Wide)*int64(h.High) > mostPixels:
		return fault.Refusing(say.Of("picture.make-it-smaller"), say.Of("picture.it-is-by-pixels-more-than-100", h.Wide, h.High))
	case h.Memory() > MostMemory:
		return fault.Refusing(say.Of("picture.save-it-smaller-or-as-an-ordinary"),
			say.Of("picture.opening-its-by-pixels-takes-mb-of", h.Wide, h.High, h.Memory()>>20, MostMemory>>20))
	}
	return nil
}

// ReadBytes reads a picture file whole; one of more than MostBytes is refused.
func ReadBytes(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	if err == nil {
		err = CheckBytes(int64(len(data)))
	}
	if err != nil {
		return nil, err
	}
	return data, nil
}

// CheckBytes refuses a file of so many bytes where they are too many.
func CheckBytes(n int64) error {
	if n > MostBytes {
		return fault.Refusing(say.Of("picture.save-it-smaller-or-as-an-ordinary"), say.Of("picture.it-is-larger-than-64-mb"))
	}
	return nil
}
