package amend

import (
	"bytes"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/record/extent"
	"hembook/internal/say"
)

// Correct returns the text with what a fault proposes written into it, all of it or
// nothing. The places of the proposals are those of the text given.
func Correct(text []byte, proposals []fault.Correction) ([]byte, error) {
	// From the last to the first, so that the places before stay where they are.
	sorted := slices.Clone(proposals)
	slices.SortStableFunc(sorted, func(a, b fault.Correction) int {
		return fault.ComparePos(b.At, a.At)
	})
	for _, c := range sorted {
		var err error
		if text, err = correctOne(text, c); err != nil {
			return nil, err
		}
	}
	return text, nil
}

func correctOne(text []byte, c fault.Correction) ([]byte, error) {
	if c.Way == fault.Replace && c.Old != "" {
		return otherWords(text, c)
	}
	d, err := parse(text)
	if err != nil {
		return nil, err
	}
	d.given = text
	here := yaml.Node{Line: int(c.At.Line), Column: int(c.At.Column)}
	var p edit
	switch c.Way {
	case fault.Remove:
		p, err = d.withoutWord(&here)
	case fault.Set:
		return d.setWord(&here, c)
	default:
		p, err = d.otherValue(&here, c.New)
	}
	if err != nil {
		return nil, err
	}
	return d.read(p)
}

// read is the text after a plan, once it reads.
func (d *source) read(p edit) ([]byte, error) {
	out := p.apply(d.Bytes)
	if _, err := parse(out); err != nil {
		return nil, refuse(1, say.Of("amend.correct-it-by-hand"), say.Of("amend.the-correction-would-not-read", err))
	}
	return out, nil
}

// otherWords puts words in the place of others. The text need be no YAML yet.
func otherWords(text []byte, c fault.Correction) ([]byte, error) {
	d := &source{Text: extent.New(text)}
	at := d.Offset(&yaml.Node{Line: int(c.At.Line), Column: int(c.At.Column)})
	skip := -1
	if at >= 0 {
		skip = bytes.Index(text[at:d.RestOfLine(at)], []byte(c.Old))
	}
	if skip < 0 {
		return nil, refuse(int(c.At.Line), say.Of("amend.correct-it-by-hand"), say.Of("amend.does-not-stand-there-any-more", say.Quoted(fault.Shorten(c.Old))))
	}
	at += skip
	return edit{{span{From: at, To: at + len(c.Old)}, c.New}}.apply(text), nil
}

// otherValue puts a value in the place of the one that begins at a place.
func (d *source) otherValue(here *yaml.Node, now string) (edit, error) {
	_, n := d.nodeAt(here)
	if n == nil {
		return nil, refuse(here.Line, "", say.Of("amend.no-value-stands-there"))
	}
	from, _ := d.Content(n)
	to, err := d.end(n)
	if err != nil {
		return nil, err
	}
	return edit{{span{From: from, To: to}, now}}, nil
}

// A pairAt is one word of a group with its value, and the group.
type pairAt struct {
	group *yaml.Node
	index int // of the word, among the group's nodes
}

func (p pairAt) key() *yaml.Node   { return p.group.Content[p.index] }
func (p pairAt) value() *yaml.Node { return p.group.Content[p.index+1] }

// nodeAt finds the innermost value that begins at a place; where a word does, it is
// the word's value. found is its word in its group, if it has one.
func (d *source) nodeAt(here *yaml.Node) (found *pairAt, n *yaml.Node) {
	stands := func(n *yaml.Node) bool { return n.Line == here.Line && n.Column == here.Column }
	var look func(at *yaml.Node, in *pairAt)
	look = func(at *yaml.Node, in *pairAt) {
		if stands(at) {
			found, n = in, at
		}
		if at.Kind != yaml.MappingNode {
			for _, c := range at.Content {
				look(c, nil)
			}
			return
		}
		for i := 0; i+1 < len(at.Content); i += 2 {
			p := &pairAt{at, i}
			if stands(p.key()) {
				found, n = p, p.value()
				return
			}
			look(p.value(), p)
		}
	}
	look(d.root, nil)
	return found, n
}

// withoutWord takes a word out of its group: its lines, or what stands between its
// commas.
func (d *source) withoutWord(here *yaml.Node) (edit, error) {
	p, _ := d.nodeAt(here)
	if p == nil {
		return nil, refuse(here.Line, say.Of("amend.take-it-out-by-hand"), say.Of("amend.no-word-stands-there"))
	}
	from := d.Offset(p.key())
	to, err := d.end(p.value())
	switch {
	case isEmpty(p.value()) && isFlow(p.group):
		if to, err = d.end(p.key()); err == nil {
			to = d.SkipBlank(d.SkipBlank(to) + len(":"))
		}
	case isEmpty(p.value()):
		to, err = d.RestOfLine(from), nil
	}
	if err != nil {
		return nil, err
	}
	if isFlow(p.group) {
		switch next := d.SkipBlank(to); {
		case d.Bytes[next] == ',':
			to = d.SkipBlank(next + 1)
		case p.index > 0:
			if from, err = d.end(p.group.Content[p.index-1]); err != nil {
				return nil, err
			}
		}
		return edit{{span{From: from, To: to}, ""}}, nil
	}
	if len(p.group.Content) == 2 {
		return nil, refuse(here.Line, say.Of("amend.take-it-out-by-hand"), say.Of("amend.nothing-else-stands-in-its-group"))
	}
	line := d.Lines[p.key().Line-1]
	if strings.TrimSpace(string(d.Bytes[line:from])) != "" { // behind the dash of a list
		next := d.Offset(p.group.Content[2])
		return edit{{span{From: from, To: next}, ""}}, nil
	}
	return edit{{span{From: line, To: d.NextLine(to)}, ""}}, nil
}

// setWord writes a word into a group, over the value it has there.
func (d *source) setWord(here *yaml.Node, c fault.Correction) ([]byte, error) {
	_, n := d.nodeAt(here)
	if n == nil {
		return nil, refuse(here.Line, "", say.Of("amend.no-group-stands-there"))
	}
	word, value, _ := strings.Cut(c.New, ": ")
	for i, name := range c.Within {
		if n.Kind != yaml.MappingNode || !d.has(n, name) {
			word, value = name, "{"+strings.Join(append(slices.Clone(c.Within[i+1:]), c.New), ": {")+strings.Repeat("}", len(c.Within)-i)
			break
		}
		budget := mostValues
		n = follow(lookUp(n, name, &budget))
	}
	switch {
	case n.Kind == yaml.MappingNode && d.has(n, word):
		for i := 0; i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == word {
				from, _ := d.Content(n.Content[i+1])
				to, err := d.end(n.Content[i+1])
				if err != nil {
					return nil, err
				}
				return d.read(edit{{span{From: from, To: to}, value}})
			}
		}
	case n.Kind == yaml.MappingNode && len(n.Content) > 0:
		return d.oneMore(n, word+": "+value)
	case isEmpty(n):
		return d.inEmpty(here, n, "{"+word+": "+value+"}")
	case c.Short != "":
		from, _ := d.Content(n)
		to, err := d.end(n)
		if err != nil {
			return nil, err
		}
		if n.Kind == yaml.SequenceNode && !isFlow(n) {
			break
		}
		return d.read(edit{insert(from, "{"+c.Short+": "), insert(to, ", "+word+": "+value+"}")})
	}
	return nil, refuse(n.Line, say.Of("amend.write-by-hand", word, value), say.Of("amend.cannot-be-added-to", word, shapeOf(n)))
}

// oneMore adds a word with its value behind the last of a group.
func (d *source) oneMore(n *yaml.Node, pair string) ([]byte, error) {
	if isFlow(n) {
		f, err := d.flow(n)
		if err != nil {
			return nil, err
		}
		if f.Comma >= 0 {
			return d.read(edit{insert(f.Comma+1, " "+pair)})
		}
		return d.read(edit{insert(f.Last, d.comma(f)+" "+pair)})
	}
	last, err := d.end(n)
	if err != nil {
		return nil, err
	}
	end := "\n"
	if h := d.hand(last); h.lineEnd != "" {
		end = h.lineEnd
	}
	line := pad(n.Content[0].Column-1) + pair + end
	at := d.NextLine(last)
	if at == len(d.Bytes) && !endsLine(d.Bytes) {
		line = end + strings.TrimSuffix(line, end)
	}
	return d.read(edit{insert(at, line)})
}

// inEmpty writes the value of a word that has none.
func (d *source) inEmpty(here, n *yaml.Node, value string) ([]byte, error) {
	at := d.Offset(n)
	if p, _ := d.nodeAt(here); p != nil && p.value() == n {
		at, _ = d.end(p.key())
		if at < len(d.Bytes) && d.Bytes[at] == ':' {
			at++
		}
	}
	return d.read(edit{insert(at, " "+value)})
}
