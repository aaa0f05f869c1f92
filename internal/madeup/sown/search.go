package sown

import (
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/hex"
	"html"
	"io"
	"net/url"
	"path"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"
)

// Search says which secrets stand in a file, or in its name: as it is, and with
// everything unpacked and unescaped that files here may pack and escape.
func Search(name string, data []byte, secrets []Secret) (found []Secret) {
	texts := readings(name, data, 0)
	texts = append(texts, plainly(name), plainly(unpercent(name)))
	for _, s := range secrets {
		if holds(texts, s.Forms) {
			found = append(found, s)
		}
	}
	return found
}

func holds(texts, forms []string) bool {
	for _, t := range texts {
		for _, f := range forms {
			if stands(t, f) {
				return true
			}
		}
	}
	return false
}

// stands reports whether a form stands in a text: a number not as a part of
// another, as 73 331.74 does in the line of a drawing from 130.73 331.748.
func stands(text, form string) bool {
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	for at := 0; ; at++ {
		i := strings.Index(text[at:], form)
		if i < 0 {
			return false
		}
		at += i
		begins := digit(at) && (digit(at-1) || at > 1 && text[at-1] == '.' && digit(at-2))
		end := at + len(form)
		if !begins && !(digit(end-1) && digit(end)) {
			return true
		}
	}
}

var (
	escape    = regexp.MustCompile(`\\u[0-9a-fA-F]{4}`)
	dataURI   = regexp.MustCompile(`base64,([A-Za-z0-9+/]+=*)`)
	pdfString = regexp.MustCompile(`(?s)\((?:\\.|[^\\()])*\)|<[0-9a-fA-F\s]*>`)
	spaces    = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ")
)

// plainly is a text in small letters with single spaces.
func plainly(s string) string {
	s = spaces.Replace(s)
	out := make([]byte, 0, len(s))
	for i := range len(s) {
		c := s[i]
		switch {
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		case c == '\n', c == '\t', c == '\r', c == '\f':
			c = ' '
		}
		if c != ' ' || len(out) == 0 || out[len(out)-1] != ' ' {
			out = append(out, c)
		}
	}
	return string(out)
}

// readings are all texts that a file may be read as.
func readings(name string, data []byte, depth int) []string {
	raw := string(data)
	out := []string{plainly(raw)}
	if depth > 3 {
		return out
	}
	switch path.Ext(name) {
	case ".pdf":
		return append(out, ofPDF(raw)...)
	case ".png":
		return append(out, unpacked(raw)...)
	case ".jpg", ".webp":
		return out
	}
	open := html.UnescapeString(raw)
	for _, s := range []string{html.UnescapeString(untagged(raw, "")), html.UnescapeString(untagged(raw, " ")), unpercent(open), unescaped(open), html.UnescapeString(unescaped(raw))} {
		out = append(out, plainly(s))
	}
	for _, m := range dataURI.FindAllStringSubmatch(raw, -1) {
		if inner, err := base64.StdEncoding.DecodeString(m[1]); err == nil {
			for _, kind := range []string{".txt", ".png"} {
				out = append(out, readings(kind, inner, depth+1)...)
			}
		}
	}
	return out
}

// untagged is a text with something in the place of every tag.
func untagged(s, with string) string {
	var out strings.Builder
	for {
		text, rest, more := strings.Cut(s, "<")
		out.WriteString(text)
		_, after, closed := strings.Cut(rest, ">")
		if !more || !closed {
			out.WriteString(rest)
			return out.String()
		}
		out.WriteString(with)
		s = after
	}
}

func unescaped(s string) string {
	return escape.ReplaceAllStringFunc(s, func(e string) string {
		n, _ := strconv.ParseUint(e[2:], 16, 16)
		return string(rune(n))
	})
}

func unpercent(s string) string {
	if whole, err := url.PathUnescape(s); err == nil {
		return whole
	}
	return regexp.MustCompile(`%[0-9a-fA-F]{2}`).ReplaceAllStringFunc(s, func(e string) string {
		b, _ := hex.DecodeString(e[1:])
		return string(b)
	})
}

// unpacked is what zlib has packed anywhere in a file: wherever its usual
// beginnings stand it is tried.
func unpacked(raw string) (out []string) {
	for at := range len(raw) - 1 {
		if raw[at] != 0x78 {
			continue
		}
		if text, ok := inflate(raw[at:]); ok {
			out = append(out, plainly(text))
		}
	}
	return out
}

func inflate(packed string) (string, bool) {
	r, err := zlib.NewReader(strings.NewReader(packed))
	if err != nil {
		return "", false
	}
	text, err := io.ReadAll(io.LimitReader(r, 16<<20))
	return string(text), err == nil && len(text) > 0
}

// ofPDF are the strings of a PDF file and of its streams, each run together and
// each by itself, read as bytes and as UTF-16.
func ofPDF(raw string) (out []string) {
	parts, outside := []string{}, ""
	for {
		before, rest, more := strings.Cut(raw, "stream")
		outside += before
		if !more {
			break
		}
		body, after, _ := strings.Cut(strings.TrimLeft(rest, "\r\n"), "endstream")
		text, ok := inflate(body)
		if !ok {
			text = body
		}
		if strings.HasPrefix(text, "\x00\x01\x00\x00") { // the outlines of a font: no strings of the file
			out = append(out, plainly(text))
		} else {
			parts = append(parts, text)
		}
		raw = after
	}
	parts = append(parts, outside)
	for _, p := range parts {
		out = append(out, plainly(p))
		var bytewise, wide, apart bytes.Buffer
		for _, s := range pdfString.FindAllString(p, -1) {
			b := pdfBytes(s)
			bytewise.Write(b)
			wide.WriteString(wideText(b))
			apart.WriteString(string(b) + " " + wideText(b) + " ")
		}
		out = append(out, plainly(bytewise.String()), plainly(wide.String()), plainly(apart.String()))
	}
	return out
}

func pdfBytes(s string) []byte {
	if s[0] == '<' {
		b, _ := hex.DecodeString(strings.Join(strings.Fields(s[1:len(s)-1]), ""))
		return b
	}
	var out []byte
	for i := 1; i < len(s)-1; i++ {
		if s[i] == '\\' && i+1 < len(s)-1 {
			i++
			if s[i] >= '0' && s[i] <= '7' && i+2 < len(s) { // an octal number
				if n, err := strconv.ParseUint(s[i:i+3], 8, 8); err == nil {
					out = append(out, byte(n))
					i += 2
					continue
				}
			}
		}
		out = append(out, s[i])
	}
	return out
}

func wideText(b []byte) string {
	b = bytes.TrimPrefix(b, []byte{0xfe, 0xff})
	var units []uint16
	for i := 0; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(units))
}
