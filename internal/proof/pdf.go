package proof

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"io"
	"unicode/utf16"
)

// textOfPDF is what a reader of a PDF file is shown, and what stands beside it:
// all strings of the file, those of its streams inflated. Strings of two bytes
// a letter are read as UTF-16 (ISO 32000-1, 7.9.2.2); so are those of the pages,
// as the fonts that this program writes map each code to the letter of that
// number.
func textOfPDF(data []byte) []byte {
	var out []byte
	for len(data) > 0 {
		at := bytes.Index(data, []byte("stream"))
		if at < 0 {
			return append(out, stringsOfPDF(data)...)
		}
		out = append(out, stringsOfPDF(data[:at])...)
		body := bytes.TrimLeft(data[at+len("stream"):], "\r\n")
		end := bytes.Index(body, []byte("endstream"))
		if end < 0 {
			return append(out, stringsOfPDF(body)...)
		}
		out = append(out, textOfStream(body[:end])...)
		data = body[end+len("endstream"):]
	}
	return out
}

// mostInflated keeps a stream from unfolding without end.
const mostInflated = 64 << 20

func textOfStream(body []byte) []byte {
	if r, err := zlib.NewReader(bytes.NewReader(body)); err == nil {
		if plain, err := io.ReadAll(io.LimitReader(r, mostInflated)); err == nil {
			body = plain
		}
	}
	if bytes.HasPrefix(body, []byte{0xff, 0xd8}) {
		return besideJPEG(body)
	}
	if bytes.HasPrefix(body, []byte{0, 1, 0, 0}) {
		return nil // the outlines of a font
	}
	return stringsOfPDF(body)
}

// stringsOfPDF are the strings of a stretch of a PDF file, with spaces between,
// and whatever else stands there (7.3.4).
func stringsOfPDF(data []byte) []byte {
	var out []byte
	for i := 0; i < len(data); i++ {
		switch b := data[i]; {
		case b == '(':
			s, n := literal(data[i+1:])
			out = append(append(out, ' '), letterOf(s)...)
			out = append(out, ' ')
			i += n
		case b == '<' && i+1 < len(data) && data[i+1] != '<':
			end := bytes.IndexByte(data[i:], '>')
			if end < 0 {
				return append(out, data[i:]...)
			}
			if s, err := hex.DecodeString(string(bytes.Join(bytes.Fields(data[i+1:i+end]), nil))); err == nil {
				out = append(append(out, ' '), letterOf(s)...)
			}
			out = append(out, ' ')
			i += end
		default:
			out = append(out, b)
		}
	}
	return out
}

// literal reads a string in round brackets, and returns how many bytes it took.
func literal(data []byte) (s []byte, n int) {
	depth := 1
	for i := 0; i < len(data); i++ {
		switch b := data[i]; b {
		case '\\':
			i++
			if i < len(data) {
				c := data[i]
				switch c {
				case 'n':
					c = '\n'
				case 'r':
					c = '\r'
				case 't':
					c = '\t'
				}
				s = append(s, c)
			}
			continue
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return s, i + 1
			}
		}
		s = append(s, data[i])
	}
	return s, len(data)
}

// letterOf reads a string as UTF-16 if it may be that.
func letterOf(s []byte) []byte {
	if len(s)%2 != 0 || len(s) == 0 {
		return s
	}
	s = bytes.TrimPrefix(s, []byte{0xfe, 0xff})
	units := make([]uint16, 0, len(s)/2)
	narrow := 0
	for i := 0; i+1 < len(s); i += 2 {
		if s[i] == 0 {
			narrow++
		}
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	wide := []byte(string(utf16.Decode(units)))
	if narrow == 0 {
		return append(append(wide, ' '), s...) // either may be meant
	}
	return wide
}
