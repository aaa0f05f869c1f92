// Package amend changes a record where it stands: it adds an entry to a list
// or sets one value, and leaves every other byte as the maker wrote it.
//
// It promises three things. Comments, order, quoting, spacing and line ends of
// everything that is not touched stay byte for byte. Each changed text is read
// again and compared, as a tree, with what was meant; where the two differ the
// record stays unchanged and the error says why. And a [File] is replaced
// whole or not at all, by one writer at a time, without losing what an editor
// that knows nothing of locks has saved meanwhile.
//
// The price: a text is read twice for each change, about a millisecond for a
// usual record. The package knows YAML alone, not what the words of a record
// mean, so a record with faults can still be added to. It removes nothing and
// replaces no list and no group.
package amend

import (
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A Path leads to one part of a record: names of groups, numbers of list
// entries. Make one with [At].
type Path struct{ steps []hop }

// A hop is a name, or the number of a list entry.
type hop struct {
	name  string
	index int
	entry bool
}

// At is the path through groups by their names: At("measured", "waist").
func At(names ...string) Path {
	var p Path
	for _, n := range names {
		p = p.Key(n)
	}
	return p
}

// Key goes on to a named value of the group at p.
func (p Path) Key(name string) Path { return p.with(hop{name: name}) }

// Item goes on to an entry of the list at p, counted from 0; -1 is the last.
func (p Path) Item(index int) Path { return p.with(hop{index: index, entry: true}) }

func (p Path) with(s hop) Path {
	return Path{append(p.steps[:len(p.steps):len(p.steps)], s)}
}

// String prints the path for people, entries counted from 1: "journal, entry 3, for".
func (p Path) String() string {
	words := make([]string, len(p.steps))
	for i, s := range p.steps {
		switch {
		case !s.entry:
			words[i] = s.name
		case s.index == -1:
			words[i] = say.Of("amend.last-entry")
		case s.index < 0:
			words[i] = say.Of("amend.entry-from-the-end", strconv.Itoa(-s.index))
		default:
			words[i] = say.Of("amend.entry", strconv.Itoa(s.index+1))
		}
	}
	return strings.Join(words, ", ")
}

// refuse says why a record is left as it was, as a [fault.List] of one. The line
// counts from 1 and is 0 where no line is to blame; the hint may be empty.
func refuse(line int, hint, message string) error {
	return fault.List{fault.Wrong(fault.Pos{Line: int32(line)}, hint, message)}
}

// Append returns the text with entry added at the end of the list, in the
// list's own style. A list that is empty or missing is begun; a missing one at
// the end of the group it belongs to. The text given is not altered.
func Append(text []byte, list Path, entry Value) ([]byte, error) {
	if err := entry.check(); err != nil {
		return nil, err
	}
	d, place, err := open(text, list)
	if err != nil {
		return nil, err
	}
	switch n := place.node; {
	case len(place.rest) > 0:
		return d.begin(place, List(entry))
	case isEmpty(n):
		return d.fill(place, List(entry))
	case n.Kind != yaml.SequenceNode:
		return nil, refuse(n.Line, say.Of("amend.only-a-list-can-be-added-to"), say.Of("amend.is-not-a-list", list, shapeOf(n)))
	case len(n.Content) == 0:
		return d.beginList(place, entry)
	default:
		return d.addItem(place, entry)
	}
}

// Insert is [Append] before the entry of that number, counted from 0, of a list that has
// so many: on a line of its own below the entry before it, or above the first. A list in
// brackets is added to at its end.
func Insert(text []byte, list Path, before int, entry Value) ([]byte, error) {
	if err := entry.check(); err != nil {
		return nil, err
	}
	d, place, err := open(text, list)
	if err != nil {
		return nil, err
	}
	n := place.node
	if len(place.rest) > 0 || n.Kind != yaml.SequenceNode || isFlow(n) || before < 0 || before >= len(n.Content) {
		return Append(text, list, entry)
	}
	return d.insertItem(place, before, entry)
}

// Set returns the text with the value at the path written anew, or added at
// the end of its group where it is missing; groups on the way are begun as
// needed, list entries are not. A list or group that exists is not replaced.
// The text given is not altered.
func Set(text []byte, at Path, value Value) ([]byte, error) {
	if err := value.check(); err != nil {
		return nil, err
	}
	d, place, err := open(text, at)
	if err != nil {
		return nil, err
	}
	switch n := place.node; {
	case len(place.rest) > 0:
		return d.begin(place, value)
	case n.Kind == yaml.AliasNode && n.Alias.Kind != yaml.ScalarNode, n.Kind == yaml.MappingNode, n.Kind == yaml.SequenceNode:
		return nil, refuse(n.Line, say.Of("amend.only-a-single-value-can-be-set"), say.Of("amend.is", at, shapeOf(n)))
	case value.is(n):
		return append([]byte(nil), text...), nil
	default:
		return d.fill(place, value)
	}
}

// begin writes a value whose name is missing, with the groups around it that
// are missing too.
func (d *source) begin(p led, v Value) ([]byte, error) {
	for i := len(p.rest) - 1; i >= 0; i-- {
		v = Group(Field{p.rest[i].name, v})
	}
	if err := v.check(); err != nil {
		return nil, err
	}
	if isEmpty(p.node) {
		return d.fill(p, v)
	}
	return d.addPair(p, v)
}

// isEmpty reports whether a name stands there without a value.
func isEmpty(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" }

// shapeOf names what a node is, in the maker's words.
func shapeOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.AliasNode:
		return "*" + n.Value
	case n.Kind == yaml.SequenceNode:
		return say.Of("amend.a-list")
	case n.Kind == yaml.MappingNode:
		return say.Of("amend.words-with-values")
	case isEmpty(n):
		return "empty"
	}
	return say.Of("amend.a-single-value")
}
