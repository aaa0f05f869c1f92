package amend

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// The tree says where a node begins, not where it ends. What follows finds the
// ends in the text, guided by the values the tree holds; nowhere is a value
// read a second time. An end found wrongly cannot do harm, as every change is
// checked on the tree afterwards: it can only be refused.

// A span is a stretch of the text, from its first byte to the one after its last.
type span struct{ from, to int }

// lost is the error for a text in which a node cannot be found again.
func lost(n *yaml.Node) error {
	return refuse(n.Line, "write it more plainly", "this is written in a way that cannot be changed safely")
}

// skipBlank goes past white space, line breaks and comments.
func (d *source) skipBlank(at int) int {
	for at < len(d.text) {
		switch n := breakAt(d.text, at); {
		case n > 0:
			at += n
		case isBlank(d.text[at]):
			at++
		case d.text[at] == '#':
			at = d.restOfLine(at)
		default:
			return at
		}
	}
	return at
}

// content is where a node begins, its anchor and tag passed. props is where
// those end, or the node's begin where it has none.
func (d *source) content(n *yaml.Node) (at, props int) {
	at = d.offset(n)
	props = at
	for at >= 0 && at < len(d.text) && (d.text[at] == '&' || d.text[at] == '!') {
		for at < len(d.text) && !isBlank(d.text[at]) && breakAt(d.text, at) == 0 && !(isEmpty(n) && isFlowMark(d.text[at])) {
			at++
		}
		props = at
		at = d.skipBlank(at)
	}
	return at, props
}

func isFlowMark(b byte) bool { return strings.IndexByte(",[]{}", b) >= 0 }

// scalar finds a single value or an alias without its anchor and tag. A block
// of text reaches to the end of its last line that is not blank.
func (d *source) scalar(n *yaml.Node) (span, error) {
	at, props := d.content(n)
	switch {
	case at < 0:
		return span{}, lost(n)
	case n.Kind == yaml.ScalarNode && n.Value == "" && n.Style&^yaml.TaggedStyle == 0:
		return span{props, props}, nil
	case at >= len(d.text):
		return span{}, lost(n)
	}
	end := -1
	switch {
	case n.Kind == yaml.AliasNode && d.text[at] == '*':
		end = d.past(at+1, n.Value)
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		end = quoteEnd(d.text, at)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 && (d.text[at] == '|' || d.text[at] == '>'):
		end = d.restOfLine(at)
		if strings.TrimFunc(n.Value, isSpace) != "" {
			if end = d.past(end, n.Value); end >= 0 {
				end = d.restOfLine(end)
			}
		}
	case n.Kind == yaml.ScalarNode:
		end = d.past(at, n.Value)
	}
	if end < 0 {
		return span{}, lost(n)
	}
	return span{at, end}, nil
}

func isSpace(r rune) bool {
	return r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == 0x85 || r == 0x2028 || r == 0x2029
}

// past matches the characters of a value, white space apart, and returns where
// the last one ends; -1 where something else stands in the text.
func (d *source) past(at int, value string) int {
	for _, want := range value {
		if isSpace(want) {
			continue
		}
		for {
			got, size := utf8.DecodeRune(d.text[at:])
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

// end is where a node ends. A block of text that keeps the empty lines after
// it ends after those.
func (d *source) end(n *yaml.Node) (int, error) {
	switch {
	case n.Kind == yaml.ScalarNode || n.Kind == yaml.AliasNode:
		s, err := d.scalar(n)
		if err == nil && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 && d.keeps(s.from) {
			s.to = d.pastEmptyLines(s.to)
		}
		return s.to, err
	case isFlow(n) && d.bracketed(n):
		f, err := d.flow(n)
		return f.close + 1, err
	case len(n.Content) == 0:
		return 0, lost(n)
	}
	return d.end(n.Content[len(n.Content)-1])
}

// bracketed is false of the group that YAML sees in [name: value].
func (d *source) bracketed(n *yaml.Node) bool {
	at, _ := d.content(n)
	return at >= 0 && at < len(d.text) && (d.text[at] == '[' || d.text[at] == '{')
}

// keeps reports whether a block of text says that it keeps the lines after it.
func (d *source) keeps(at int) bool {
	head, _, _ := bytes.Cut(d.text[at:d.restOfLine(at)], []byte("#"))
	return bytes.IndexByte(head, '+') >= 0
}

func (d *source) pastEmptyLines(at int) int {
	for {
		next := d.nextLine(at)
		if next >= len(d.text) || next == at {
			return at
		}
		end := d.restOfLine(next)
		if len(bytes.TrimSpace(d.text[next:end])) > 0 {
			return at
		}
		at = end
	}
}

// A flow is a list or group in brackets, as it stands in the text.
type flow struct {
	open, close int // the brackets
	last        int // where the last entry ends; open+1 in an empty one
	first       int // where the last entry begins
	comma       int // the comma after the last entry; -1 where there is none
}

// flow finds the brackets of a list or group and what stands last in it.
func (d *source) flow(n *yaml.Node) (flow, error) {
	at, _ := d.content(n)
	if at < 0 || at >= len(d.text) || d.text[at] != '[' && d.text[at] != '{' {
		return flow{}, lost(n)
	}
	f := flow{open: at, last: at + 1, first: -1, comma: -1}
	depth, between := 0, true
	for at < len(d.text) {
		b := d.text[at]
		from := at
		switch {
		case b == '#':
			at = d.restOfLine(at)
			continue
		case isBlank(b):
			at++
			continue
		case breakAt(d.text, at) > 0:
			at += breakAt(d.text, at)
			continue
		case b == '[' || b == '{':
			depth++
			at++
		case b == ']' || b == '}':
			if depth--; depth == 0 {
				f.close = at
				return f, nil
			}
			at++
		default:
			at = d.flowToken(at)
		}
		switch {
		case at <= from:
			return flow{}, lost(n)
		case depth == 1 && b == ',':
			f.comma, between = from, true
		case from > f.open:
			if between {
				f.first, between = from, false
			}
			f.last, f.comma = at, -1
		}
	}
	return flow{}, lost(n)
}

// flowToken is where the token at an offset within brackets ends: a comma, an
// indicator, an anchor, alias or tag, a quoted or a plain text. The rules are
// the library's, which follow YAML 1.1 (section 9.1.3 for plain text).
func (d *source) flowToken(at int) int {
	switch b := d.text[at]; {
	case b == '"' || b == '\'':
		return quoteEnd(d.text, at)
	case b == ',' || b == '?' || b == ':':
		return at + 1
	case b == '&' || b == '*':
		at++
		for at < len(d.text) && (d.text[at] == '_' || d.text[at] == '-' || isAlnum(d.text[at])) {
			at++
		}
		return at
	case b == '!':
		for at < len(d.text) && !isBlank(d.text[at]) && breakAt(d.text, at) == 0 {
			at++
		}
		return at
	}
	return d.plainEnd(at)
}

// plainEnd is where plain text within brackets ends.
func (d *source) plainEnd(at int) int {
	end := at
	for at < len(d.text) {
		switch n := breakAt(d.text, at); {
		case n > 0:
			at += n
			continue
		case isBlank(d.text[at]):
			at++
			continue
		}
		b := d.text[at]
		ends := isFlowMark(b) || b == '?' || b == ':' && (at+1 >= len(d.text) || isBlank(d.text[at+1]) || breakAt(d.text, at+1) > 0)
		if ends || b == '#' && at > end {
			return end
		}
		at++
		end = at
	}
	return end
}

func isAlnum(b byte) bool {
	return b >= '0' && b <= '9' || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
}
