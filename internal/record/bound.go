package record

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"hembook/internal/fault"
	"hembook/internal/record/extent"
	"hembook/internal/say"
)

// mostWords bounds the words of one group: each is compared with all others.
const mostWords = 2000

// checkMany refuses a file of too many values.
func checkMany(src *fault.Source, text []byte, shift int32, faults *fault.Faults) bool {
	line, found := extent.TooMany(text)
	if found {
		faults.Wrong(fault.Pos{Source: src, Line: line + shift, Column: 1}, say.Of("record.keep-outlines-of-many-points-in-a"),
			say.Of("record.this-record-holds-more-than-values", extent.MostMarks))
	}
	return !found
}

// notText says what a file holds that is no UTF-8 text, and how to save it
// rightly. rest begins with what is wrong.
func notText(text, rest []byte) (message, hint string) {
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("\xfe\xff")), looksWide(text):
		return say.Of("record.this-file-is-saved-as-utf-16"), say.Of("record.open-it-and-save-it-as-utf")
	case bytes.HasPrefix(text, []byte("\xff\xd8\xff")), bytes.HasPrefix(text, []byte("\x89PNG")), bytes.HasPrefix(text, []byte("PK\x03\x04")), bytes.HasPrefix(text, []byte("%PDF")):
		return say.Of("record.this-file-is-a-picture-a-document"), say.Of("record.a-record-is-plain-text-did-it")
	case rest[0] == 0:
		return say.Of("record.a-byte-of-nothing-stands-here-as"), say.Of("record.bring-the-file-back-from-a-copy")
	}
	letter, _ := charmap.Windows1252.NewDecoder().Bytes(rest[:1])
	if r, _ := utf8.DecodeRune(letter); rest[0] >= 0xa0 && r != utf8.RuneError {
		return say.Of("record.a-letter-here-is-not-saved-as", say.Quoted(string(r))), say.Of("record.open-the-file-and-save-it-as")
	}
	return say.Of("record.the-byte-0x-is-not-text", fmt.Sprintf("%02x", rest[0])), say.Of("record.open-the-file-and-save-it-as")
}

// looksWide reports whether every other byte at the start is nothing, as in
// UTF-16 without a mark at its beginning.
func looksWide(text []byte) bool {
	if len(text) < 8 {
		return false
	}
	even, odd := 0, 0
	for i, c := range text[:8] {
		if c == 0 && i%2 == 0 {
			even++
		} else if c == 0 {
			odd++
		}
	}
	return even == 0 && odd == 4 || even == 4 && odd == 0
}
