package amend

import (
	"bytes"
	"math"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/record/extent"
	"hembook/internal/say"
)

// fill writes a value where a single value, or none, stood.
func (d *source) fill(p led, v Value) ([]byte, error) {
	s, err := d.scalar(p.node)
	if err != nil {
		return nil, err
	}
	n := p.node
	if n.Kind == yaml.ScalarNode && n.Style&yaml.TaggedStyle != 0 {
		// A tag says how to read the old value, so it goes with it.
		if n.Anchor != "" {
			return nil, refuse(n.Line, say.Of("amend.take-the-tag-out-first"), say.Of("amend.the-value-is-marked-and-tagged", n.Anchor, n.Tag))
		}
		s.From = d.Offset(n)
	}
	return d.replace(become(n, v), p, s, v)
}

// replace writes a value where a single value or [] stood.
func (d *source) replace(w wish, p led, old span, v Value) ([]byte, error) {
	within := p.inFlow()
	plans := []func(h hand) (edit, error){}
	add := func(draw func(h hand) (edit, error)) { plans = append(plans, draw) }
	if v.kind == words && !strings.Contains(v.text, "\n") {
		if like := likeBefore(p.node, v.text); like != "" {
			add(func(hand) (edit, error) { return d.onLine(p.node, old, like, "", 0), nil })
		}
	}
	if !within {
		add(func(h hand) (edit, error) { return d.overLines(p, old, v, h), nil })
	}
	add(func(h hand) (edit, error) { return d.onLine(p.node, old, h.flow(v, within), "", 0), nil })
	return d.try(w, old.From, plans...)
}

// likeBefore is a text in the quotes the old one had; "" where it had none.
func likeBefore(n *yaml.Node, s string) string {
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return doubleQuoted(s)
	case n.Style&yaml.SingleQuotedStyle != 0:
		return singleQuoted(s)
	}
	return ""
}

// overLines writes the value as it stands below its name: nil where it has
// no lines of its own.
func (d *source) overLines(p led, old span, v Value, h hand) edit {
	parent := p.parent()
	if parent == nil {
		return nil
	}
	col := d.startColumn(parent)
	if parent.Kind == yaml.SequenceNode {
		return d.overLinesInList(p, old, v, h, col)
	}
	head, body, several := strings.Cut(h.block(v, col), h.lineEnd)
	if !several {
		return nil
	}
	return d.onLine(p.node, old, strings.TrimPrefix(head, " "), body, leastBelow(v, col))
}

// leastBelow is how many spaces stand before a comment that is about the name
// at col and not about the next one. No comment may stand above lines of text,
// where it would be read as one of them.
func leastBelow(v Value, col int) int {
	if v.kind == words {
		return math.MaxInt
	}
	return col + 1
}

// overLinesInList is overLines for an entry of a list: only text can be so.
func (d *source) overLinesInList(p led, old span, v Value, h hand, col int) edit {
	if v.kind != words || !h.fitsLiteral(v.text) {
		return nil
	}
	head, body, _ := strings.Cut(h.literal(v.text, col+2), h.lineEnd)
	return d.onLine(p.node, old, strings.TrimPrefix(head, " "), body, math.MaxInt)
}

// onLine puts a head in the place of a value, and lines below the line it
// stands on: below the comment at its end, and below those that belong to the
// name. The comment beside a block of text's mark stays.
func (d *source) onLine(n *yaml.Node, old span, head, body string, least int) edit {
	lineEnd := d.lineEnd(old.From)
	end := old.To
	var out edit
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		markEnd := old.From
		for markEnd < len(d.Bytes) && !extent.IsBlank(d.Bytes[markEnd]) && extent.BreakAt(d.Bytes, markEnd) == 0 {
			markEnd++
		}
		lineStop := d.RestOfLine(old.From)
		out = edit{{span{From: old.From, To: markEnd}, head}}
		if old.To > lineStop || body != "" {
			out = append(out, splice{span{From: lineStop, To: max(old.To, lineStop)}, below(lineEnd, body)})
		}
		return out
	}
	switch before := d.Bytes[:old.From]; {
	case head == "":
		// Only lines follow: no white space is left where the value stood.
		old.From = len(bytes.TrimRight(before, " \t"))
	case old.From == old.To && len(before) > 0 && !extent.IsBlank(before[len(before)-1]):
		head = d.gapFor(n, old.From) + head
	}
	if body == "" {
		return edit{{old, head}}
	}
	next := d.skipLine(end)
	if next < 0 {
		return edit{{old, head}}
	}
	return edit{{old, head}, insert(d.ownComments(next, least), body+lineEnd)}
}

func below(lineEnd, body string) string {
	if body == "" {
		return ""
	}
	return lineEnd + body
}

// gapFor is what stands between a name without a value, or a dash, and the
// value: a name within braces may lack its colon.
func (d *source) gapFor(n *yaml.Node, at int) string {
	if b := d.Bytes[at-1]; b == ':' || b == '-' || n.Anchor != "" || extent.IsFlowMark(b) || b == '?' {
		return " "
	}
	return ": "
}
