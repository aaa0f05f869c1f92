package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
)

// The marks of a JPEG that are read (ITU-T T.81, table B.1).
const (
	markFrame   = 0xc0 // a picture in one pass, eight bits a sample
	markHuffman = 0xc4
	markStart   = 0xd8
	markEnd     = 0xd9
	markScan    = 0xda
	markCoarse  = 0xdb // the tables of how coarsely it was rounded
	markAgain   = 0xdd // how often a decoder may begin anew
	markNote    = 0xe0 // the first of sixteen
	markAdobe   = 0xee // a note that can say how colours are stored
	markText    = 0xfe
)

// Bare returns a photograph as it was stored and nothing else of its file: none
// of its notes, no smaller picture, nothing that follows it. It is false where
// that would not do: where the picture is no plain JPEG, has to be turned, or
// was rounded more finely than image/jpeg does at that quality, so that encoding
// it anew would save bytes. What is encoded twice loses twice; what is coarse
// already is best left alone.
func Bare(data []byte, quality int) ([]byte, bool) {
	if heldAs(data, "jpeg") != 1 || len(data) < 4 || data[0] != 0xff || data[1] != markStart {
		return nil, false
	}
	out, rest, framed := append(make([]byte, 0, len(data)), data[:2]...), data[2:], false
	for {
		mark, part, after, ok := nextPart(rest)
		if !ok {
			return nil, false
		}
		rest = after
		switch {
		case mark == markFrame:
			if framed || !plainFrame(part) {
				return nil, false
			}
			framed = true
		case mark == markCoarse:
			if sum, first := coarseness(part); first && sum < coarsenessOf(quality) {
				return nil, false
			}
		case mark == markScan:
			scan := scanned(rest)
			if !framed || scan+2 > len(rest) || rest[scan+1] != markEnd {
				return nil, false
			}
			return append(append(append(out, part...), rest[:scan]...), 0xff, markEnd), true
		case mark == markAdobe && len(part) > 15 && string(part[4:9]) == "Adobe" && part[15] != 1:
			return nil, false // without this note its colours would be taken for others
		case mark >= markNote && mark <= markNote+15, mark == markText:
			continue
		case mark != markHuffman && mark != markAgain:
			return nil, false
		}
		out = append(out, part...)
	}
}

// nextPart takes one part with its mark and its length off a JPEG.
func nextPart(data []byte) (mark byte, part, rest []byte, ok bool) {
	for len(data) > 1 && data[0] == 0xff && data[1] == 0xff {
		data = data[1:] // a mark may have more of them before it
	}
	if len(data) < 4 || data[0] != 0xff {
		return 0, nil, nil, false
	}
	long := 2 + int(binary.BigEndian.Uint16(data[2:]))
	if long < 4 || long > len(data) {
		return 0, nil, nil, false
	}
	return data[1], data[:long], data[long:], true
}

// scanned is how many bytes of samples come before the next mark that ends them.
func scanned(data []byte) int {
	for i := 0; i+1 < len(data); i++ {
		if data[i] == 0xff && data[i+1] != 0 && (data[i+1] < 0xd0 || data[i+1] > 0xd7) {
			return i
		}
	}
	return len(data)
}

// plainFrame says whether a frame is grey, or brightness and two colours under
// the names that stand for them without a note that says so (JFIF 1.02, from memory).
func plainFrame(part []byte) bool {
	const names, each = 10, 3
	if len(part) < names {
		return false
	}
	n := int(part[names-1])
	if part[4] != 8 || len(part) != names+each*n {
		return false
	}
	for c := range n {
		if part[names+each*c] != byte(c+1) {
			return false
		}
	}
	return n == 1 || n == 3
}

// coarseness adds up the table of the brightness, the first of all, where a
// part holds it.
func coarseness(part []byte) (sum int, first bool) {
	const head, entries = 4, 64
	for at := head; at < len(part); {
		bytesEach := 1 + int(part[at]>>4)
		if bytesEach > 2 || at+1+entries*bytesEach > len(part) {
			return 0, true // no table at all: as if it were the finest
		}
		if part[at]&15 == 0 {
			for i := range entries {
				if bytesEach == 1 {
					sum += int(part[at+1+i])
				} else {
					sum += int(binary.BigEndian.Uint16(part[at+1+2*i:]))
				}
			}
			return sum, true
		}
		at += 1 + entries*bytesEach
	}
	return 0, false
}

// coarsenessOf is what image/jpeg's own table adds up to at a quality.
func coarsenessOf(quality int) int {
	var one bytes.Buffer
	_ = jpeg.Encode(&one, image.NewGray(image.Rect(0, 0, 1, 1)), &jpeg.Options{Quality: quality})
	_, part, _, _ := nextPart(one.Bytes()[2:])
	sum, _ := coarseness(part)
	return sum
}
