package record

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
	"unicode"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
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
	at     int               // index of the field At, or -1
	rest   int               // index of the field that takes every other key, or -1
	ofRest fieldPlan         // what its tags say
	named  string            // the word that held the name of one that is written by name now
	short                    // what may stand alone
}

// A short tells which field a value that stands alone in place of a group is
// of: indexes into fields, or -1.
type short struct {
	value int    // one value
	list  int    // a list
	flag  int    // a word that says true of a field
	word  string // that word
	name  int    // a value that begins with a letter
}

// A fieldPlan is one word of a group.
type fieldPlan struct {
	index          []int // of a field of the group, or of one that the group takes in
	of             reflect.Type
	key, about, eg string
	must           bool
	unless         string // the word that does instead of one that must be there
	limits         limits
}

func (k *structKind) planned() *structPlan {
	k.once.Do(func() { k.plan = planStruct(k.t) })
	return &k.plan
}

func planStruct(t reflect.Type) structPlan {
	p := structPlan{byKey: map[string]int{}, was: map[string]string{}, at: -1, rest: -1, short: short{value: -1, list: -1, flag: -1, name: -1}}
	for _, f := range reflect.VisibleFields(t) {
		key := f.Tag.Get("yaml")
		switch i := f.Index[0]; {
		case f.Anonymous: // its words are the group's
			continue
		case f.Type == reflect.TypeFor[fault.Pos]() && f.Name == "At":
			p.at = i
			continue
		case key == ",rest":
			p.rest, p.ofRest = i, planField(f)
			p.ofRest.key = f.Tag.Get("was")
			continue
		case key == ",key":
			p.named = f.Tag.Get("was")
			continue
		case key == "-":
			continue
		case key == "":
			panic(fmt.Sprintf("record: field %s.%s has no yaml tag", t, f.Name))
		}
		p.short.take(f.Tag.Get("short"), len(p.fields))
		if old := f.Tag.Get("was"); old != "" {
			p.was[old] = key
		}
		p.byKey[key] = len(p.fields)
		p.keys = append(p.keys, key)
		p.fields = append(p.fields, planField(f))
	}
	return p
}

func planField(f reflect.StructField) fieldPlan {
	tag := f.Tag
	return fieldPlan{
		index: f.Index, of: f.Type, key: tag.Get("yaml"), about: tag.Get("about"), eg: tag.Get("eg"),
		must: tag.Get("must") == "yes", unless: tag.Get("unless"), limits: parseLimits(tag),
	}
}

// take notes what the tag short says of a field: "yes" that one value may stand
// for the group, "list" that a list may, "both", "name" that a value which begins with a letter may; or
// the word that may.
func (s *short) take(tag string, field int) {
	switch tag {
	case "":
	case "yes":
		s.value = field
	case "list":
		s.list = field
	case "both":
		s.value, s.list = field, field
	case "name":
		s.name = field
	default:
		s.flag, s.word = field, tag
	}
}

func (k *structKind) read(d *decoder, n *yaml.Node, into reflect.Value, _ limits) {
	k.readAt(d, n, into, d.pos(n))
}

// place notes where the group stands.
func (k *structKind) place(into reflect.Value, at fault.Pos) {
	if p := k.planned(); p.at >= 0 {
		into.Field(p.at).Set(reflect.ValueOf(at))
	}
}

// readAt reads a group that is said to stand at a place.
func (k *structKind) readAt(d *decoder, n *yaml.Node, into reflect.Value, at fault.Pos) {
	here := d.pos(n)
	n = d.resolve(n)
	if n == nil {
		return
	}
	p := k.planned()
	k.place(into, at)
	if k.mayMean(n) && k.groupMeant(d, n, here) {
		return
	}
	if n.Kind == yaml.MappingNode {
		k.readPairs(d, d.pairsOnce(n, p.twice), at, into)
		return
	}
	i := p.short.of(n)
	switch {
	case i < 0:
		if list := inSquares(n); list != "" && p.short.list >= 0 {
			d.faults.Wrong(here, say.Of("record.write", list), say.Of("record.a-point-stands-in-square-brackets")).InsteadAt(here, n.Value, list)
			return
		}
		if words := p.wordAlone(n); words != nil {
			now := inBraces(words)
			d.faults.Wrong(here, say.Of("record.write", now), say.Of("record.a-word-with-its-value-stands-in")).InsteadAt(here, "", now)
			k.readPairs(d, d.pairs(words), at, into)
			return
		}
		d.faults.Wrong(here, k.takes(), say.Of("record.this-needs-its-words-indented-below-it", shapeOf(n)))
	case i == p.short.flag && n.Kind == yaml.ScalarNode:
		into.FieldByIndex(p.fields[i].index).Set(reflect.ValueOf(Flag{true, here}))
	default:
		f := &p.fields[i]
		v := into.FieldByIndex(f.index)
		kindOf(v.Type()).read(d, n, v, f.limits)
	}
}

// wordAlone is a group of one word whose value stands behind it without a colon, as
// like front; nil where it is none.
func (p *structPlan) wordAlone(n *yaml.Node) *yaml.Node {
	word, value, ok := strings.Cut(n.Value, " ")
	if _, its := p.byKey[word]; !ok || !its || n.Kind != yaml.ScalarNode || n.Style != 0 || strings.ContainsAny(value, ",:{}[]") {
		return nil
	}
	key := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: word, Line: n.Line, Column: n.Column}
	behind := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: strings.TrimSpace(value), Line: n.Line, Column: n.Column + len(word) + 1}
	return &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Content: []*yaml.Node{key, behind}, Line: n.Line, Column: n.Column}
}

// twice answers a word that is written twice. Of two names among the words, as of
// two edges of an outline, the check tells.
func (p *structPlan) twice(key string, first fault.Pos) string {
	if _, known := p.byKey[key]; !known && p.ofRest.key != "" {
		return ""
	}
	return say.Of("record.the-first-one-is-on-line-keep", first.Line)
}

// of is the field that a value standing alone is of, or -1.
func (s *short) of(n *yaml.Node) int {
	switch {
	case n.Kind == yaml.SequenceNode:
		return s.list
	case isNull(n):
		return -1
	case s.word != "" && n.Value == s.word:
		return s.flag
	case s.name >= 0 && n.Value != "" && unicode.IsLetter([]rune(n.Value)[0]):
		return s.name
	}
	return s.value
}

// takes says what may stand where a group was wanted.
func (k *structKind) takes() string {
	p := k.planned()
	words := p.keys
	if p.short.list >= 0 && p.fields[p.short.list].eg != "" {
		out := say.Of("record.as", p.fields[p.short.list].eg)
		if p.short.word != "" {
			out += say.Of("record.or-2", p.short.word)
		}
		return say.Of("record.or-with-words", out, meant.List(words, "and"))
	}
	return say.Of("record.its-words-are", meant.List(words, "and"))
}

func (k *structKind) readPairs(d *decoder, pairs []pair, at fault.Pos, into reflect.Value) {
	p := k.planned()
	var seen uint64
	yet := false // a word stands here that may do instead of one that must be there
	var rest []pair
	pairs = p.listed(d, p.gathered(d, k.t, pairs))
	for j, each := range pairs {
		i, known := p.byKey[each.key.V]
		if now := p.was[each.key.V]; now != "" && !known { // read all the same, so that it is not said to be missing
			d.faults.Wrong(each.key.At, say.Of("record.it-is-called-now", now), say.Of("record.unknown-word", say.Quoted(each.key.V))).Instead(each.key.V, now)
			i, known = p.byKey[now], true
		}
		if !known {
			if k.yetTo(d, each) {
				yet = true
				if w, ok := into.Addr().Interface().(wishing); ok {
					w.wishes(each.key.V)
				}
				continue
			}
			if p.rest >= 0 && !p.isOld(each) && gone[k.t][each.key.V] == "" {
				rest = append(rest, each)
				continue
			}
			if p.rest >= 0 && p.isOld(each) {
				v := into.Field(p.rest)
				kindOf(v.Type()).read(d, each.value, v, limits{})
				continue
			}
			if j > 0 && p.cutPlace(d, pairs[j-1], each) {
				continue
			}
			hint, now := unknownHint(k.t, each, p)
			d.faults.Wrong(each.key.At, hint, say.Of("record.unknown-word", say.Quoted(fault.Shorten(each.key.V)))).Instead(each.key.V, now)
			if _, both := findPair(pairs, now); now == "" || both {
				continue
			}
			i = p.byKey[now] // read as what is meant, so that nothing follows from it that is not wrong
		}
		seen |= 1 << i
		f := &p.fields[i]
		if isNull(each.value) {
			if !d.hashed(each) {
				told := d.faults.Wrong(d.pos(each.value), say.Of("record.write-its-value-or-take-the-line"), say.Of("record.has-no-value", say.Quoted(f.key)))
				if j+1 == len(pairs) || slices.Contains(p.keys, pairs[j+1].key.V) {
					told.Without(each.key.At) // an unknown word behind it may belong to it
				}
			}
			continue
		}
		v := into.FieldByIndex(f.index)
		kindOf(v.Type()).read(d, each.value, v, f.limits)
	}
	if rest != nil {
		v := into.Field(p.rest)
		kindOf(v.Type()).(namingKind).fill(d, rest, v, p.ofRest.limits)
	}
	done := func(word string) bool { return word != "" && seen&(1<<p.byKey[word]) != 0 }
	for i := range p.fields {
		if f := &p.fields[i]; f.must && !yet && seen&(1<<i) == 0 && !done(f.unless) {
			d.faults.Wrong(at, needHint(f), say.Of("record.is-missing", say.Quoted(f.key)))
		}
	}
	if f := &p.ofRest; f.must && into.Field(p.rest).Len() == 0 && !done(f.unless) {
		d.faults.Wrong(at, f.about+": "+f.eg, say.Of("record.there-are-no-here", f.key))
	}
}

// isOld reports whether a word that the group does not know held a list of what
// is written by name now.
func (p *structPlan) isOld(each pair) bool {
	return p.ofRest.key != "" && each.key.V == p.ofRest.key && each.value.Kind == yaml.SequenceNode
}

// unknownHint answers a word the group does not know, and says which was probably
// meant.
func unknownHint(t reflect.Type, each pair, p *structPlan) (hint, now string) {
	if now := gone[t][each.key.V]; now != "" {
		return now, ""
	}
	if t == reflect.TypeFor[Change]() {
		switch each.key.V {
		case "out", "outwards", "let out":
			return say.Of("record.did-you-mean-move"), "move"
		case "in", "inwards", "take in", "taken in":
			return say.Of("record.inwards-is-a-minus-as-move", strings.TrimPrefix(fault.Shorten(each.value.Value), "-")), ""
		}
	}
	if p.named != "" && each.key.V == p.named {
		return say.Of("record.its-name-stands-before-the-colon", fault.Shorten(each.value.Value)), ""
	}
	return trade.Meant(each.key.V, p.keys, say.Of("record.known-here")), trade.Nearest(each.key.V, p.keys)
}

func needHint(f *fieldPlan) string {
	if f.eg != "" {
		return say.Of("record.write-8", f.about, f.key, f.eg)
	}
	return f.about
}
