package picture

import (
	"bytes"
	"errors"
	"strings"

	"hembook/internal/fault"
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
	"heic": fault.Refuse("set the phone's camera to JPEG (\"most compatible\"), or save the picture as JPEG", "it is a HEIC picture"),
	"avif": fault.Refuse("open it on the phone and save or share it as JPEG", "it is an AVIF picture"),
	"film": fault.Refuse("take a still of it: pause it, take a screenshot, and use that", "it is a film"),
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
		return fault.Refuse("copy it anew", "it is empty")
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
		return fault.Refuse("take a screenshot of it, or open it and save it as PNG", "it is a GIF")
	case begins("II*\x00"), begins("MM\x00*"), begins("BM"):
		return fault.Refuse("open it and save it as JPEG or PNG", "it is a TIFF, a bitmap or a camera's raw picture")
	case begins("%PDF"):
		return fault.Refuse("take a screenshot of the page, or save the page as PNG", "it is a PDF, not a picture")
	case begins("\xff\x0a"), begins("\x00\x00\x00\x0cJXL "):
		return fault.Refuse("save or share it as an ordinary JPEG", "it is a JPEG XL picture")
	case begins("\x1aE\xdf\xa3"), isRIFF(start, "AVI "):
		return boxed["film"]
	}
	return fault.Refuse("JPEG, PNG and WebP are read", "it is not a picture")
}

// damaged answers a picture that cannot be decoded to its end.
func damaged(format string, err error) error {
	var r *fault.Refusal
	if errors.As(err, &r) {
		return r
	}
	if format == "webp" && strings.Contains(err.Error(), "invalid format") {
		return fault.Refuse("take a screenshot of it, or save it as JPEG", "it is a WebP picture that moves, or it is damaged")
	}
	return fault.Refuse("copy it anew from where it was taken", "it is damaged")
}
