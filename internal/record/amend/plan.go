package amend

import (
	"bytes"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/say"
)

// A splice puts words in the place of a stretch of the text.
type splice struct {
	span
	with string
}

// An edit is one way to make a change: splices in order that do not overlap.
type edit []splice

func insert(at int, with string) splice { return splice{span{From: at, To: at}, with} }

func (p edit) apply(text []byte) []byte {
	var out bytes.Buffer
	at := 0
	for _, s := range p {
		out.Write(text[at:s.From])
		out.WriteString(s.with)
		at = s.To
	}
	out.Write(text[at:])
	return out.Bytes()
}

// A wish is what a change is to come to: one node of the tree becomes another,
// and nothing else differs.
type wish struct {
	node *yaml.Node
	met  func(after *yaml.Node) bool
}

// try carries out the first plan whose result reads as wished.
func (d *source) try(w wish, at int, plans ...func(h hand) (edit, error)) ([]byte, error) {
	var first error
	for _, quote := range []bool{false, true} {
		h := d.hand(at)
		h.quote = quote
		for _, draw := range plans {
			p, err := draw(h)
			if err == nil && p == nil {
				continue
			}
			if err == nil {
				var out []byte
				if out, err = d.verified(p, w); err == nil {
					return out, nil
				}
			}
			if first == nil {
				first = err
			}
		}
	}
	if first == nil {
		first = lost(w.node)
	}
	return nil, first
}

// verified is the text after a plan, once it reads as wished.
func (d *source) verified(p edit, w wish) ([]byte, error) {
	out := p.apply(d.Bytes)
	after, err := parse(out)
	if err != nil {
		return nil, refuse(w.node.Line, say.Of("amend.write-it-more-plainly-or-change-it"), say.Of("amend.the-change-would-not-read", err))
	}
	if !w.grants(d.root, after.root) {
		return nil, refuse(w.node.Line, say.Of("amend.write-it-more-plainly-or-change-it"), say.Of("amend.the-change-would-have-altered-something"))
	}
	if len(d.Bytes) == len(d.given) {
		return out, nil
	}
	// The last line did not end: leave it so where that reads the same. A block
	// of text that ends there holds one line end less without it.
	short := out[:len(out)-(len(d.Bytes)-len(d.given))]
	if after, err = parse(short); err == nil {
		if before, err := parse(d.given); w.grants(d.root, after.root) || err == nil && w.grantsLike(d.root, before.root, after.root) {
			return short, nil
		}
	}
	return out, nil
}

// grants reports whether after is before with the wish come true.
func (w wish) grants(before, after *yaml.Node) bool {
	if before == w.node {
		return w.met(after)
	}
	if !sameHead(before, after) || len(before.Content) != len(after.Content) {
		return false
	}
	for i, c := range before.Content {
		if !w.grants(c, after.Content[i]) {
			return false
		}
	}
	return true
}

// grantsLike is grants against a tree of the same shape as the wish's own.
func (w wish) grantsLike(own, before, after *yaml.Node) bool {
	if own == w.node {
		return w.met(after)
	}
	if len(own.Content) != len(before.Content) || !sameHead(before, after) || len(before.Content) != len(after.Content) {
		return false
	}
	for i, c := range own.Content {
		if !w.grantsLike(c, before.Content[i], after.Content[i]) {
			return false
		}
	}
	return true
}

// same reports whether two trees hold the same.
func same(a, b *yaml.Node) bool { return wish{}.grants(a, b) }

// sameHead compares two nodes without what is in them. How a text is quoted
// is part of it, whether a list stands in brackets is not.
func sameHead(a, b *yaml.Node) bool {
	const brackets = yaml.FlowStyle
	return a.Kind == b.Kind && a.Tag == b.Tag && a.Value == b.Value && a.Anchor == b.Anchor &&
		a.Style&^brackets == b.Style&^brackets
}

// grown is the wish that a list or group has the old entries and one more.
func grown(n *yaml.Node, last func(added []*yaml.Node) bool, by int) wish {
	return wish{n, func(after *yaml.Node) bool {
		had := len(n.Content)
		return sameHead(n, after) && len(after.Content) == had+by &&
			slices.EqualFunc(n.Content, after.Content[:had], same) && last(after.Content[had:])
	}}
}

// become is the wish that a node holds a value, its anchor kept.
func become(n *yaml.Node, v Value) wish {
	return wish{n, func(after *yaml.Node) bool { return after.Anchor == n.Anchor && v.is(after) }}
}

// addItem adds an entry to a list that has some.
func (d *source) addItem(p led, entry Value) ([]byte, error) {
	n := p.node
	w := grown(n, func(added []*yaml.Node) bool { return entry.isFresh(added[0]) }, 1)
	if isFlow(n) {
		return d.addFlow(w, n, func(h hand) string { return h.flow(entry, true) })
	}
	last := n.Content[len(n.Content)-1]
	at, err := d.end(last)
	if err != nil {
		return nil, err
	}
	col := d.startColumn(n)
	item := func(h hand) string {
		h.braces, h.gap = d.entryStyle(n, col)
		return h.item(entry, col)
	}
	return d.addLines(w, at, d.leastComment(p, col), d.gapsBefore(n.Content), item)
}

// insertItem adds an entry to a list in block form before one that it has.
func (d *source) insertItem(p led, before int, entry Value) ([]byte, error) {
	n := p.node
	w := wish{n, func(after *yaml.Node) bool {
		return sameHead(n, after) && len(after.Content) == len(n.Content)+1 &&
			slices.EqualFunc(n.Content[:before], after.Content[:before], same) && entry.isFresh(after.Content[before]) &&
			slices.EqualFunc(n.Content[before:], after.Content[before+1:], same)
	}}
	col := d.startColumn(n)
	at := d.dashLine(n.Content[0], col)
	if before > 0 {
		end, err := d.end(n.Content[before-1])
		if err != nil {
			return nil, err
		}
		at = d.skipLine(end)
	}
	if at < 0 {
		return nil, lost(n)
	}
	return d.try(w, at, func(h hand) (edit, error) {
		h.braces, h.gap = d.entryStyle(n, col)
		return edit{insert(at, h.item(entry, col)+h.lineEnd)}, nil
	})
}

// dashLine is where the line of an entry's dash begins, -1 where it does not begin its line.
func (d *source) dashLine(entry *yaml.Node, col int) int {
	for line := min(entry.Line, len(d.Lines)); line > 0; line-- {
		at := d.Lines[line-1]
		text := d.Bytes[at:d.RestOfLine(at)]
		if body := bytes.TrimLeft(text, " "); len(body) > 0 && body[0] == '-' && len(text)-len(body) == col {
			return at
		}
	}
	return -1
}

// entryStyle is how the last group in a list is written, and how far behind
// its dash the last entry begins.
func (d *source) entryStyle(n *yaml.Node, col int) (braces bool, gap int) {
	braces = true
	for i := len(n.Content) - 1; i >= 0; i-- {
		if c := n.Content[i]; c.Kind == yaml.MappingNode {
			braces = isFlow(c)
			break
		}
	}
	last := n.Content[len(n.Content)-1]
	at := d.Offset(last)
	gap = 2
	if at >= 0 && !isEmpty(last) {
		if g := last.Column - 1 - col; g > 1 && g < 12 && bytes.IndexByte(d.Bytes[d.Lines[last.Line-1]:at], '-') >= 0 {
			gap = g
		}
	}
	return braces, gap
}

// leastComment is how many spaces must stand before a comment below the last
// entry for it to belong to the list or group at col, not to what follows.
func (d *source) leastComment(p led, col int) int {
	if parent := p.parent(); parent != nil {
		return max(col, d.startColumn(parent)+1)
	}
	return max(col, 1)
}

// gapsBefore reports whether the last of the nodes stands apart from the one
// before it by an empty line.
func (d *source) gapsBefore(nodes []*yaml.Node) bool {
	if len(nodes) < 2 {
		return false
	}
	before, err := d.end(nodes[len(nodes)-2])
	at := d.Offset(nodes[len(nodes)-1])
	return err == nil && at > before && d.hasEmptyLine(span{From: before, To: at})
}

func (d *source) hasEmptyLine(s span) bool {
	for at := d.NextLine(s.From); at < s.To; at = d.NextLine(at) {
		if len(bytes.TrimSpace(d.Bytes[at:d.RestOfLine(at)])) == 0 {
			return true
		}
		if d.NextLine(at) == at {
			break
		}
	}
	return false
}

// addLines adds whole lines below what ends at an offset: below the comments
// that belong to it where that reads as wished, with an empty line before
// them where such is the habit.
func (d *source) addLines(w wish, end, least int, apart bool, lines func(h hand) string) ([]byte, error) {
	below := func(at int, apart bool) func(h hand) (edit, error) {
		return func(h hand) (edit, error) {
			s := lines(h) + h.lineEnd
			if apart {
				s = h.lineEnd + s
			}
			return edit{insert(at, s)}, nil
		}
	}
	rest := d.skipLine(end)
	if rest < 0 {
		return nil, lost(w.node)
	}
	after := d.ownComments(rest, least)
	return d.try(w, end, below(after, apart), below(after, false), below(rest, false))
}

// skipLine is where the next line begins, -1 where more than a comment stands
// on this one.
func (d *source) skipLine(at int) int {
	line := bytes.TrimLeft(d.Bytes[at:d.RestOfLine(at)], " \t")
	if len(line) > 0 && line[0] != '#' {
		return -1
	}
	return d.NextLine(at)
}

// ownComments goes past comment lines with at least so many spaces before them.
func (d *source) ownComments(at, least int) int {
	for at < len(d.Bytes) {
		line := d.Bytes[at:d.RestOfLine(at)]
		body := bytes.TrimLeft(line, " ")
		if len(body) == 0 || body[0] != '#' || len(line)-len(body) < least {
			break
		}
		at = d.NextLine(at)
	}
	return at
}

// addFlow adds an entry within brackets.
func (d *source) addFlow(w wish, n *yaml.Node, entry func(h hand) string) ([]byte, error) {
	f, err := d.flow(n)
	if err != nil {
		return nil, err
	}
	inside := d.Bytes[f.Open+1 : f.Close]
	return d.try(w, f.Close, func(h hand) (edit, error) {
		s := entry(h)
		switch {
		case f.First < 0 && len(bytes.Trim(inside, " ")) == 0:
			return edit{insert(f.Close, s+string(inside))}, nil
		case f.First < 0:
			return edit{insert(f.Close, s)}, nil
		case d.ownLines(f):
			return d.flowLine(f, s, h), nil
		case f.Comma >= 0:
			return edit{insert(f.Comma+1, " "+s+",")}, nil
		}
		return edit{insert(f.Last, d.comma(f)+" "+s)}, nil
	}, func(h hand) (edit, error) {
		if f.First < 0 || f.Comma >= 0 {
			return nil, nil
		}
		return edit{insert(f.Last, d.comma(f)+" "+entry(h))}, nil
	})
}

// ownLines reports whether the last entry in brackets begins its line and the
// closing bracket is on a later one.
func (d *source) ownLines(f flow) bool {
	before := d.Bytes[d.Lines[d.LineOf(f.First)-1]:f.First]
	return len(bytes.TrimSpace(before)) == 0 && d.LineOf(f.Close) > d.LineOf(f.Last)
}

// comma is what goes behind the last entry in brackets: directly behind the
// colon of a name without a value it would become part of the name.
func (d *source) comma(f flow) string {
	if b := d.Bytes[f.Last-1]; b == ':' || b == '?' {
		return " ,"
	}
	return ","
}

// flowLine adds an entry on a line of its own within brackets.
func (d *source) flowLine(f flow, s string, h hand) edit {
	s = h.lineEnd + string(d.Bytes[d.Lines[d.LineOf(f.First)-1]:f.First]) + s
	if f.Comma >= 0 {
		return edit{insert(d.RestOfLine(f.Comma), s+",")}
	}
	return edit{insert(f.Last, d.comma(f)), insert(d.RestOfLine(f.Last), s)}
}

// addPair adds the named value that a group holds to the group at p.
func (d *source) addPair(p led, v Value) ([]byte, error) {
	n, f := p.node, v.fields[0]
	if n.Kind != yaml.MappingNode {
		return nil, refuse(n.Line, "", say.Of("amend.cannot-be-started-in", f.Name, shapeOf(n)))
	}
	w := grown(n, func(added []*yaml.Node) bool {
		return Words(f.Name).isFresh(added[0]) && f.Value.isFresh(added[1])
	}, 2)
	if isFlow(n) {
		return d.addFlow(w, n, func(h hand) string { return h.flowPair(f) })
	}
	col := d.startColumn(n)
	lines := func(h hand) string { return pad(col) + h.pair(f, col) }
	if n == d.root {
		return d.addAtEnd(w, lines, f.Value.kind == list || f.Value.kind == group)
	}
	at, err := d.end(n)
	if err != nil {
		return nil, err
	}
	return d.addLines(w, at, d.leastComment(p, col), false, lines)
}

// addAtEnd adds lines at the end of the record, before the line that ends the
// document where there is one. A long part stands apart as its neighbours do.
func (d *source) addAtEnd(w wish, lines func(h hand) string, long bool) ([]byte, error) {
	at := len(d.Bytes)
	for _, l := range d.Lines {
		line := string(d.Bytes[l:d.RestOfLine(l)])
		if strings.HasPrefix(line, "...") && strings.TrimSpace(strings.SplitN(line[3:], "#", 2)[0]) == "" {
			at = l
		}
	}
	names := make([]*yaml.Node, 0, len(w.node.Content)/2)
	for i := 0; i < len(w.node.Content); i += 2 {
		names = append(names, w.node.Content[i])
	}
	apart := false
	for i := 1; long && i < len(names); i++ {
		from, err := d.end(w.node.Content[2*i-1])
		apart = apart || err == nil && d.hasEmptyLine(span{From: from, To: max(from, d.Offset(names[i]))})
	}
	here := func(apart bool) func(h hand) (edit, error) {
		return func(h hand) (edit, error) {
			s := lines(h) + h.lineEnd
			if apart && !strings.HasSuffix(string(d.Bytes[:at]), h.lineEnd+h.lineEnd) {
				s = h.lineEnd + s
			}
			return edit{insert(at, s)}, nil
		}
	}
	return d.try(w, max(at-1, 0), here(apart), here(false))
}

// beginList turns [] into a list with one entry: line by line where it can.
func (d *source) beginList(p led, entry Value) ([]byte, error) {
	n := p.node
	f, err := d.flow(n)
	if err != nil {
		return nil, err
	}
	inside := d.Bytes[f.Open+1 : f.Close]
	parent := p.parent()
	if p.inFlow() || parent == nil || parent.Kind != yaml.MappingNode || n.Tag != "!!seq" || n.Style&yaml.TaggedStyle != 0 || len(bytes.Trim(inside, " ")) > 0 {
		return d.firstInBrackets(n, entry)
	}
	w := become(n, List(entry))
	out, err := d.replace(w, p, span{From: f.Open, To: f.Close + 1}, List(entry))
	if err != nil {
		return d.firstInBrackets(n, entry)
	}
	return out, nil
}

// firstInBrackets adds the first entry within the brackets of an empty list.
func (d *source) firstInBrackets(n *yaml.Node, entry Value) ([]byte, error) {
	w := grown(n, func(added []*yaml.Node) bool { return entry.isFresh(added[0]) }, 1)
	return d.addFlow(w, n, func(h hand) string { return h.flow(entry, true) })
}
