package record

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// leastWord is how many characters a private value must have to be looked for
// in what is shown: a shorter one, as 7, stands anywhere by chance.
const leastWord = 4

// proves reads the shown text again: it must be one document that holds the
// record less the private parts, and outside its keys and values, in remarks,
// anchors and tags, no private value may stand.
func (c *scissors) proves(shown []byte, how omission, root *yaml.Node, words []string) bool {
	again, ok := readOne(shown)
	if !ok || !c.sameBut(root, again, how) {
		return false
	}
	left, ok := takeApart(shown, again, nil)
	if !ok {
		return false
	}
	at := 0
	for _, word := range left.words {
		if holdsAny(shown[at:word.From], words) {
			return false
		}
		at = word.To
	}
	return !holdsAny(shown[at:], words)
}

// readOne reads a text of one document. A slip of the YAML library on a strange
// text must not end the program.
func readOne(text []byte) (root *yaml.Node, ok bool) {
	defer func() {
		if recover() != nil {
			root, ok = nil, false
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(text))
	var doc, more yaml.Node
	if dec.Decode(&doc) != nil || len(doc.Content) == 0 || !errors.Is(dec.Decode(&more), io.EOF) {
		return nil, false
	}
	return doc.Content[0], true
}

// sameBut reports whether two trees hold the same, the private parts apart:
// these are not there, or a word stands for them.
func (c *scissors) sameBut(was, now *yaml.Node, how omission) bool {
	if was.Kind != now.Kind || was.Value != now.Value || was.ShortTag() != now.ShortTag() || was.Anchor != now.Anchor {
		return false
	}
	rest := now.Content
	take := func() (n *yaml.Node) {
		if len(rest) > 0 {
			n, rest = rest[0], rest[1:]
		}
		return n
	}
	for i, each := range was.Content {
		if was.Kind == yaml.MappingNode {
			private := was.Content[i|1]
			switch hidden := c.hidden[private]; {
			case hidden && c.dropped[private] && !how.inPlace:
				continue
			case hidden && i%2 == 1:
				if n := take(); n == nil || n.Kind != yaml.ScalarNode || n.Value != placeholder || n.Anchor != "" || n.Style != 0 {
					return false
				}
				continue
			}
		}
		if n := take(); n == nil || !c.sameBut(each, n, how) {
			return false
		}
	}
	return len(rest) == 0
}

// privateWords are the private values as they are looked for in what is left,
// longest first: whole, line by line, and their numbers.
func privateWords(hides []*yaml.Node) []string {
	var out []string
	add := func(s string) {
		if s = plain(s); utf8.RuneCountInString(s) >= leastWord {
			out = append(out, s)
		}
	}
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		switch n.Kind {
		case yaml.ScalarNode:
			add(n.Value)
			for line := range strings.Lines(n.Value) {
				add(line)
			}
			for _, field := range strings.Fields(n.Value) {
				if strings.ContainsFunc(field, unicode.IsDigit) {
					add(field)
				}
			}
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				if k := n.Content[i]; k.Kind != yaml.ScalarNode || !isSmallWord(k.Value) {
					walk(k)
				}
				walk(n.Content[i+1])
			}
		default:
			for _, each := range n.Content {
				walk(each)
			}
		}
	}
	for _, n := range hides {
		walk(n)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// isSmallWord reports whether a key is one word in small letters, such as the
// words that records know.
func isSmallWord(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsLower(r) && r != '-' })
}

// plain is a text in small letters with single spaces.
func plain(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// holdsAny reports whether one of the words stands in a text.
func holdsAny(text []byte, words []string) bool {
	if len(bytes.TrimSpace(text)) < leastWord {
		return false
	}
	s := plain(string(text))
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(s, w) })
}
