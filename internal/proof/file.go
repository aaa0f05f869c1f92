package proof

import (
	"bytes"
	"encoding/binary"
	"path"
	"strings"
)

// textOf is what of a file is looked through, and how it is read: the name
// tells by its ending.
func textOf(name string, data []byte) ([]byte, tongue) {
	switch strings.ToLower(path.Ext(name)) {
	case ".html", ".xml", ".svg":
		return data, markupWords
	case ".pdf":
		return textOfPDF(data), plainWords
	case ".jpg", ".jpeg":
		return besideJPEG(data), plainWords
	case ".png":
		return besidePNG(data), plainWords
	}
	return data, plainWords
}

// readFile takes a file's name and text apart. word is told of each word, tag of
// each that stands inside a tag.
func readFile(name string, text []byte, how tongue, word, tag func(h uint64)) {
	in := &reader{emit: tag, links: true}
	in.read([]byte(name)) // an address tells something too
	r := &reader{emit: word, inside: in.entities, markup: how == markupWords}
	r.read(text)
}

// besideJPEG is what stands in a JPEG file beside the picture itself: the
// segments before the first scan and what comes behind the end (ITU T.81,
// B.1.1).
func besideJPEG(data []byte) []byte {
	at := 2
	for at+4 <= len(data) && data[at] == 0xff && data[at+1] != 0xda {
		at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
	}
	if at >= len(data) || at+1 < len(data) && data[at] != 0xff {
		return data // not as it should be: all of it
	}
	out := bytes.Clone(data[:at])
	if end := bytes.LastIndex(data, []byte{0xff, 0xd9}); end > at {
		out = append(out, data[end+2:]...)
	}
	return out
}

// besidePNG is what stands in a PNG file beside the picture itself: all chunks
// but IDAT (ISO/IEC 15948, 5.3).
func besidePNG(data []byte) []byte {
	var out []byte
	at := 8
	for at+12 <= len(data) {
		size := int(binary.BigEndian.Uint32(data[at:]))
		if size < 0 || at+12+size > len(data) {
			return data
		}
		if kind := data[at+4 : at+8]; string(kind) != "IDAT" {
			out = append(append(out, data[at+4:at+8+size]...), ' ')
		}
		at += 12 + size
	}
	if at > len(data) {
		return data
	}
	return append(out, data[at:]...)
}
