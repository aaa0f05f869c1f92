package extent

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// BreakAt is how many bytes of line break stand at an offset. YAML 1.1, as the
// library reads it, counts NEL, LS and PS as line breaks too (section 5.4).
func BreakAt(text []byte, i int) int {
	switch {
	case i >= len(text):
		return 0
	case text[i] == '\n':
		return 1
	case text[i] == '\r':
		if i+1 < len(text) && text[i+1] == '\n' {
			return 2
		}
		return 1
	case text[i] == 0xc2 && i+1 < len(text) && text[i+1] == 0x85:
		return 2
	case text[i] == 0xe2 && i+2 < len(text) && text[i+1] == 0x80 && (text[i+2] == 0xa8 || text[i+2] == 0xa9):
		return 3
	}
	return 0
}

// IsBlank reports whether a byte is white space within a line.
func IsBlank(b byte) bool { return b == ' ' || b == '\t' }

func (t *Text) findLines() {
	start := 0
	if bytes.HasPrefix(t.Bytes, []byte("\xef\xbb\xbf")) {
		start = 3
	}
	t.Lines = []int{start}
	for i := start; i < len(t.Bytes); {
		if n := BreakAt(t.Bytes, i); n > 0 {
			i += n
			t.Lines = append(t.Lines, i)
			continue
		}
		i++
	}
}

// Offset is the byte a node begins at; its column counts characters. -1 where
// there is no such place.
func (t *Text) Offset(n *yaml.Node) int {
	if n.Line < 1 || n.Line > len(t.Lines) {
		return -1
	}
	at := t.Lines[n.Line-1]
	for range n.Column - 1 {
		if at >= len(t.Bytes) {
			return -1
		}
		_, size := utf8.DecodeRune(t.Bytes[at:])
		at += size
	}
	return at
}

// LineOf is the number of the line an offset lies in, counted from 1.
func (t *Text) LineOf(at int) int {
	i, exact := slices.BinarySearch(t.Lines, at)
	if exact {
		i++
	}
	return max(i, 1)
}

// Column is how many characters stand before an offset on its line.
func (t *Text) Column(at int) int {
	return utf8.RuneCount(t.Bytes[t.Lines[t.LineOf(at)-1]:at])
}

// RestOfLine is where the line of an offset ends, before its break.
func (t *Text) RestOfLine(at int) int {
	for at < len(t.Bytes) && BreakAt(t.Bytes, at) == 0 {
		at++
	}
	return at
}

// NextLine is where the line after that of an offset begins.
func (t *Text) NextLine(at int) int {
	at = t.RestOfLine(at)
	return at + BreakAt(t.Bytes, at)
}
