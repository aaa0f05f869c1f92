package picture

import (
	"bytes"
	"errors"
	"strings"
)

// A Refusal says why a picture is not taken, and what to do about it.
type Refusal struct{ Why, Hint string }

// Error is the why, and the hint on a line of its own.
func (r *Refusal) Error() string {
	if r.Hint == "" {
		return r.Why
	}
	return r.Why + "\n    " + r.Hint
}

// Words are the why and the hint of an error of this package, or of another.
func Words(err error) (why, hint string) {
	var r *Refusal
	if errors.As(err, &r) {
		return r.Why, r.Hint
	}
	return err.Error(), ""
}

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
var boxed = map[string]Refusal{
	"heic": {"it is a HEIC picture", "set the phone's camera to JPEG (\"most compatible\"), or save the picture as JPEG"},
	"avif": {"it is an AVIF picture", "open it on the phone and save or share it as JPEG"},
	"film": {"it is a film", "take a still of it: pause it, take a screenshot, and use that"},
}

var brands = map[string]string{
	"heic": "heic", "heix": "heic", "heim": "heic", "heis": "heic", "hevc": "heic", "hevx": "heic", "mif1": "heic", "msf1": "heic",
	"avif": "avif", "avis": "avif",
}

// notRead answers a file that is no picture, or none that is read.
func notRead(start []byte) *Refusal {
	begins := func(s string) bool { return strings.HasPrefix(string(start), s) }
	switch {
	case len(start) == 0:
		return &Refusal{"it is empty", "copy it anew"}
	case len(start) >= 12 && string(start[4:8]) == "ftyp":
		r := boxed["film"]
		if kind, ok := brands[string(start[8:12])]; ok {
			r = boxed[kind]
		}
		if bytes.Contains(start[8:], []byte("avif")) { // beside a brand that says less
			r = boxed["avif"]
		}
		return &r
	case begins("GIF8"):
		return &Refusal{"it is a GIF", "take a screenshot of it, or open it and save it as PNG"}
	case begins("II*\x00"), begins("MM\x00*"), begins("BM"):
		return &Refusal{"it is a TIFF, a bitmap or a camera's raw picture", "open it and save it as JPEG or PNG"}
	case begins("%PDF"):
		return &Refusal{"it is a PDF, not a picture", "take a screenshot of the page, or save the page as PNG"}
	case begins("\xff\x0a"), begins("\x00\x00\x00\x0cJXL "):
		return &Refusal{"it is a JPEG XL picture", "save or share it as an ordinary JPEG"}
	case begins("\x1aE\xdf\xa3"), isRIFF(start, "AVI "):
		r := boxed["film"]
		return &r
	}
	return &Refusal{"it is not a picture", "JPEG, PNG and WebP are read"}
}

// damaged answers a picture that cannot be decoded to its end.
func damaged(format string, err error) error {
	var r *Refusal
	if errors.As(err, &r) {
		return r
	}
	if format == "webp" && strings.Contains(err.Error(), "invalid format") {
		return &Refusal{"it is a WebP picture that moves, or it is damaged", "take a screenshot of it, or save it as JPEG"}
	}
	return &Refusal{"it is damaged", "copy it anew from where it was taken"}
}
