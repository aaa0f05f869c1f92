package record

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// A kind knows how one Go type is written in YAML: it reads it, and it
// describes it in the JSON Schema. There is one kind a type, so that reader
// and schema are two faces of the same thing.
type kind interface {
	read(d *decoder, n *yaml.Node, into reflect.Value, lim limits)
	schema(s *schemaWriter, lim limits) map[string]any
}

// limits are what a struct's tags ask of a value.
type limits struct {
	oneOf    []string
	min, max *float64 // in the kind's own base unit: millimetres, percent …
	seldom   *float64 // of a length: beyond this it is asked about, mm
	repeats  bool     // of lengths: they may be written in repeats of the cloth
	names    []string // of a mapping: the names there are; any where there are none
	whole    bool     // of edges: a whole piece may stand there, as a pocket that is set on
}

var kinds sync.Map // reflect.Type → kind

type (
	listMark interface{ oneOrMany() }
	dictMark interface{ named() }
	slotMark interface{ slot() any }
)

func (List[T]) oneOrMany()      {}
func (Dict[T]) named()          {}
func (p *Private[T]) slot() any { return &p.held }

// kindOf returns the kind of a type; it panics for a type that no record may
// hold, which is a mistake of ours and found by the first test.
func kindOf(t reflect.Type) kind {
	if k, ok := kinds.Load(t); ok {
		return k.(kind)
	}
	k := makeKind(t)
	kinds.Store(t, k)
	return k
}

func makeKind(t reflect.Type) kind {
	if k, ok := scalarKinds[t]; ok {
		return k
	}
	if t == reflect.TypeFor[Spoken]() {
		return spokenKind{}
	}
	zero := reflect.New(t)
	if _, ok := zero.Interface().(slotMark); ok {
		return privateKind{}
	}
	if _, ok := zero.Interface().(listMark); ok {
		return &listKind{elem: t.Elem(), bare: true}
	}
	if _, ok := zero.Interface().(dictMark); ok {
		return &dictKind{entry: t.Elem()}
	}
	switch t.Kind() {
	case reflect.Slice:
		if key, ok := keyField(t.Elem()); ok {
			return &keyedKind{t.Elem(), key}
		}
		return &listKind{elem: t.Elem()}
	case reflect.Pointer:
		return &pointerKind{t.Elem()}
	case reflect.Struct:
		return &structKind{t: t}
	}
	panic("record: no kind for " + t.String())
}

// privateKind reads what a Private holds.
type privateKind struct{}

func (privateKind) inner(v reflect.Value) reflect.Value {
	return reflect.ValueOf(v.Addr().Interface().(slotMark).slot()).Elem()
}

func (k privateKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	d.hide(n)
	d.hidden++
	held := k.inner(into)
	kindOf(held.Type()).read(d, n, held, lim)
	d.hidden--
}

func (k privateKind) schemaOf(t reflect.Type) reflect.Type {
	return k.inner(reflect.New(t).Elem()).Type()
}

func (k privateKind) schema(*schemaWriter, limits) map[string]any { panic("record: use schemaOf") }

// pointerKind reads a part that may be missing.
type pointerKind struct{ elem reflect.Type }

func (k *pointerKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	v := reflect.New(k.elem)
	kindOf(k.elem).read(d, n, v.Elem(), lim)
	into.Set(v)
}

func (k *pointerKind) schema(s *schemaWriter, lim limits) map[string]any { return s.of(k.elem, lim) }

// listKind reads a list; bare says that one value may stand for a list of one.
type listKind struct {
	elem reflect.Type
	bare bool
}

func (k *listKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	at := n
	n = d.resolve(n)
	if n == nil {
		return
	}
	elem := kindOf(k.elem)
	if n.Kind != yaml.SequenceNode {
		if !k.bare {
			k.noList(d, n, d.pos(at))
			return
		}
		if k.elem == reflect.TypeFor[Spoken]() {
			if list := d.spokenLists(n, k.linesOf); list != nil {
				into.Set(reflect.ValueOf(List[Spoken](list)))
				return
			}
		}
		lines := k.linesOf(n)
		list := reflect.MakeSlice(into.Type(), len(lines), len(lines))
		for i, each := range lines {
			elem.read(d, each, list.Index(i), lim)
		}
		into.Set(list)
		return
	}
	list := reflect.MakeSlice(into.Type(), len(n.Content), len(n.Content))
	for i, each := range n.Content {
		elem.read(d, each, list.Index(i), lim)
	}
	into.Set(list)
}

// linesOf is a single value as the entries of a list: of words in block form, behind a
// bar, each line is one.
func (k *listKind) linesOf(n *yaml.Node) []*yaml.Node {
	if n.Kind != yaml.ScalarNode || n.Style&yaml.LiteralStyle == 0 || k.elem != reflect.TypeFor[Text]() && k.elem != reflect.TypeFor[Spoken]() {
		return []*yaml.Node{n}
	}
	var out []*yaml.Node
	for i, line := range strings.Split(n.Value, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			one := *n
			one.Value, one.Style, one.Line = line, 0, n.Line+1+i
			out = append(out, &one)
		}
	}
	if out == nil {
		return []*yaml.Node{n}
	}
	return out
}

func (k *listKind) schema(s *schemaWriter, lim limits) map[string]any {
	one := s.of(k.elem, lim)
	list := map[string]any{"type": "array", "items": one}
	if !k.bare {
		return list
	}
	if k.elem == reflect.TypeFor[Spoken]() {
		return map[string]any{"anyOf": []any{one, list, spokenListsForm(s)}}
	}
	return map[string]any{"anyOf": []any{one, list}}
}

// dictKind reads a mapping from names of the maker's choice.
type dictKind struct{ entry reflect.Type } // a Named[T]

func (k *dictKind) value() reflect.Type {
	f, _ := k.entry.FieldByName("V")
	return f.Type
}

func (k *dictKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	n = d.resolve(n)
	if n == nil {
		return
	}
	if n.Kind != yaml.MappingNode {
		if shares := sharesIn(n); shares != "" && k.value() == reflect.TypeFor[Percent]() {
			d.faults.Wrong(d.pos(n), say.Of("record.write", shares), say.Of("record.each-share-stands-after-its-name")).InsteadAt(d.pos(n), "", shares)
			return
		}
		if name := fault.Shorten(n.Value); k.value() == reflect.TypeFor[ThreadUse]() && n.Kind == yaml.ScalarNode && !isNull(n) && !strings.ContainsAny(n.Value, ":{}[],#\n") {
			now := "{thread: " + name + "}"
			d.faults.Wrong(d.pos(n), say.Of("record.write", now), say.Of("record.a-thread-has-a-name-and-after")).InsteadAt(d.pos(n), "", now)
			return
		}
		d.faults.Wrong(d.pos(n), say.Of("record.write-name-value-one-to-a-line"), say.Of("record.this-needs-its-words-indented-below-it", shapeOf(n)))
		return
	}
	k.fill(d, d.pairs(n), into, lim)
}

func (k *dictKind) fill(d *decoder, pairs []pair, into reflect.Value, lim limits) {
	value := kindOf(k.value())
	pairs = lim.ofNames(d, pairs)
	list := reflect.MakeSlice(into.Type(), len(pairs), len(pairs))
	for i, p := range pairs {
		entry := list.Index(i)
		entry.Field(0).Set(reflect.ValueOf(p.key))
		value.read(d, p.value, entry.Field(1), lim)
	}
	into.Set(list)
}

// ofNames answers the names that there are not, and leaves those that there are.
func (lim limits) ofNames(d *decoder, pairs []pair) []pair {
	if lim.names == nil {
		return pairs
	}
	return slices.DeleteFunc(pairs, func(p pair) bool {
		if slices.Contains(lim.names, p.key.V) {
			return false
		}
		now := meant.Nearest(p.key.V, lim.names)
		if i := slices.IndexFunc(lim.names, func(n string) bool { return strings.HasPrefix(strings.ToLower(p.key.V), n) }); i >= 0 {
			now = lim.names[i]
		}
		hint := say.Of("record.one-of", meant.List(lim.names, "or"))
		if now != "" {
			hint = say.Of("record.write", now)
		}
		d.faults.Wrong(p.key.At, hint, say.Of("record.is-not-a-name-known-here", say.Quoted(fault.Shorten(p.key.V)))).Instead(p.key.V, now)
		return true
	})
}

func (k *dictKind) schema(s *schemaWriter, lim limits) map[string]any {
	out := map[string]any{"type": "object", "additionalProperties": k.one(s, lim)}
	if lim.names != nil {
		out["propertyNames"] = map[string]any{"enum": lim.names}
	}
	return out
}

func (k *dictKind) one(s *schemaWriter, lim limits) map[string]any { return s.of(k.value(), lim) }

// A namingKind reads a mapping from names: it can take the words that a group
// does not know itself.
type namingKind interface {
	kind
	fill(d *decoder, pairs []pair, into reflect.Value, lim limits)
	one(s *schemaWriter, lim limits) map[string]any // the schema of what stands behind one name
}

// parseLimits reads the tags of a field; a malformed tag is a mistake of ours.
func parseLimits(tag reflect.StructTag) limits {
	var lim limits
	if s := tag.Get("one-of"); s != "" {
		lim.oneOf = strings.Split(s, "|")
	}
	if s := tag.Get("names"); s != "" {
		lim.names = strings.Split(s, "|")
	}
	lim.min, lim.max, lim.seldom = numberTag(tag, "min"), numberTag(tag, "max"), numberTag(tag, "seldom")
	lim.repeats = tag.Get("repeats") == "yes"
	lim.whole = tag.Get("whole") == "yes"
	return lim
}

func numberTag(tag reflect.StructTag, name string) *float64 {
	s := tag.Get(name)
	if s == "" {
		return nil
	}
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(fmt.Sprintf("record: tag %s:%q: %v", name, s, err))
	}
	return &f
}
