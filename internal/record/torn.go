package record

import (
	"bytes"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// whole puts values together again that a comma tore apart between braces: {depth: 1,5}
// has a word "5" without a value. Each is answered with how it is written.
func (d *decoder) whole(pairs []pair) []pair {
	for i := range pairs {
		if i == 0 || !freeText(pairs[i-1].key.V) {
			pairs[i] = d.parted(pairs[i])
		}
	}
	tornOff := func(one, next pair, nth int) bool {
		return isNull(next.value) && next.value.Value == "" && !listsNames(one.key.V) && tears(one.value, next.key.V, nth)
	}
	return grouped(pairs, tornOff, d.together)
}

// grouped takes together with each pair those after it that belong to it, the first of
// which is the 1st; all makes its value of them. What comes of it stands where the pairs did.
func grouped(pairs []pair, belongs func(one, next pair, nth int) bool, all func(one pair, rest []pair) *yaml.Node) []pair {
	out := pairs[:0]
	for i := 0; i < len(pairs); i++ {
		one := pairs[i]
		next := i + 1
		for next < len(pairs) && belongs(one, pairs[next], next-i) {
			next++
		}
		if next > i+1 {
			one.value = all(one, pairs[i+1:next])
			i = next - 1
		}
		out = append(out, one)
	}
	return out
}

// listsNames reports whether a word may have several names, which structPlan.listed puts
// together.
func listsNames(word string) bool {
	switch word {
	case "sews", "after", "like", "of", "in":
		return true
	}
	return false
}

// parted is a word that stands in braces without the colon, or the space, before its
// value, as {at: 8, width 3} or {at: 8, width:3}, with that value; it is told. What is
// nothing of the kind stays as it is.
func (d *decoder) parted(one pair) pair {
	m := valueTight.FindStringSubmatch(one.key.V)
	if m == nil || !isNull(one.value) || one.value.Value != "" || !knownWord(m[1]) {
		return one
	}
	what := say.Of("record.no-colon-after", m[1])
	if m[2] != " " {
		what = say.Of("record.no-space-after-the-colon-of", m[1])
	}
	d.faults.Wrong(one.key.At, say.Of("record.write-6", m[1], m[3]), what).Instead(one.key.V, m[1]+": "+m[3])
	value := yaml.Node{Kind: yaml.ScalarNode, Tag: "!!float", Value: m[3], Line: int(one.key.At.Line - d.shift), Column: int(one.key.At.Column) + len(m[1]+m[2])}
	return pair{Text{m[1], one.key.At}, &value}
}

var valueTight = regexp.MustCompile(`^([a-z][a-z-]*)(:| )(-?\d\S*(?: (?:mm|cm|m|in|min|h|from \S.*))?)$`)

// tears reports whether a comma stood within a value and what follows, as words
// without a value of their own.
func tears(v *yaml.Node, rest string, already int) bool {
	if v.Kind != yaml.ScalarNode || v.Style != 0 || v.Value == "" || rest == "" {
		return false
	}
	last, first := v.Value[len(v.Value)-1], rest[0]
	switch {
	case v.Value[0] == '(':
		return strings.HasSuffix(rest, ")")
	case isFigure(last) && isFigure(first):
		return true
	}
	return already > 1 || strings.Contains(v.Value, " ") || strings.Contains(rest, " ")
}

// isNumber reports whether a text begins as a number does.
func isNumber(text string) bool {
	text = strings.TrimLeft(text, "+-.")
	return text != "" && isFigure(text[0])
}

func isFigure(c byte) bool { return '0' <= c && c <= '9' }

// together answers a torn value, and returns it as it was meant.
func (d *decoder) together(one pair, rest []pair) *yaml.Node {
	at := d.pos(one.value)
	last := rest[len(rest)-1].key
	text := one.value.Value
	for _, r := range rest {
		text += ", " + r.key.V
	}
	told := func(what, hint string) *fault.Fault {
		return d.faults.Wrong(at, hint, what)
	}
	now := *one.value
	switch {
	case text[0] == '(':
		list := "[" + strings.Trim(text, "()") + "]"
		f := told(say.Of("record.a-point-stands-in-square-brackets"), say.Of("record.write", list))
		f.InsteadAt(at, one.value.Value, "["+one.value.Value[1:])
		f.InsteadAt(last.At, last.V, strings.TrimSuffix(last.V, ")")+"]")
		now.Kind, now.Tag, now.Style = yaml.SequenceNode, "!!seq", yaml.FlowStyle
		now.Value = ""
		for _, part := range strings.Split(strings.Trim(text, "()"), ",") {
			now.Content = append(now.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: strings.TrimSpace(part), Line: one.value.Line, Column: one.value.Column})
		}
	case d.several && isFigure(last.V[0]) && int(last.At.Column-at.Column) > len([]rune(one.value.Value))+1:
		list := "[" + text + "]"
		f := told(say.Of("record.several-values-stand-in-square-brackets"), say.Of("record.write", list))
		f.InsteadAt(at, one.value.Value, "["+one.value.Value)
		f.InsteadAt(last.At, last.V, last.V+"]")
		now = yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle, Line: one.value.Line, Column: one.value.Column}
		for _, part := range strings.Split(text, ", ") {
			now.Content = append(now.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: part, Line: one.value.Line, Column: one.value.Column})
		}
	case len(rest) == 1 && isFigure(last.V[0]) && isFigure(one.value.Value[len(one.value.Value)-1]):
		now.Value = one.value.Value + "." + last.V
		gap := strings.Repeat(" ", max(0, int(last.At.Column-at.Column)-len([]rune(one.value.Value))-1))
		told(say.Of("record.a-comma-inside-a-number"), say.Of("record.write", now.Value)).InsteadAt(at, one.value.Value+","+gap+last.V, now.Value)
	default:
		now.Value = text
		f := told(say.Of("record.the-comma-cuts-short", say.Quoted(fault.Shorten(one.value.Value))), say.Of("record.put-quotes-round-them-3", one.key.V, strconv.Quote(fault.Shorten(text))))
		f.InsteadAt(at, one.value.Value, `"`+one.value.Value)
		f.InsteadAt(last.At, last.V, last.V+`"`)
	}
	return &now
}

// decimals is a list of so many numbers of which one has a decimal comma: [172,5, 0].
func decimals(n *yaml.Node, want int) (list string, ok bool) {
	if n.Kind != yaml.SequenceNode || len(n.Content) <= want {
		return "", false
	}
	var parts []string
	for i, c := range n.Content {
		if c.Kind != yaml.ScalarNode || c.Value == "" {
			return "", false
		}
		tight := i > 0 && c.Line == n.Content[i-1].Line && c.Column == n.Content[i-1].Column+len(n.Content[i-1].Value)+1
		if tight && isFigure(c.Value[0]) {
			parts[len(parts)-1] += "." + c.Value
			continue
		}
		parts = append(parts, c.Value)
	}
	return "[" + strings.Join(parts, ", ") + "]", len(parts) == want && !strings.Contains(strings.ReplaceAll(strings.Join(parts, ""), "..", ","), ",")
}

// inSquares is a point that stands in round brackets as it is meant; "" where that is
// no point.
func inSquares(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || !strings.HasPrefix(n.Value, "(") || !strings.HasSuffix(n.Value, ")") {
		return ""
	}
	parts := strings.Split(strings.ReplaceAll(strings.Trim(n.Value, "()"), ";", ","), ",")
	if len(parts) != 2 {
		return ""
	}
	for i := range parts {
		if parts[i] = strings.TrimSpace(parts[i]); parts[i] == "" || !isFigure(parts[i][len(parts[i])-1]) {
			return ""
		}
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

var oneShare = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(?:%|per cent|percent)?\s*([\pL][\pL -]*)$`)

var shareBehind = regexp.MustCompile(`^([\pL][\pL -]*?)\s+(\d+(?:\.\d+)?)\s*(?:%|per cent|percent)?$`)

// twoSides is two lengths as they are said: "57 x 62", "57 by 62 cm".
var twoSides = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(mm|cm|m|in)?\s*(?:x|X|×|\*|by|,|;)\s*(\d+(?:\.\d+)?)\s*(mm|cm|m|in)?$`)

// twoLengths is what two lengths that are said so mean; a unit behind both is that of both.
// "" where they are none.
func twoLengths(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode {
		return ""
	}
	m := twoSides.FindStringSubmatch(strings.TrimSpace(n.Value))
	if m == nil {
		return ""
	}
	if m[2] == "" {
		m[2] = m[4]
	}
	return "[" + strings.TrimSpace(m[1]+" "+m[2]) + ", " + strings.TrimSpace(m[3]+" "+m[4]) + "]"
}

// sharesIn is what "60% linen, 40% wool" or "linen 60, wool 40" means; "" where it is nothing of the kind.
func sharesIn(n *yaml.Node) string {
	var words []string
	switch n.Kind {
	case yaml.ScalarNode:
		words = strings.Split(n.Value, ",")
	case yaml.SequenceNode:
		for _, c := range n.Content {
			words = append(words, c.Value)
		}
	}
	var out []string
	for _, w := range words {
		w = strings.TrimSpace(w)
		if m := oneShare.FindStringSubmatch(w); m != nil {
			out = append(out, m[2]+": "+m[1])
		} else if m := shareBehind.FindStringSubmatch(w); m != nil {
			out = append(out, m[1]+": "+m[2])
		} else {
			return ""
		}
	}
	if out == nil {
		return ""
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// hashed answers a word whose value YAML takes for a remark, as #1; false where there
// is none.
func (d *decoder) hashed(each pair) bool {
	rest := d.behind(each.key.At)
	before, value, ok := strings.Cut(rest, ":")
	value = strings.TrimSpace(value)
	if !ok || before != each.key.V || len(value) < 2 || value[0] != '#' || value[1] == ' ' || value[1] == '#' {
		return false
	}
	d.faults.Wrong(d.pos(each.value), each.key.V+": "+strconv.Quote(value), say.Of("record.words-that-begin-with-need-quotes-3")).
		InsteadAt(each.key.At, strings.TrimRight(rest, " \r"), each.key.V+": "+strconv.Quote(value))
	return true
}

// behind is the rest of the line from a place on.
func (d *decoder) behind(at fault.Pos) string {
	text := d.text
	for range at.Line - 1 - d.shift {
		_, text, _ = bytes.Cut(text, []byte("\n"))
	}
	line, _, _ := bytes.Cut(text, []byte("\n"))
	r := []rune(string(line))
	return string(r[min(len(r), max(0, int(at.Column)-1)):])
}

// noList answers words that stand where a list should.
func (k *listKind) noList(d *decoder, n *yaml.Node, at fault.Pos) {
	if k.elem == reflect.TypeFor[List[EdgeRef]]() && n.Kind == yaml.ScalarNode {
		other := "back.side"
		if n.Value == other {
			other = "front.side"
		}
		d.faults.Wrong(at, say.Of("record.name-both-as", fault.Shorten(n.Value), other), say.Of("record.a-seam-joins-two-edges-and-here"))
		return
	}
	if n.Kind == yaml.MappingNode && len(n.Content) > 0 && n.Style&yaml.FlowStyle == 0 {
		word := n.Content[0]
		f := d.faults.Wrong(at, say.Of("record.write-and-begin-what-belongs-to-it", fault.Shorten(word.Value)), say.Of("record.no-dash-before", say.Quoted(fault.Shorten(word.Value))))
		if first := d.pos(word); first.Column > 2 {
			lead := first
			lead.Column = 1
			before := strings.Repeat(" ", int(first.Column)-1)
			f.InsteadAt(lead, before+word.Value, before[2:]+"- "+word.Value)
		}
		return
	}
	if n.Kind == yaml.ScalarNode && !isNull(n) {
		d.faults.Wrong(at, say.Of("record.write-or-each-entry-on-a-line", fault.Shorten(n.Value)), say.Of("record.this-must-be-a-list-it-is", shapeOf(n)))
		return
	}
	d.faults.Wrong(at, say.Of("record.write-each-entry-on-a-line-of"), say.Of("record.this-must-be-a-list-it-is", shapeOf(n)))
}

// listed puts lists together again whose brackets are missing between braces: in
// {like: front, back} back would be a word without a value.
func (p *structPlan) listed(d *decoder, pairs []pair) []pair {
	var out []pair
	for i := 0; i < len(pairs); i++ {
		one := pairs[i]
		next := i + 1
		for next < len(pairs) && p.mayList(one) && p.entryAlone(d, one, pairs[next]) {
			next++
		}
		if next > i+1 {
			one.value = d.inSquare(one, pairs[i+1:next])
			i = next - 1
		}
		out = append(out, one)
	}
	return out
}

// mayList reports whether a word with a single plain value may have a list of names.
func (p *structPlan) mayList(one pair) bool {
	i, known := p.byKey[one.key.V]
	if !known || one.value.Kind != yaml.ScalarNode || one.value.Style != 0 || one.value.Value == "" {
		return false
	}
	k, isList := kindOf(p.fields[i].of).(*listKind)
	return isList && k.bare || one.key.V == "join"
}

// entryAlone reports whether what follows on the same line is no word of the group and
// has no value; where the group has measures of any name, it must be an edge.
func (p *structPlan) entryAlone(d *decoder, one, each pair) bool {
	_, known := p.byKey[each.key.V]
	return !known && (p.rest < 0 || strings.Contains(each.key.V, ".")) && p.was[each.key.V] == "" && isNull(each.value) && each.value.Value == "" && each.key.At.Line == one.key.At.Line &&
		each.key.At.Line-d.shift == int32(one.value.Line)
}

// inSquare tells of such a list, and is it.
func (d *decoder) inSquare(one pair, rest []pair) *yaml.Node {
	at, last := d.pos(one.value), rest[len(rest)-1].key
	names := []string{one.value.Value}
	list := yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: yaml.FlowStyle, Line: one.value.Line, Column: one.value.Column, Content: []*yaml.Node{one.value}}
	for _, r := range rest {
		names = append(names, r.key.V)
		list.Content = append(list.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: r.key.V, Line: int(r.key.At.Line - d.shift), Column: int(r.key.At.Column)})
	}
	f := d.faults.Wrong(at, say.Of("record.write-9", one.key.V, strings.Join(names, ", ")), say.Of("record.several-values-stand-in-square-brackets"))
	f.InsteadAt(at, one.value.Value, "["+one.value.Value)
	f.InsteadAt(last.At, last.V, last.V+"]")
	return &list
}
