package amend

import (
	"fmt"
	"hembook/internal/fault"
	"hembook/internal/say"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// A Value is what is written into a record, or was read from it. Make one with
// [Words], [Figure], [Flag], [List] or [Group].
type Value struct {
	kind   valueKind
	text   string
	items  []Value
	fields []Field
}

type valueKind uint8

const (
	words  valueKind = iota // text, and reads back as text
	bare                    // a number or true or false, as YAML has it
	list                    // several values
	group                   // named values
	silent                  // a name without a value; only read, never written
)

// A Field is one named value of a group.
type Field struct {
	Name  string
	Value Value
}

// Words is text of any kind. It is quoted where YAML would read it otherwise;
// a date stays plain. Line ends become "\n", as in a browser's or a terminal's
// text they may be "\r\n".
func Words(s string) Value {
	return Value{kind: words, text: strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s)}
}

var plainNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,14})(\.[0-9]{1,15})?$`)

// Figure is a number, or a number with its unit or a date, as it was entered:
// "712" is written as a number, "71.2 cm" and "2026-08-05 14:10" as words.
func Figure(s string) Value {
	if s = strings.TrimSpace(s); plainNumber.MatchString(s) {
		return Value{kind: bare, text: s}
	}
	return Words(s)
}

// Flag is true or false.
func Flag(yes bool) Value { return Value{kind: bare, text: fmt.Sprint(yes)} }

// List is several values in order.
func List(items ...Value) Value { return Value{kind: list, items: items} }

// Group is named values in order.
func Group(fields ...Field) Value { return Value{kind: group, fields: fields} }

// Text is the text of a single value; "" of a list or group.
func (v Value) Text() string { return v.text }

// Items are the entries of a list; nil of anything else.
func (v Value) Items() []Value { return v.items }

// Fields are the named values of a group in order; nil of anything else.
func (v Value) Fields() []Field { return v.fields }

// Get returns the named value of a group.
func (v Value) Get(name string) (Value, bool) {
	for _, f := range v.fields {
		if f.Name == name {
			return f.Value, true
		}
	}
	return Value{}, false
}

// check refuses what cannot or should not be written.
func (v Value) check() error {
	switch v.kind {
	case silent:
		return refuse(0, "", say.Of("amend.there-is-nothing-to-write"))
	case words:
		return checkWords(v.text)
	}
	for _, item := range v.items {
		if err := item.check(); err != nil {
			return err
		}
	}
	seen := map[string]bool{}
	for _, f := range v.fields {
		if f.Name == "" || strings.ContainsAny(f.Name, "\n\r") || seen[f.Name] || utf8.RuneCountInString(f.Name) > 120 {
			return refuse(0, say.Of("amend.a-name-is-one-short-line-once"), say.Of("amend.cannot-be-the-name-of-a-value", say.Quoted(fault.Shorten(f.Name))))
		}
		seen[f.Name] = true
		if err := checkWords(f.Name); err != nil {
			return err
		}
		if err := f.Value.check(); err != nil {
			return err
		}
	}
	return nil
}

// checkWords refuses what is not text, and characters that can be neither
// seen nor printed; the reader of records refuses the same ones.
func checkWords(s string) error {
	if !utf8.ValidString(s) {
		return refuse(0, say.Of("amend.is-it-utf-8"), say.Of("amend.is-not-text", say.Quoted(fault.Shorten(s))))
	}
	for _, r := range s {
		if isControl(r) {
			return refuse(0, say.Of("amend.take-it-out-it-cannot-be-seen"), say.Of("amend.the-text-holds-the-control-character", fmt.Sprintf("%U", r)))
		}
	}
	return nil
}

func isControl(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 ||
		r == 0xfeff || r == 0xfffe || r == 0xffff
}

// is reports whether a node of the changed text reads as the value.
func (v Value) is(n *yaml.Node) bool {
	switch v.kind {
	case words:
		return n.Kind == yaml.ScalarNode && n.Value == v.text && (n.ShortTag() == "!!str" || n.Tag == "!!timestamp" && isDate(v.text))
	case bare:
		return n.Kind == yaml.ScalarNode && n.Value == v.text && n.Style == 0 && n.ShortTag() != "!!str"
	case list:
		if n.Kind != yaml.SequenceNode || len(n.Content) != len(v.items) {
			return false
		}
		for i, item := range v.items {
			if !item.isFresh(n.Content[i]) {
				return false
			}
		}
		return true
	case group:
		if n.Kind != yaml.MappingNode || len(n.Content) != 2*len(v.fields) {
			return false
		}
		for i, f := range v.fields {
			if !Words(f.Name).isFresh(n.Content[2*i]) || !f.Value.isFresh(n.Content[2*i+1]) {
				return false
			}
		}
		return true
	}
	return false
}

// isFresh is is, for a node that was not there before.
func (v Value) isFresh(n *yaml.Node) bool { return n.Anchor == "" && v.is(n) }

// isDate reports whether words are a date, or a date and time, as records
// write them. Every reader of YAML leaves such words together.
func isDate(s string) bool {
	for _, layout := range []string{time.DateOnly, "2006-01-02 15:04", "2006-01-02T15:04", time.DateTime} {
		if _, err := time.Parse(layout, s); err == nil {
			return true
		}
	}
	return false
}

// Read returns what stands at the path; false where nothing does. Aliases and
// merged groups are followed, so that it is what a reader of the record sees.
func Read(text []byte, at Path) (Value, bool, error) {
	d, err := parse(text)
	if err != nil {
		return Value{}, false, err
	}
	budget := mostValues
	n := d.root
	for _, s := range at.steps {
		if n = stepInto(follow(n), s, &budget); n == nil {
			return Value{}, false, nil
		}
	}
	v := valueOf(n, &budget)
	if budget < 0 {
		return Value{}, false, refuse(n.Line, say.Of("amend.an-anchor-may-be-unfolding-into-itself"), say.Of("amend.this-record-unfolds-without-end"))
	}
	return v, true, nil
}

// follow resolves an alias.
func follow(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		return n.Alias
	}
	return n
}

// stepInto is the node one step on, or nil.
func stepInto(n *yaml.Node, s hop, budget *int) *yaml.Node {
	if s.entry {
		if i, ok := s.in(n); ok {
			return n.Content[i]
		}
		return nil
	}
	return lookUp(n, s.name, budget)
}

// in is the entry's number within the list.
func (s hop) in(n *yaml.Node) (int, bool) {
	i := s.index
	if i < 0 {
		i += len(n.Content)
	}
	return i, n.Kind == yaml.SequenceNode && i >= 0 && i < len(n.Content)
}

// lookUp finds a name in a group, then in what the group merges.
func lookUp(n *yaml.Node, name string, budget *int) *yaml.Node {
	if *budget--; *budget < 0 || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if k := follow(n.Content[i]); k.Kind == yaml.ScalarNode && k.Value == name && k.Tag != "!!merge" {
			return n.Content[i+1]
		}
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Tag != "!!merge" {
			continue
		}
		from := follow(n.Content[i+1])
		sources := []*yaml.Node{from}
		if from.Kind == yaml.SequenceNode {
			sources = from.Content
		}
		for _, s := range sources {
			if found := lookUp(follow(s), name, budget); found != nil {
				return found
			}
		}
	}
	return nil
}

// valueOf turns a node into a value, within the budget.
func valueOf(n *yaml.Node, budget *int) Value {
	n = follow(n)
	if *budget--; *budget < 0 {
		return Value{kind: silent}
	}
	switch {
	case n.Kind == yaml.SequenceNode:
		v := List()
		for _, c := range n.Content {
			v.items = append(v.items, valueOf(c, budget))
		}
		return v
	case n.Kind == yaml.MappingNode:
		v := Group()
		for i := 0; i+1 < len(n.Content); i += 2 {
			if k := follow(n.Content[i]); k.Kind == yaml.ScalarNode && k.Tag != "!!merge" {
				v.fields = append(v.fields, Field{k.Value, valueOf(n.Content[i+1], budget)})
			}
		}
		return v
	case isEmpty(n):
		return Value{kind: silent}
	case n.ShortTag() == "!!str" || n.Tag == "!!timestamp":
		return Value{kind: words, text: n.Value}
	}
	return Value{kind: bare, text: n.Value}
}
