package record

import (
	"bytes"

	"gopkg.in/yaml.v3"

	"hembook/internal/record/extent"
)

// redact returns the record's text without its private parts, for the page
// that shows the record. A private part that has its lines to itself loses
// them; any other is replaced by the word private. Remarks go with what they
// touch: those on a line that holds something private, or within the brackets
// around it, and those between such a line and the next public words on either
// side. The remark at the end of a wholly public line stays, unless it repeats
// a private value.
//
// The ends of the parts are found in the text, which may be written strangely.
// So the text that is left is read again and must hold what the record holds,
// the private parts apart (see proves). nil is returned, and no record shown,
// where no way of cutting passes.
func redact(text []byte, root *yaml.Node, hides []*yaml.Node) []byte {
	if len(hides) == 0 {
		return bytes.Clone(text)
	}
	c, ok := takeApart(text, root, hides)
	if !ok {
		return nil
	}
	words := privateWords(hides)
	for _, how := range []omission{{}, {inPlace: true}, {inPlace: true, bare: true}} {
		if shown, ok := c.without(how, words); ok && c.proves(shown, how, root, words) {
			return shown
		}
	}
	return nil
}

// An omission is a way of leaving out what is private. Some texts bear only the
// gentler ways: a line that goes may be one that a block of text above it counts.
type omission struct {
	inPlace bool // every private part is replaced by a word, none loses its lines
	bare    bool // of a remark its mark stays
}

// placeholder stands where a private value stood.
const placeholder = "private"

// A secretEntry is a private part with its key.
type secretEntry struct {
	key, value extent.Span
	own        bool // it has its lines to itself, and its group holds something else
}

// A scissors holds a record's text taken apart: its words, which are its keys
// and single values, in the order of the text, and its private entries, each of
// which is one too. Between two of them stand only marks, white space,
// anchors, tags and remarks.
type scissors struct {
	extent.Text
	hidden  map[*yaml.Node]bool
	words   []extent.Span
	entries []secretEntry
	dropped map[*yaml.Node]bool // the private parts of entries of their own lines
	shut    map[int]bool        // lines on which nothing but public words is kept
}

// takeApart finds the words and the private entries; false where one cannot
// be found, or is found where it cannot be.
func takeApart(text []byte, root *yaml.Node, hides []*yaml.Node) (*scissors, bool) {
	c := &scissors{Text: extent.New(text), hidden: map[*yaml.Node]bool{}, dropped: map[*yaml.Node]bool{}, shut: map[int]bool{}}
	for _, n := range hides {
		c.hidden[n] = true
	}
	return c, !c.hidden[root] && c.walk(root, extent.Span{})
}

// walk takes a part of the record apart. around is the outermost pair of
// brackets that it lies in, empty where it lies in none.
func (c *scissors) walk(n *yaml.Node, around extent.Span) bool {
	if len(n.Content) == 0 {
		to, ok := c.End(n)
		return ok && c.word(extent.Span{From: c.Offset(n), To: to})
	}
	if around == (extent.Span{}) && n.Style&yaml.FlowStyle != 0 {
		if f, ok := c.Flow(n); ok {
			around = extent.Span{From: f.Open, To: f.Close + 1}
		}
	}
	if n.Kind != yaml.MappingNode {
		for _, each := range n.Content {
			if !c.walk(each, around) {
				return false
			}
		}
		return true
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if !c.walk(n.Content[i], around) {
			return false
		}
		walk := c.walk
		if c.hidden[n.Content[i+1]] {
			walk = func(v *yaml.Node, around extent.Span) bool { return c.private(n, v, around) }
		}
		if !walk(n.Content[i+1], around) {
			return false
		}
	}
	return true
}

// word adds a word, which must lie behind the one before.
func (c *scissors) word(s extent.Span) bool {
	last := 0
	if len(c.words) > 0 {
		last = c.words[len(c.words)-1].To
	}
	c.words = append(c.words, s)
	return s.From >= last && s.To >= s.From && s.To <= len(c.Bytes)
}

// private adds the private value v of a group, whose key is the last word.
func (c *scissors) private(group, v *yaml.Node, around extent.Span) bool {
	key := c.words[len(c.words)-1]
	to, ok := c.End(v)
	e := secretEntry{key: key, value: extent.Span{From: c.Offset(v), To: to}}
	if !ok || !c.word(e.value) {
		return false
	}
	from := key.From
	if around != (extent.Span{}) {
		from, to = min(from, around.From), max(to, around.To)
	} else if group.Style&yaml.FlowStyle == 0 && c.ownLines(e) && c.keepsMore(group) {
		e.own = true
		c.dropped[v] = true
	}
	for line := c.LineOf(from); line <= c.LineOf(to); line++ {
		c.shut[line] = true
	}
	c.entries = append(c.entries, e)
	return true
}

// ownLines reports whether nothing else stands on the lines of an entry,
// remarks apart.
func (c *scissors) ownLines(e secretEntry) bool {
	before := c.Bytes[c.Lines[c.LineOf(e.key.From)-1]:e.key.From]
	after := bytes.TrimLeft(c.Bytes[e.value.To:c.RestOfLine(e.value.To)], " \t")
	return len(bytes.TrimLeft(before, " ")) == 0 && (len(after) == 0 || after[0] == '#')
}

// keepsMore reports whether a group holds anything that is not private.
func (c *scissors) keepsMore(group *yaml.Node) bool {
	for i := 1; i < len(group.Content); i += 2 {
		if !c.hidden[group.Content[i]] {
			return true
		}
	}
	return false
}

// without is the text with its private parts and the remarks that touch them
// cut out in one way.
func (c *scissors) without(how omission, words []string) ([]byte, bool) {
	e := &eraser{gone: make([]bool, len(c.Bytes))}
	at := 0
	for i := 0; i <= len(c.words); i++ {
		gap := extent.Span{From: at, To: len(c.Bytes)}
		if i < len(c.words) {
			gap.To, at = c.words[i].From, c.words[i].To
		}
		remarks, ok := c.remarks(gap)
		if !ok {
			return nil, false
		}
		for _, r := range remarks {
			if c.touches(r, i) || holdsAny(c.Bytes[r.From:r.To], words) {
				c.eraseRemark(e, r, how.bare)
			}
		}
	}
	for _, one := range c.entries {
		if one.own && !how.inPlace {
			e.erase(c.Lines[c.LineOf(one.key.From)-1], c.NextLine(one.value.To))
			continue
		}
		colon := c.colon(extent.Span{From: one.key.To, To: one.value.From})
		if colon < 0 {
			return nil, false
		}
		e.erase(colon+1, one.value.To)
		e.words = append(e.words, colon+1)
	}
	return e.left(c.Bytes), true
}

// touches reports whether a remark before the word of that number goes with
// something private.
func (c *scissors) touches(r extent.Span, next int) bool {
	line := c.LineOf(r.From)
	if c.shut[line] || next > 0 && c.shut[c.LineOf(c.words[next-1].To)] {
		return true
	}
	ofPublicLine := next > 0 && c.LineOf(c.words[next-1].To) == line
	return next < len(c.words) && c.shut[c.LineOf(c.words[next].From)] && !ofPublicLine
}

// eraseRemark erases a remark with the white space before it, and its line
// where nothing else stands on that.
func (c *scissors) eraseRemark(e *eraser, r extent.Span, bare bool) {
	if bare {
		e.erase(r.From+1, r.To)
		return
	}
	start := c.Lines[c.LineOf(r.From)-1]
	from := r.From
	for from > start && extent.IsBlank(c.Bytes[from-1]) {
		from--
	}
	if from == start {
		r.To = c.NextLine(r.From)
	}
	e.erase(from, r.To)
}

// An eraser notes which bytes of a text go, and where a word stands for them.
type eraser struct {
	gone  []bool
	words []int // in order
}

func (e *eraser) erase(from, to int) {
	for i := from; i < to; i++ {
		e.gone[i] = true
	}
}

func (e *eraser) left(text []byte) []byte {
	out := make([]byte, 0, len(text)+len(e.words)*(1+len(placeholder)))
	words, put := e.words, false
	for i, gone := range append(e.gone, true) {
		if len(words) > 0 && words[0] == i {
			words = words[1:]
			out = append(out, " "+placeholder...)
			put = true
		}
		if !gone {
			if put && text[i] == '#' { // a remark that stood right behind a quote
				out = append(out, ' ')
			}
			put = false
			out = append(out, text[i])
		}
	}
	return out
}
