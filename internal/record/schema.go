package record

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"

	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A FileKind is one kind of file in a workroom.
type FileKind struct {
	Name  string // "build", "cloth", "wearer", "workroom", "technique", "page"
	Where string // where such files lie, for people
	about string
	typ   reflect.Type
}

// FileKinds lists every kind of file, in the order a new user meets them.
var FileKinds = []FileKind{
	{"workroom", "content/workroom.yaml", say.Of("record.what-holds-for-every-garment"), reflect.TypeFor[Workroom]()},
	{"build", "content/builds/NAME/build.yaml", say.Of("record.one-garment-being-made"), reflect.TypeFor[Build]()},
	{"cloth", "content/cloth/NAME.yaml", say.Of("record.a-cloth-on-the-shelf-or-to"), reflect.TypeFor[Cloth]()},
	{"wearer", "content/wearers/NAME.yaml", say.Of("record.the-person-a-garment-is-for-private"), reflect.TypeFor[Wearer]()},
	{"draft", "content/drafts/NAME.yaml", say.Of("record.how-a-record-is-written-from"), reflect.TypeFor[Draft]()},
	{"technique", say.Of("record.content-techniques-name-md-its-header"), say.Of("record.a-way-of-doing-something"), reflect.TypeFor[Technique]()},
	{"page", say.Of("record.content-pages-name-md-its-header"), say.Of("record.any-other-page"), reflect.TypeFor[Page]()},
}

// Schema returns the JSON Schema (draft 2020-12) of a kind of file. It is
// made from the same types, by the same kinds, that the reader uses.
func Schema(name string) ([]byte, error) {
	i := slices.IndexFunc(FileKinds, func(k FileKind) bool { return k.Name == name })
	if i < 0 {
		return nil, errors.New(say.Of("record.there-is-no-kind-of-file-called", say.Quoted(name), meant.Among(name, KindNames(), "one of: ")))
	}
	k := FileKinds[i]
	s := &schemaWriter{defs: map[string]any{}}
	root := s.group(k.typ)
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = say.Of("record.hembook", k.Name)
	root["description"] = k.about
	root["$defs"] = s.defs
	out, err := json.MarshalIndent(root, "", "  ")
	return append(out, '\n'), err
}

// readElsewhere are the schemas of words whose values another room reads.
var readElsewhere = map[string]func() map[string]any{"seam-types": trade.SeamTypesSchema}

// KindNames lists the names of the kinds of file.
func KindNames() []string {
	out := make([]string, len(FileKinds))
	for i, k := range FileKinds {
		out[i] = k.Name
	}
	return out
}

// A schemaWriter gathers the definitions one schema needs.
type schemaWriter struct{ defs map[string]any }

// of returns the schema of a type: written out for a scalar, a reference for a group.
func (s *schemaWriter) of(t reflect.Type, lim limits) map[string]any {
	switch k := kindOf(t).(type) {
	case privateKind:
		return s.of(k.schemaOf(t), lim)
	case *structKind:
		name := t.Name()
		if _, have := s.defs[name]; !have {
			s.defs[name] = nil // it may refer to itself
			s.defs[name] = s.group(t)
		}
		return map[string]any{"$ref": "#/$defs/" + name}
	default:
		return k.schema(s, lim)
	}
}

// group writes out a struct: its words, which must be there, and its short form.
func (s *schemaWriter) group(t reflect.Type) map[string]any {
	p := kindOf(t).(*structKind).planned()
	props := map[string]any{}
	must, either := []string{}, map[string][]string{}
	for _, f := range p.fields {
		one := s.of(f.of, f.limits)
		if form, ok := readElsewhere[f.key]; ok {
			one = form()
		}
		one["description"] = f.about
		if f.eg != "" {
			one["examples"] = []string{f.eg}
		}
		props[f.key] = one
		switch {
		case f.must && f.unless != "":
			either[f.unless] = append(either[f.unless], f.key)
		case f.must:
			must = append(must, f.key)
		}
	}
	out := map[string]any{"type": "object", "properties": props, "additionalProperties": false}
	for word, others := range either { // one at most
		out["anyOf"] = []any{map[string]any{"required": []string{word}}, map[string]any{"required": others}}
	}
	if f := &p.ofRest; f.must { // some name that is no word of the group
		out["anyOf"] = []any{map[string]any{"required": []string{f.unless}}, map[string]any{"not": map[string]any{"propertyNames": map[string]any{"enum": p.keys}}}}
	}
	if len(must) > 0 {
		out["required"] = must
	}
	if p.rest >= 0 {
		out["additionalProperties"] = kindOf(t.Field(p.rest).Type).(namingKind).one(s, limits{})
	}
	if alone := s.alone(t, p); len(alone) > 0 {
		return map[string]any{"anyOf": append(alone, out)}
	}
	return out
}

// alone lists the schemas of what may stand in place of a group.
func (s *schemaWriter) alone(t reflect.Type, p *structPlan) []any {
	var out []any
	add := func(i int) {
		if i >= 0 {
			lim := p.fields[i].limits
			lim.whole = false // which the other words of the group allow
			out = append(out, s.of(p.fields[i].of, lim))
		}
	}
	add(p.short.value)
	if p.short.list != p.short.value {
		add(p.short.list)
	}
	if p.short.name >= 0 {
		out = append(out, map[string]any{"type": []string{"string", "boolean"}, "pattern": `^\s*[^\s0-9]`}) // begins with a letter
	}
	if p.short.word != "" {
		out = append(out, map[string]any{"const": p.short.word})
	}
	return out
}

func (k *structKind) schema(s *schemaWriter, lim limits) map[string]any { return s.of(k.t, lim) }

// A Word describes one word of a file kind, for the guide.
type Word struct {
	Key, About, Example string
	Must                bool
	OneOf               []string
	Group               string // the Go-free name of the group it stands in
	Spoken              bool   // it may stand in several languages
}

// spoken reports whether values of a type may stand in several languages.
func spoken(t reflect.Type) bool {
	return t == reflect.TypeFor[Spoken]() || t == reflect.TypeFor[List[Spoken]]()
}

// Words lists the words of a kind of file, group by group, in the order of the types.
func Words(name string) []Word {
	i := slices.IndexFunc(FileKinds, func(k FileKind) bool { return k.Name == name })
	if i < 0 {
		return nil
	}
	var out []Word
	seen := map[reflect.Type]bool{}
	listGroup(FileKinds[i].typ, name, seen, &out)
	return out
}

func listGroup(t reflect.Type, group string, seen map[reflect.Type]bool, out *[]Word) {
	if seen[t] {
		return
	}
	seen[t] = true
	type later struct {
		t     reflect.Type
		group string
	}
	var more []later
	for _, f := range kindOf(t).(*structKind).planned().fields {
		*out = append(*out, Word{f.key, f.about, f.eg, f.must && f.unless == "", f.limits.oneOf, group, spoken(f.of)})
		if g, ok := groupOf(f.of); ok {
			more = append(more, later{g, f.key})
		}
	}
	if p := kindOf(t).(*structKind).planned(); p.ofRest.key != "" {
		*out = append(*out, Word{say.Of("record.by-name", p.ofRest.key), p.ofRest.about, p.ofRest.eg, false, nil, group, false})
		g, _ := groupOf(t.Field(p.rest).Type)
		more = append(more, later{g, p.ofRest.key})
	}
	for _, m := range more {
		listGroup(m.t, m.group, seen, out)
	}
}

// groupOf finds the struct inside lists, dicts, pointers and privates.
func groupOf(t reflect.Type) (reflect.Type, bool) {
	switch k := kindOf(t).(type) {
	case privateKind:
		return groupOf(k.schemaOf(t))
	case *pointerKind:
		return groupOf(k.elem)
	case *listKind:
		return groupOf(k.elem)
	case *dictKind:
		return groupOf(k.value())
	case *keyedKind:
		return k.elem, true
	case *structKind:
		return t, true
	}
	return nil, false
}
