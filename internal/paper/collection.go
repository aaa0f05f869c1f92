package paper

import (
	"encoding/binary"
	"errors"
	"slices"

	"hembook/internal/say"
)

// fromCollection is the first font of a TrueType collection as a font by itself; other
// data are given back as they are. Source: OpenType specification, "The OpenType font
// file", headers TTCHeader and TableDirectory.
func fromCollection(data []byte) ([]byte, error) {
	const head, record = 12, 16
	if len(data) < head || string(data[:4]) != "ttcf" {
		return data, nil
	}
	bad := errors.New(say.Of("paper.the-collection-of-fonts-cannot-be-read"))
	long := func(at int) int {
		if at < 0 || at+4 > len(data) {
			return -1
		}
		return int(binary.BigEndian.Uint32(data[at:]))
	}
	first := long(head)
	if first < 0 || first+head > len(data) {
		return nil, bad
	}
	tables := int(binary.BigEndian.Uint16(data[first+4:]))
	if first+head+tables*record > len(data) {
		return nil, bad
	}
	out := slices.Clone(data[first : first+head+tables*record])
	for i := range tables {
		entry := head + i*record
		from, size := long(first+entry+8), long(first+entry+12)
		if from < 0 || size < 0 || from > len(data)-size {
			return nil, bad
		}
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
		binary.BigEndian.PutUint32(out[entry+8:], uint32(len(out)))
		out = append(out, data[from:from+size]...)
		if len(out) > 2*len(data) { // tables that lie over each other many times
			return nil, bad
		}
	}
	return out, nil
}

// Lacks counts the letters that a font has not; all of them where it cannot be used.
func Lacks(font []byte, letters []rune) int {
	f, err := newFace("more", font)
	if err != nil {
		return len(letters)
	}
	n := 0
	for _, r := range letters {
		if _, ok := f.width(r); !ok {
			n++
		}
	}
	return n
}
