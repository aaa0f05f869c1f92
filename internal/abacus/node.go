package abacus

import (
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// A node is a place in a YAML file; the zero node is one that is not there.
type node struct{ n *yaml.Node }

func readYAML(name, text string) node {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		giveUp("%s: %v", name, err)
	}
	if len(doc.Content) == 0 {
		return node{}
	}
	return node{doc.Content[0]}
}

func (v node) there() bool { return v.n != nil && v.n.Tag != "!!null" }
func (v node) isMap() bool { return v.n != nil && v.n.Kind == yaml.MappingNode }
func (v node) isList() bool {
	return v.n != nil && v.n.Kind == yaml.SequenceNode
}

// get is what stands beside a word of a group.
func (v node) get(word string) node {
	if !v.isMap() {
		return node{}
	}
	for i := 0; i+1 < len(v.n.Content); i += 2 {
		if v.n.Content[i].Value == word {
			return node{v.n.Content[i+1]}
		}
	}
	return node{}
}

// words are the words of a group, in their order.
func (v node) words() []string {
	var out []string
	if v.isMap() {
		for i := 0; i+1 < len(v.n.Content); i += 2 {
			out = append(out, v.n.Content[i].Value)
		}
	}
	return out
}

// list is the entries of a list; a single value is a list of one.
func (v node) list() []node {
	if !v.there() {
		return nil
	}
	if !v.isList() {
		return []node{v}
	}
	out := make([]node, len(v.n.Content))
	for i, c := range v.n.Content {
		out[i] = node{c}
	}
	return out
}

func (v node) text() string {
	if v.n == nil {
		return ""
	}
	return strings.TrimSpace(v.n.Value)
}

// A named thing is what stands behind a name.
type named struct {
	name string
	node
}

// named are the things that stand behind their names, in order; behind one name
// may stand a list of them.
func (v node) named() []named {
	var out []named
	for _, name := range v.words() {
		if inner := v.get(name); inner.isList() {
			for _, one := range inner.list() {
				out = append(out, named{name, one})
			}
		} else {
			out = append(out, named{name, inner})
		}
	}
	return out
}

// of is what stands beside a word of a group, or the value that stands in place
// of the group.
func (v node) of(word string) node {
	if v.isMap() {
		return v.get(word)
	}
	return v
}

// texts is a list of texts.
func (v node) texts() []string {
	var out []string
	for _, c := range v.list() {
		out = append(out, c.text())
	}
	return out
}

func (v node) yes() bool { return v.text() == "true" }

// number is a plain number, or a fraction ("1 1/4").
func (v node) number() float64 {
	f, ok := mixed(strings.TrimSuffix(v.text(), "%"))
	if !ok {
		giveUp("%q is no number", v.text())
	}
	return f
}

// mixed reads "12", "0.75", "3/4" and "1 1/4".
func mixed(text string) (float64, bool) {
	sum, sign := 0.0, 1.0
	text = strings.TrimSpace(text)
	if rest, negative := strings.CutPrefix(text, "-"); negative {
		sign, text = -1, rest
	}
	parts := strings.Fields(text)
	for _, part := range parts {
		above, below, fraction := strings.Cut(part, "/")
		a, err := strconv.ParseFloat(above, 64)
		if err != nil {
			return 0, false
		}
		if fraction {
			b, err := strconv.ParseFloat(below, 64)
			if err != nil || b == 0 {
				return 0, false
			}
			a /= b
		}
		sum += a
	}
	return sign * sum, len(parts) > 0
}
