package record

import (
	"fmt"
	"reflect"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// nodeBudget bounds how many nodes one file may hold, aliases counted each
// time they are used. It is what stops a file that unfolds without end.
const nodeBudget = 200_000

// A decoder fills typed values from the nodes of one file.
type decoder struct {
	src    *fault.Source
	shift  int32 // lines before the YAML begins, for a header inside another file
	faults *fault.Faults
	bare   measure.Unit        // what a bare length is in
	left   int                 // nodes that may still be read
	hidden int                 // how many private parts we are inside of
	secret map[*yaml.Node]bool // anchored nodes of private parts
	hides  []*yaml.Node        // the private parts themselves

	text  []byte      // the file as it was read, without what stands before it
	root  *yaml.Node  // all of it
	named [][2]string // its pieces and their edges, once somebody asked

	several bool   // a name of the group at hand may have a list of values
	doubled bool   // the name of a piece is written twice
	inches  []Text // lengths with an inch mark in a metric record, as they are written
	much    []much // lengths far beyond what is usual for their kind

	repeats map[fault.Pos]float64 // lengths that are written in repeats of a cloth: how many

	lengths bool // its secrets are lengths where they can be read so
}

func newDecoder(src *fault.Source, bare measure.Unit, faults *fault.Faults) *decoder {
	return &decoder{src: src, faults: faults, bare: bare, left: nodeBudget}
}

// into reads the node into the struct that v points to.
func (d *decoder) into(n *yaml.Node, v any) {
	into := reflect.ValueOf(v).Elem()
	kindOf(into.Type()).read(d, n, into, limits{})
}

func (d *decoder) pos(n *yaml.Node) fault.Pos {
	return fault.Pos{Source: d.src, Line: int32(n.Line) + d.shift, Column: int32(n.Column)}
}

// wordsOf are the words of a group with their places, in their order.
func (d *decoder) wordsOf(group *yaml.Node) []Text {
	var out []Text
	for i := 0; group.Kind == yaml.MappingNode && i+1 < len(group.Content); i += 2 {
		out = append(out, Text{group.Content[i].Value, d.pos(group.Content[i])})
	}
	return out
}

// hide remembers a private part and the anchors in it.
func (d *decoder) hide(n *yaml.Node) {
	d.hides = append(d.hides, n)
	d.hideAnchors(n)
}

func (d *decoder) hideAnchors(n *yaml.Node) {
	if n.Anchor != "" {
		if d.secret == nil {
			d.secret = map[*yaml.Node]bool{}
		}
		d.secret[n] = true
	}
	for _, c := range n.Content {
		d.hideAnchors(c)
	}
}

// resolve follows an alias and spends the budget; nil when nothing is left,
// or when a public word reaches into a private part.
func (d *decoder) resolve(n *yaml.Node) *yaml.Node {
	at := n
	for n.Kind == yaml.AliasNode && n.Alias != nil {
		n = n.Alias
		if d.secret[n] && d.hidden == 0 {
			d.faults.Wrong(d.pos(at), say.Of("record.write-the-value-out-where-it-is"), say.Of("record.was-marked-in-a-private-part-and", at.Value))
			return nil
		}
	}
	if d.left--; d.left < 0 {
		if d.left == -1 {
			d.faults.Wrong(d.pos(n), say.Of("record.an-anchor-may-be-unfolding-into-itself"),
				say.Of("record.this-record-unfolds-into-more-than", nodeBudget))
		}
		return nil
	}
	return n
}

// isNull reports whether the maker wrote a key and no value.
func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// A pair is one entry of a mapping, its key read as text.
type pair struct {
	key   Text
	value *yaml.Node
}

// pairs lists the entries of a mapping in order: keys once, merged mappings
// last and only where the mapping has no such key itself.
func (d *decoder) pairs(n *yaml.Node) []pair {
	return d.pairsOnce(n, func(_ string, first fault.Pos) string {
		return say.Of("record.the-first-one-is-on-line-keep", first.Line)
	})
}

// pairsOnce is pairs with its own answer to a key that is written twice; where it
// has none both are kept, to be told of later.
func (d *decoder) pairsOnce(n *yaml.Node, twice func(key string, first fault.Pos) string) []pair {
	if words := len(n.Content) / 2; words > mostWords {
		d.faults.Wrong(d.pos(n), say.Of("record.leave-out-what-is-not-needed"), say.Of("record.this-group-has-words-and-at-most", words, mostWords))
		return nil
	}
	out := make([]pair, 0, len(n.Content)/2)
	var merged []*yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Tag == "!!merge" {
			merged = append(merged, v)
			continue
		}
		k = d.resolve(k)
		if k == nil {
			return out
		}
		if k.Kind != yaml.ScalarNode {
			d.faults.Wrong(d.pos(k), say.Of("record.write-a-word-a-colon-a-value"), say.Of("record.a-word-is-needed-before-the-colon", shapeOf(k)))
			continue
		}
		key := Text{k.Value, d.pos(k)}
		if first, again := findPair(out, key.V); again {
			if hint := twice(key.V, first.key.At); hint != "" {
				d.faults.Wrong(key.At, hint, say.Of("record.is-written-twice", say.Quoted(fault.Shorten(key.V))))
				continue
			}
		}
		out = append(out, pair{key, v})
	}
	if n.Style&yaml.FlowStyle != 0 {
		out = d.whole(out)
	}
	for _, m := range merged {
		out = d.merge(out, m)
	}
	return out
}

func (d *decoder) merge(out []pair, m *yaml.Node) []pair {
	m = d.resolve(m)
	if m == nil {
		return out
	}
	switch m.Kind {
	case yaml.SequenceNode:
		for _, each := range m.Content {
			out = d.merge(out, each)
		}
	case yaml.MappingNode:
		for _, p := range d.pairs(m) {
			if _, have := findPair(out, p.key.V); !have {
				out = append(out, p)
			}
		}
	default:
		d.faults.Wrong(d.pos(m), "mark that group with &name, and write <<: *name here", say.Of("record.takes-in-the-words-of-a-group", shapeOf(m)))
	}
	return out
}

func findPair(list []pair, key string) (pair, bool) {
	for _, p := range list {
		if p.key.V == key {
			return p, true
		}
	}
	return pair{}, false
}

// shapeOf names what a node is, in the maker's words.
func shapeOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.SequenceNode:
		return say.Of("record.a-list")
	case n.Kind == yaml.MappingNode:
		return say.Of("record.words-with-values")
	case isNull(n):
		return "empty"
	default:
		return fmt.Sprintf("%q", fault.Shorten(n.Value))
	}
}
