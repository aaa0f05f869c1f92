package prose

import (
	"bytes"
	"regexp"
)

// units are those that stay on one line with their number.
var units = [][]byte{[]byte("mm"), []byte("cm"), []byte("m"), []byte("in"), []byte("yd"), []byte("g"), []byte("kg"), []byte("oz"), []byte("h"), []byte("min"), []byte("%"), []byte("°C"), []byte("€")}

// tidy keeps numbers with their units, code apart, and leaves out the line ends
// between the parts of tables, of which a long table has thousands.
func tidy(html []byte, from int) []byte {
	out := html[:from]
	src := bytes.Clone(html[from:])
	tag, code := false, false
	for i, c := range src {
		switch {
		case c == '<':
			tag = true
			if name := src[i+1:]; bytes.HasPrefix(name, []byte("code")) || bytes.HasPrefix(name, []byte("pre")) {
				code = true
			} else if bytes.HasPrefix(name, []byte("/code")) || bytes.HasPrefix(name, []byte("/pre")) {
				code = false
			}
		case c == '>':
			tag = false
		case c == '\n' && !code && i > 0 && src[i-1] == '>' && inTable(src[i+1:]):
			continue
		case c == ' ' && !tag && !code && i > 0 && src[i-1] >= '0' && src[i-1] <= '9' && unitAt(src[i+1:]):
			out = append(out, "\u00a0"...)
			continue
		case c == ':' && tag && noteMark(src[:i]):
			c = '-'
		}
		out = append(out, c)
	}
	return unheaded(out, from)
}

// noteMark reports whether the id of a footnote was begun, whose colon a style sheet would
// take for the beginning of something else. A note that is led to again has a number more.
func noteMark(before []byte) bool {
	before = bytes.TrimRight(before, "0123456789")
	return bytes.HasSuffix(before, []byte("fn")) || bytes.HasSuffix(before, []byte("fnref"))
}

var emptyHead = regexp.MustCompile(`<th[^>]*></th>`)

// unheaded makes heads of columns that say nothing cells: a corner heads nothing.
func unheaded(html []byte, from int) []byte {
	if !bytes.Contains(html[from:], []byte("></th>")) {
		return html
	}
	return append(html[:from], emptyHead.ReplaceAll(bytes.Clone(html[from:]), []byte("<td></td>"))...)
}

// inTable reports whether a tag that only tables have comes next.
func inTable(rest []byte) bool {
	if len(rest) == 0 || rest[0] != '<' {
		return false
	}
	rest = bytes.TrimPrefix(rest[1:], []byte("/"))
	for _, name := range []string{"td", "th", "tr", "tb"} {
		if bytes.HasPrefix(rest, []byte(name)) {
			return true
		}
	}
	return false
}

// unitAt reports whether a unit comes next, whole.
func unitAt(rest []byte) bool {
	for _, u := range units {
		if bytes.HasPrefix(rest, u) && (len(rest) == len(u) || !wordByte(rest[len(u)])) {
			return true
		}
	}
	return false
}

func wordByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c >= 0x80
}
