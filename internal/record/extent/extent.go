// Package extent finds where the parts of a YAML text begin and end. The tree
// that the YAML library gives says where a node begins, not where it ends: the
// ends are found in the text, guided by the values the tree holds, and no value
// is read a second time. An end may still be found wrongly in a text that is
// written strangely, so whoever cuts by it reads the result again and compares.
package extent

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// A Text is a YAML text and where its lines begin.
type Text struct {
	Bytes []byte
	Lines []int // offset of each line's first byte, a byte order mark skipped
}

// New finds the lines of a text.
func New(text []byte) Text {
	t := Text{Bytes: text}
	t.findLines()
	return t
}

// A Span is a stretch of the text, from its first byte to the one after its last.
type Span struct{ From, To int }

// SkipBlank goes past white space, line breaks and comments.
func (t *Text) SkipBlank(at int) int {
	for at < len(t.Bytes) {
		switch n := BreakAt(t.Bytes, at); {
		case n > 0:
			at += n
		case IsBlank(t.Bytes[at]):
			at++
		case t.Bytes[at] == '#':
			at = t.RestOfLine(at)
		default:
			return at
		}
	}
	return at
}

// Content is where a node begins, its anchor and tag passed. props is where
// those end, or the node's begin where it has none.
func (t *Text) Content(n *yaml.Node) (at, props int) {
	at = t.Offset(n)
	props = at
	for at >= 0 && at < len(t.Bytes) && (t.Bytes[at] == '&' || t.Bytes[at] == '!') {
		for at < len(t.Bytes) && !IsBlank(t.Bytes[at]) && BreakAt(t.Bytes, at) == 0 && !(n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" && IsFlowMark(t.Bytes[at])) {
			at++
		}
		props = at
		at = t.SkipBlank(at)
	}
	return at, props
}

// IsFlowMark reports whether a byte has a meaning of its own within brackets.
func IsFlowMark(b byte) bool { return strings.IndexByte(",[]{}", b) >= 0 }

// Scalar finds a single value or an alias without its anchor and tag. A block
// of text reaches to the end of its last line that is not blank.
func (t *Text) Scalar(n *yaml.Node) (Span, bool) {
	at, props := t.Content(n)
	switch {
	case at < 0:
		return Span{}, false
	case n.Kind == yaml.ScalarNode && n.Value == "" && n.Style&^yaml.TaggedStyle == 0:
		return Span{props, props}, true
	case at >= len(t.Bytes):
		return Span{}, false
	}
	end := -1
	switch {
	case n.Kind == yaml.AliasNode && t.Bytes[at] == '*':
		end = t.past(at+1, n.Value)
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		end = quoteEnd(t.Bytes, at)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 && (t.Bytes[at] == '|' || t.Bytes[at] == '>'):
		end = t.RestOfLine(at)
		if strings.TrimFunc(n.Value, isSpace) != "" {
			if end = t.past(end, n.Value); end >= 0 {
				end = t.RestOfLine(end)
			}
		}
	case n.Kind == yaml.ScalarNode:
		end = t.past(at, n.Value)
	}
	if end < 0 {
		return Span{}, false
	}
	return Span{at, end}, true
}

func isSpace(r rune) bool {
	return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == 0x85 || r == 0x2028 || r == 0x2029
}

// past matches the characters of a value, white space apart, and returns where
// the last one ends; -1 where something else stands in the text.
func (t *Text) past(at int, value string) int {
	for _, want := range value {
		if isSpace(want) {
			continue
		}
		for {
			got, size := utf8.DecodeRune(t.Bytes[at:])
			if size == 0 || !isSpace(got) && got != want {
				return -1
			}
			at += size
			if got == want {
				break
			}
		}
	}
	return at
}

// quoteEnd is where a quoted text ends, its quote included; -1 where it does not.
func quoteEnd(text []byte, at int) int {
	quote := text[at]
	if quote != '"' && quote != '\'' {
		return -1
	}
	for i := at + 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && quote == '"':
			i++
		case text[i] != quote:
		case quote == '\'' && i+1 < len(text) && text[i+1] == quote:
			i++
		default:
			return i + 1
		}
	}
	return -1
}

// End is where a node ends. A block of text that keeps the empty lines after
// it ends after those.
func (t *Text) End(n *yaml.Node) (int, bool) {
	switch {
	case n.Kind == yaml.ScalarNode || n.Kind == yaml.AliasNode:
		s, ok := t.Scalar(n)
		if ok && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 && t.keeps(s.From) {
			s.To = t.pastEmptyLines(s.To)
		}
		return s.To, ok
	case n.Style&yaml.FlowStyle != 0 && t.bracketed(n):
		f, ok := t.Flow(n)
		return f.Close + 1, ok
	case len(n.Content) == 0:
		return 0, false
	}
	return t.End(n.Content[len(n.Content)-1])
}

// bracketed is false of the group that YAML sees in [name: value].
func (t *Text) bracketed(n *yaml.Node) bool {
	at, _ := t.Content(n)
	return at >= 0 && at < len(t.Bytes) && (t.Bytes[at] == '[' || t.Bytes[at] == '{')
}

// keeps reports whether a block of text says that it keeps the lines after it.
func (t *Text) keeps(at int) bool {
	head, _, _ := bytes.Cut(t.Bytes[at:t.RestOfLine(at)], []byte("#"))
	return bytes.IndexByte(head, '+') >= 0
}

func (t *Text) pastEmptyLines(at int) int {
	for {
		next := t.NextLine(at)
		if next >= len(t.Bytes) || next == at {
			return at
		}
		end := t.RestOfLine(next)
		if len(bytes.TrimSpace(t.Bytes[next:end])) > 0 {
			return at
		}
		at = end
	}
}

// A Flow is a list or group in brackets, as it stands in the text.
type Flow struct {
	Open, Close int // the brackets
	Last        int // where the last entry ends; Open+1 in an empty one
	First       int // where the last entry begins
	Comma       int // the comma after the last entry; -1 where there is none
}

// Flow finds the brackets of a list or group and what stands last in it.
func (t *Text) Flow(n *yaml.Node) (Flow, bool) {
	at, _ := t.Content(n)
	if at < 0 || at >= len(t.Bytes) || t.Bytes[at] != '[' && t.Bytes[at] != '{' {
		return Flow{}, false
	}
	f := Flow{Open: at, Last: at + 1, First: -1, Comma: -1}
	depth, between := 0, true
	for at < len(t.Bytes) {
		b := t.Bytes[at]
		from := at
		switch {
		case b == '#':
			at = t.RestOfLine(at)
			continue
		case IsBlank(b):
			at++
			continue
		case BreakAt(t.Bytes, at) > 0:
			at += BreakAt(t.Bytes, at)
			continue
		case b == '[' || b == '{':
			depth++
			at++
		case b == ']' || b == '}':
			if depth--; depth == 0 {
				f.Close = at
				return f, true
			}
			at++
		default:
			at = t.flowToken(at)
		}
		switch {
		case at <= from:
			return Flow{}, false
		case depth == 1 && b == ',':
			f.Comma, between = from, true
		case from > f.Open:
			if between {
				f.First, between = from, false
			}
			f.Last, f.Comma = at, -1
		}
	}
	return Flow{}, false
}

// flowToken is where the token at an offset within brackets ends: a comma, an
// indicator, an anchor, alias or tag, a quoted or a plain text. The rules are
// the library's, which follow YAML 1.1 (section 9.1.3 for plain text).
func (t *Text) flowToken(at int) int {
	switch b := t.Bytes[at]; {
	case b == '"' || b == '\'':
		return quoteEnd(t.Bytes, at)
	case b == ',' || b == '?' || b == ':':
		return at + 1
	case b == '&' || b == '*':
		at++
		for at < len(t.Bytes) && (t.Bytes[at] == '_' || t.Bytes[at] == '-' || IsAlnum(t.Bytes[at])) {
			at++
		}
		return at
	case b == '!':
		for at < len(t.Bytes) && !IsBlank(t.Bytes[at]) && BreakAt(t.Bytes, at) == 0 {
			at++
		}
		return at
	}
	return t.plainEnd(at)
}

// plainEnd is where plain text within brackets ends.
func (t *Text) plainEnd(at int) int {
	end := at
	for at < len(t.Bytes) {
		switch n := BreakAt(t.Bytes, at); {
		case n > 0:
			at += n
			continue
		case IsBlank(t.Bytes[at]):
			at++
			continue
		}
		b := t.Bytes[at]
		ends := IsFlowMark(b) || b == '?' || b == ':' && (at+1 >= len(t.Bytes) || IsBlank(t.Bytes[at+1]) || BreakAt(t.Bytes, at+1) > 0)
		if ends || b == '#' && at > end {
			return end
		}
		at++
		end = at
	}
	return end
}

// IsAlnum reports whether a byte is a letter or digit of ASCII.
func IsAlnum(b byte) bool {
	return b >= '0' && b <= '9' || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
}
