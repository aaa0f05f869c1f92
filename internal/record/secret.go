package record

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// A Secret is one private value as it stands in a file.
type Secret struct {
	At     fault.Pos
	Name   string         // the word it is the value of: waist
	Text   string         // as it is read
	Lines  []string       // where it runs over lines, each as it stands in the file
	Length measure.Length // what it is as a length, in a wearer's file; 0 where it is none
}

// secrets lists the private values of a file. A value that an alias stands for
// is listed where it is written, if it is private there.
func (d *decoder) secrets(text []byte, parts []*yaml.Node) []Private[Secret] {
	if len(parts) == 0 {
		return nil
	}
	c := &secretCollector{decoder: d, lines: strings.SplitAfter(string(text), "\n")}
	for _, n := range parts {
		c.walk("", n)
	}
	return c.list
}

type secretCollector struct {
	*decoder
	lines []string
	list  []Private[Secret]
	seen  map[*yaml.Node]bool
}

func (c *secretCollector) walk(name string, n *yaml.Node) {
	if c.seen[n] {
		return
	}
	if c.seen == nil {
		c.seen = map[*yaml.Node]bool{}
	}
	c.seen[n] = true
	switch n.Kind {
	case yaml.ScalarNode:
		c.scalar(name, n)
	case yaml.SequenceNode:
		for _, each := range n.Content {
			c.walk(name, each)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := n.Content[i]
			if key.Kind == yaml.ScalarNode && strings.ContainsFunc(key.Value, isTelling) {
				c.scalar("", key)
			}
			c.walk(key.Value, n.Content[i+1])
		}
	}
}

// isTelling tells a name of the maker's own, which has a capital or a digit,
// from the words that records know.
func isTelling(r rune) bool { return r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r > 0x7f }

func (c *secretCollector) scalar(name string, n *yaml.Node) {
	if isNull(n) || strings.TrimSpace(n.Value) == "" {
		return
	}
	s := Secret{At: belowMark(n, c.pos(n)), Name: name, Text: n.Value}
	if strings.Contains(strings.TrimSpace(n.Value), "\n") {
		for line := range strings.Lines(n.Value) {
			s.Lines = append(s.Lines, line)
		}
	} else if words := strings.Fields(n.Value); n.Line >= 1 && n.Line <= len(c.lines) && len(words) > 1 && !strings.Contains(c.lines[n.Line-1], words[len(words)-1]) {
		s.Lines = c.folded(n, words)
	}
	if c.lengths {
		if l, err := measure.ParseLength(n.Value, c.bare); err == nil {
			s.Length = l
		}
	}
	c.list = append(c.list, Keep(s))
}

// folded are the lines of a text that was folded when it was read, without
// what stands around it.
func (c *secretCollector) folded(n *yaml.Node, words []string) (out []string) {
	for line := n.Line; line <= len(c.lines) && len(words) > 0; line++ {
		var here []string
		for _, w := range strings.Fields(c.lines[line-1]) {
			if len(words) > 0 && strings.Contains(w, words[0]) {
				here, words = append(here, words[0]), words[1:]
			}
		}
		if len(here) > 0 {
			out = append(out, strings.Join(here, " "))
		}
	}
	return out
}

// Secrets are the private values of the workroom, the builds apart: those come
// with each build as it is read.
func (r *Room) Secrets() []Private[Secret] { return slices.Clip(r.secrets) }

// PublicWords calls say with everything of the workroom that may be shown
// anywhere: each value that is not private, with its name before it, and the
// texts beside the records. Remarks are not among it. All is read again, so it
// is for the rare case that somebody asks.
func (r *Room) PublicWords(say func(words string)) {
	tell := func(path string, v any) {
		var faults fault.Faults
		if node, _, d := r.decodeFile(&fault.Source{Path: path}, v, &faults); node != nil {
			d.publicWords(node, say)
		}
	}
	tell("content/workroom.yaml", &Workroom{})
	for _, c := range r.Cloths {
		tell(c.At.File(), &Cloth{})
	}
	for _, t := range r.Techniques {
		r.tellText(t.At, say)
	}
	for _, p := range r.Pages {
		r.tellText(p.At, say)
	}
	for _, b := range r.Builds {
		tell(b.Path, &Build{})
		var faults fault.Faults
		if text, ok := readFile(r.FS, &fault.Source{Path: strings.TrimSuffix(b.Path, "build.yaml") + "notes.md"}, mostRecord, &faults); ok {
			say(string(text))
		}
	}
}

// tellText says all of a Markdown file, its header too.
func (r *Room) tellText(at fault.Pos, say func(words string)) {
	var faults fault.Faults
	if text, ok := readFile(r.FS, &fault.Source{Path: at.File()}, mostRecord, &faults); ok {
		say(string(text))
	}
}

func (d *decoder) publicWords(root *yaml.Node, say func(words string)) {
	hidden := map[*yaml.Node]bool{}
	for _, n := range d.hides {
		hidden[n] = true
	}
	var walk func(name string, n *yaml.Node)
	walk = func(name string, n *yaml.Node) {
		if hidden[n] {
			return
		}
		if n.Kind == yaml.ScalarNode {
			say(name + " " + n.Value)
		}
		for i, each := range n.Content {
			if n.Kind == yaml.MappingNode {
				if i%2 == 0 {
					continue
				}
				name = n.Content[i-1].Value
			}
			walk(name, each)
		}
	}
	walk("", root)
}
