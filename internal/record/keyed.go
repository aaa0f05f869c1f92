package record

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// keyedKind reads things written by name: a mapping whose keys become the name
// of each, in the order written. The name is the field with the tag
// `yaml:",key"`; its further tags say
//
//	many    what several of them are called, for messages
//	by      what they are written by; "name" unless said
//	eg      a name, for the answer to a value that has none
//	was     the word that held the name when they stood in a list
//	several that one name may have a list of them, as an edge its darts
//	empty   that the name alone says enough
type keyedKind struct {
	elem reflect.Type
	key  keyPlan
}

// A keyPlan is what the tags of the name say.
type keyPlan struct {
	index          int
	many, by, was  string
	eg             string
	several, empty bool
}

// keyField finds the field that takes the name; false where there is none.
func keyField(t reflect.Type) (keyPlan, bool) {
	if t.Kind() != reflect.Struct {
		return keyPlan{}, false
	}
	for i := range t.NumField() {
		tag := t.Field(i).Tag
		if tag.Get("yaml") != ",key" {
			continue
		}
		k := keyPlan{i, tag.Get("many"), tag.Get("by"), tag.Get("was"), tag.Get("eg"), tag.Get("several") == "yes", tag.Get("empty") == "yes"}
		if k.by == "" {
			k.by = "name"
		}
		return k, true
	}
	return keyPlan{}, false
}

func (k *keyedKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	at := d.pos(n)
	n = d.resolve(n)
	if n == nil {
		return
	}
	switch n.Kind {
	case yaml.MappingNode:
		d.several = k.key.several
		pairs := d.pairsOnce(n, k.twice)
		d.several = false
		d.doubled = d.doubled || k.elem == reflect.TypeFor[Piece]() && len(pairs) < len(n.Content)/2
		k.fill(d, pairs, into, lim)
	case yaml.SequenceNode:
		k.readList(d, n, at, into, lim)
	default:
		hint := say.Of("record.put-a-colon-after-the-name-and")
		if k.key.eg != "" && n.Kind == yaml.ScalarNode {
			hint = say.Of("record.write-before-it-as", k.key.by, k.key.eg, n.Value)
		}
		d.faults.Wrong(at, hint, say.Of("record.are-written-by-this-is", k.key.many, k.key.by, shapeOf(n)))
	}
}

// twice answers a name that stands there a second time.
func (k *keyedKind) twice(_ string, first fault.Pos) string {
	if k.key.several {
		return say.Of("record.the-first-one-is-on-line-write", first.Line)
	}
	return say.Of("record.the-first-one-is-on-line-give", first.Line)
}

// readList answers a list, in which things of this kind stood once. They are
// read all the same, so that what else is wrong is told with it.
func (k *keyedKind) readList(d *decoder, n *yaml.Node, at fault.Pos, into reflect.Value, lim limits) {
	if k.byKeys(d, n, at) {
		return
	}
	var pairs []pair
	for _, item := range n.Content {
		if name, rest, ok := k.outOfList(d, item); ok {
			pairs = append(pairs, pair{name, rest})
		}
	}
	how := fmt.Sprintf("%q", "name:")
	if len(pairs) > 0 {
		how = fmt.Sprintf("%q", fault.Shorten(pairs[0].key.V)+":")
	}
	hint := say.Of("record.write-each-by-its-name-and-its")
	if k.elem == reflect.TypeFor[EdgeLine]() {
		hint = say.Of("record.as-from-0-0-hem-240-0")
	}
	f := d.faults.Wrong(at, hint, say.Of("record.are-written-by-instead-of", k.key.many, k.key.by, how, k.key.was, how[1:len(how)-2]+`"`))
	f.Correct = k.byName(d, n)
	k.fill(d, pairs, into, lim)
}

// byName proposes to write the entries of a list by their names; nothing where one has
// no name at its beginning, or two have the same.
func (k *keyedKind) byName(d *decoder, list *yaml.Node) []fault.Correction {
	seen := map[string]bool{}
	var out fault.Fault
	var named []string
	for _, item := range list.Content {
		if k.elem == reflect.TypeFor[EdgeLine]() || item.Kind != yaml.MappingNode || len(item.Content) < 4 || item.Content[0].Value != k.key.was && item.Content[0].Value != "dart" {
			return nil
		}
		word, name := item.Content[0].Value, item.Content[1].Value
		now := name
		if word == "dart" {
			now += say.Of("record.dart")
		}
		if seen[now] {
			return nil
		}
		seen[now] = true
		rest := &yaml.Node{Kind: yaml.MappingNode, Content: item.Content[2:]}
		named = append(named, now+": "+inBraces(rest))
		old, now := "- "+word+": "+name, now+":"
		if item.Style&yaml.FlowStyle != 0 {
			old, now = "- {"+word+": "+name+", ", now+" {"
		}
		dash := d.pos(item)
		dash.Column = int32(list.Column)
		out.InsteadAt(dash, old, now)
	}
	if list.Style&yaml.FlowStyle != 0 {
		out.Correct = nil
		out.InsteadAt(d.pos(list), "", "{"+strings.Join(named, ", ")+"}")
	}
	return out.Correct
}

// inBraces writes a value on one line.
func inBraces(n *yaml.Node) string {
	parts := make([]string, 0, len(n.Content))
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			parts = append(parts, inBraces(n.Content[i])+": "+inBraces(n.Content[i+1]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case yaml.SequenceNode:
		for _, c := range n.Content {
			parts = append(parts, inBraces(c))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case yaml.AliasNode:
		return "*" + n.Value
	}
	if n.Style == 0 {
		return n.Value
	}
	return strconv.Quote(n.Value)
}

// outOfList takes the name out of an entry of a list.
func (k *keyedKind) outOfList(d *decoder, item *yaml.Node) (name Text, rest *yaml.Node, ok bool) {
	at := d.pos(item)
	if item = d.resolve(item); item == nil {
		return Text{}, nil, false
	}
	rest = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: item.Line, Column: item.Column}
	switch {
	case item.Kind == yaml.ScalarNode && !isNull(item):
		return Text{item.Value, at}, rest, true
	case item.Kind != yaml.MappingNode:
		return Text{}, nil, false
	}
	for i := 0; i+1 < len(item.Content); i += 2 {
		switch key, v := item.Content[i], item.Content[i+1]; {
		case key.Value == k.key.was && v.Kind == yaml.ScalarNode:
			name, ok = Text{v.Value, d.pos(v)}, true
		case key.Value == "dart" && k.elem == reflect.TypeFor[Change]() && v.Kind == yaml.ScalarNode:
			name, ok = Text{say.Of("record.dart-3", v.Value), d.pos(v)}, true
		default:
			rest.Content = append(rest.Content, key, v)
		}
	}
	return name, rest, ok
}

func (k *keyedKind) fill(d *decoder, pairs []pair, into reflect.Value, _ limits) {
	list := reflect.MakeSlice(into.Type(), 0, len(pairs))
	for _, p := range pairs {
		v := p.value
		for v.Kind == yaml.AliasNode && v.Alias != nil {
			v = v.Alias
		}
		if !k.key.several || v.Kind != yaml.SequenceNode {
			list = reflect.Append(list, k.readOne(d, p.key, p.value, p.key.At))
			continue
		}
		if v = d.resolve(p.value); v == nil {
			continue
		}
		if k.manyMeant(d, p.key, v) {
			continue
		}
		for _, item := range v.Content {
			list = reflect.Append(list, k.readOne(d, p.key, item, d.pos(item)))
		}
	}
	into.Set(list)
}

// readOne reads what is said of one thing; at is where it is said to stand.
func (k *keyedKind) readOne(d *decoder, name Text, n *yaml.Node, at fault.Pos) reflect.Value {
	v := reflect.New(k.elem).Elem()
	v.Field(k.key.index).Set(reflect.ValueOf(name))
	group := kindOf(k.elem).(*structKind)
	before := d.faults.Len()
	defer func() {
		if f, ok := v.Addr().Interface().(faultable); ok && d.faults.Len() > before {
			f.faulty()
		}
	}()
	switch {
	case !isNull(n):
		group.readAt(d, n, v, at)
	case k.key.empty:
		group.place(v, at)
	case d.hashed(pair{name, n}):
	default:
		d.faults.Wrong(d.pos(n), say.Of("record.write-what-it-is-after-the-colon"), say.Of("record.has-no-value", say.Quoted(fault.Shorten(name.V)))).Without(name.At)
	}
	return v
}

// A faultable thing wants to know that it could not be read whole.
type faultable interface{ faulty() }

func (k *keyedKind) schema(s *schemaWriter, lim limits) map[string]any {
	return map[string]any{"type": "object", "additionalProperties": k.one(s, lim)}
}

func (k *keyedKind) one(s *schemaWriter, lim limits) map[string]any {
	one := s.of(k.elem, lim)
	either := []any{one}
	if k.key.several {
		either = append(either, map[string]any{"type": "array", "items": one})
	}
	if k.key.empty {
		either = append(either, map[string]any{"type": "null"})
	}
	if len(either) == 1 {
		return one
	}
	return map[string]any{"anyOf": either}
}
