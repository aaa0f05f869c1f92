package record

import (
	"fmt"
	"reflect"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
)

// structKind reads a group of words that the program knows.
type structKind struct {
	t    reflect.Type
	once sync.Once
	plan structPlan
}

// A structPlan is what a struct's tags say, worked out once.
type structPlan struct {
	fields []fieldPlan
	keys   []string
	byKey  map[string]int    // index into fields
	was    map[string]string // what a word that was renamed is called now
	place  int               // index of the field At, or -1
	short  int               // index into fields of the one that may stand alone, or -1
	rest   int               // index of the field that takes every other key, or -1
}

// A fieldPlan is one word of a group.
type fieldPlan struct {
	index          int
	key, about, eg string
	must           bool
	later          bool   // whether it must be there is found out later: the group is told that it lacks it
	unless         string // the word that does instead of one that must be there
	limits         limits
}

func (k *structKind) planned() *structPlan {
	k.once.Do(func() { k.plan = planStruct(k.t) })
	return &k.plan
}

func planStruct(t reflect.Type) structPlan {
	p := structPlan{byKey: map[string]int{}, was: map[string]string{}, place: -1, short: -1, rest: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		key := f.Tag.Get("yaml")
		switch {
		case f.Type == reflect.TypeFor[Pos]() && f.Name == "At":
			p.place = i
			continue
		case key == ",rest":
			p.rest = i
			continue
		case key == "-":
			continue
		case key == "":
			panic(fmt.Sprintf("record: field %s.%s has no yaml tag", t, f.Name))
		}
		if f.Tag.Get("short") == "yes" {
			p.short = len(p.fields)
		}
		if old := f.Tag.Get("was"); old != "" {
			p.was[old] = key
		}
		p.byKey[key] = len(p.fields)
		p.keys = append(p.keys, key)
		p.fields = append(p.fields, fieldPlan{
			index: i, key: key, about: f.Tag.Get("about"), eg: f.Tag.Get("eg"),
			must: f.Tag.Get("must") == "yes", later: f.Tag.Get("must") == "later", unless: f.Tag.Get("unless"), limits: parseLimits(f.Tag),
		})
	}
	return p
}

func (k *structKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	at := d.pos(n)
	n = d.resolve(n)
	if n == nil {
		return
	}
	p := k.planned()
	if p.place >= 0 {
		into.Field(p.place).Set(reflect.ValueOf(at))
	}
	if n.Kind == yaml.MappingNode {
		k.readPairs(d, d.pairs(n), at, into)
		return
	}
	if p.short < 0 || n.Kind == yaml.SequenceNode || isNull(n) {
		d.faults.Errorf(at, "it takes "+meant.List(p.keys, "and"), "this must be a group of named values, it is %s", shapeOf(n))
		return
	}
	f := &p.fields[p.short]
	v := into.Field(f.index)
	kindOf(v.Type()).read(d, n, v, f.limits)
}

func (k *structKind) readPairs(d *decoder, pairs []pair, at Pos, into reflect.Value) {
	p := k.planned()
	var seen uint64
	var rest []pair
	for _, each := range pairs {
		i, known := p.byKey[each.key.V]
		if !known {
			if p.rest >= 0 {
				rest = append(rest, each)
				continue
			}
			d.faults.Errorf(each.key.At, unknownHint(each, p), "unknown word %q", shorten(each.key.V))
			continue
		}
		seen |= 1 << i
		f := &p.fields[i]
		if isNull(each.value) {
			d.faults.Errorf(d.pos(each.value), "write its value, or take the line out", "%q has no value", f.key)
			continue
		}
		v := into.Field(f.index)
		kindOf(v.Type()).read(d, each.value, v, f.limits)
	}
	if rest != nil {
		v := into.Field(p.rest)
		kindOf(v.Type()).(*dictKind).fill(d, rest, v, limits{})
	}
	for i := range p.fields {
		if f := &p.fields[i]; f.later && seen&(1<<i) == 0 {
			into.Addr().Interface().(lacking).lacks(f.key)
		} else if f.must && seen&(1<<i) == 0 && (f.unless == "" || seen&(1<<p.byKey[f.unless]) == 0) {
			d.faults.Errorf(at, needHint(f), "%q is missing", f.key)
		}
	}
}

// A lacking group must be told which of its words are not there, because it
// depends on where the group stands whether they must be.
type lacking interface{ lacks(word string) }

// unknownHint answers a word the group does not know. Words without a value
// between braces are most often the rest of a remark that has a comma in it.
func unknownHint(each pair, p *structPlan) string {
	if now := p.was[each.key.V]; now != "" {
		return "it is called " + now + ": now"
	}
	if isNull(each.value) && each.value.Value == "" && strings.Contains(each.key.V, " ") {
		return "put quotes around the words before and after the comma if they belong together"
	}
	return meant.Among(each.key.V, p.keys, "known here: ")
}

func needHint(f *fieldPlan) string {
	if f.eg != "" {
		return fmt.Sprintf("%s: write %s: %s", f.about, f.key, f.eg)
	}
	return f.about
}
