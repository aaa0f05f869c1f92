package picture

import (
	"bytes"
	"errors"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// formatOf tells a format that is read by its first bytes, "" for all others.
func formatOf(start []byte) string {
	switch {
	case bytes.HasPrefix(start, []byte("\xff\xd8\xff")):
		return "jpeg"
	case bytes.HasPrefix(start, []byte("\x89PNG\r\n\x1a\n")):
		return "png"
	case isRIFF(start, "WEBP"):
		return "webp"
	}
	return ""
}

func isRIFF(start []byte, form string) bool {
	return len(start) >= 12 && string(start[:4]) == "RIFF" && string(start[8:12]) == form
}

// boxed are files made of boxes, by the brand in the first of them (ISO/IEC
// 14496-12, section 4.3; brands of ISO/IEC 23008-12 and of AV1 Image File
// Format 1.1, from memory).
var boxed = map[string]*fault.Refusal{
	"heic": fault.Refusing(say.Of("picture.set-the-phones-camera-to-jpeg-most"), say.Of("picture.it-is-a-heic-picture")),
	"avif": fault.Refusing(say.Of("picture.open-it-on-the-phone-and-save"), say.Of("picture.it-is-an-avif-picture")),
	"film": fault.Refusing(say.Of("picture.take-a-still-of-it-pause-it"), say.Of("picture.it-is-a-film")),
}

var brands = map[string]string{
	"heic": "heic", "heix": "heic", "heim": "heic", "heis": "heic", "hevc": "heic", "hevx": "heic", "mif1": "heic", "msf1": "heic",
	"avif": "avif", "avis": "avif",
}

// notRead answers a file that is no picture, or none that is read.
func notRead(start []byte) *fault.Refusal {
	begins := func(s string) bool { return strings.HasPrefix(string(start), s) }
	switch {
	case len(start) == 0:
		return fault.Refusing(say.Of("picture.copy-it-anew"), say.Of("picture.it-is-empty"))
	case len(start) >= 12 && string(start[4:8]) == "ftyp":
		r := boxed["film"]
		if kind, ok := brands[string(start[8:12])]; ok {
			r = boxed[kind]
		}
		if bytes.Contains(start[8:], []byte("avif")) { // beside a brand that says less
			r = boxed["avif"]
		}
		return r
	case begins("GIF8"):
		return fault.Refusing(say.Of("picture.take-a-screenshot-of-it-or-open"), say.Of("picture.it-is-a-gif"))
	case begins("II*\x00"), begins("MM\x00*"), begins("BM"):
		return fault.Refusing(say.Of("picture.open-it-and-save-it-as-jpeg"), say.Of("picture.it-is-a-tiff-a-bitmap-or"))
	case begins("%PDF"):
		return fault.Refusing(say.Of("picture.take-a-screenshot-of-the-page-or"), say.Of("picture.it-is-a-pdf-not-a-picture"))
	case begins("\xff\x0a"), begins("\x00\x00\x00\x0cJXL "):
		return fault.Refusing(say.Of("picture.save-or-share-it-as-an-ordinary"), say.Of("picture.it-is-a-jpeg-xl-picture"))
	case begins("\x1aE\xdf\xa3"), isRIFF(start, "AVI "):
		return boxed["film"]
	}
	return fault.Refusing(say.Of("picture.jpeg-png-and-webp-are-read"), say.Of("picture.it-is-not-a-picture"))
}

// damaged answers a picture that cannot be decoded to its end.
func damaged(format string, err error) error {
	var r *fault.Refusal
	if errors.As(err, &r) {
		return r
	}
	if format == "webp" && strings.Contains(err.Error(), "invalid format") {
		return fault.Refusing(say.Of("picture.take-a-screenshot-of-it-or-save"), say.Of("picture.it-is-a-webp-picture-that-moves"))
	}
	return fault.Refusing(say.Of("picture.copy-it-anew-from-where-it-was"), say.Of("picture.it-is-damaged"))
}
