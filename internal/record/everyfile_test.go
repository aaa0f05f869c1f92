package record

import (
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// TestSchemaAndReaderAgreeOnEveryFile forges files of every kind from the words of the
// kind: what the reader takes the schema takes. Then one thing in each is spoilt, and
// both must refuse it or neither.
func TestSchemaAndReaderAgreeOnEveryFile(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	schemas := compileSchemas(t)
	many := 150
	if n, err := strconv.Atoi(os.Getenv("HEMBOOK_FORGED")); err == nil {
		many = n
	}
	for _, k := range FileKinds {
		t.Run(k.Name, func(t *testing.T) {
			f := &forger{rng: rand.New(rand.NewPCG(7, 11)), told: map[string]bool{}}
			files, spoilt, refused := 0, 0, 0
			for range many {
				f.places = f.places[:0]
				root := f.group(k.typ, 0)
				reads, told := f.bothOf(t, k, schemas[k.Name].Validate, root)
				if files++; reads != nil || told != nil {
					t.Fatalf("forged in order:\n%s\nthe reader says %v, the schema %v", written(t, root), reads, told)
				}
				for range 30 {
					undo := f.spoil()
					reads, told := f.bothOf(t, k, schemas[k.Name].Validate, root)
					if spoilt++; (reads != nil) != (told != nil) {
						t.Errorf("spoilt, %s: the reader says %v, the schema %v", f.how, reads, told)
					}
					if reads != nil {
						refused++
					}
					undo()
				}
			}
			for _, word := range Words(k.Name) {
				if !f.told[word.Key] && readElsewhere[word.Key] == nil && !strings.HasSuffix(word.Key, " by name") {
					t.Errorf("no forged file has the word %s", word.Key)
				}
			}
			if refused < spoilt/3 {
				t.Errorf("of %d spoilt files %d were refused: spoil them more", spoilt, refused)
			}
			t.Logf("%d files, %d spoilt, %d of them refused by both", files, spoilt, refused)
		})
	}
}

func written(t *testing.T, n *yaml.Node) string {
	t.Helper()
	text, err := yaml.Marshal(n)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// bothOf asks the reader and the schema about a file as it is written.
func (f *forger) bothOf(t *testing.T, k FileKind, validate func(any) error, n *yaml.Node) (reads, told error) {
	t.Helper()
	text := []byte(written(t, n))
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	var faults fault.Faults
	d := newDecoder(&fault.Source{Path: k.Name}, measure.UnitMM, &faults)
	d.text, d.root = text, doc.Content[0]
	d.into(doc.Content[0], reflect.New(k.typ).Interface())
	if faults.HasErrors() {
		reads = fmt.Errorf("%v", faults.Sorted())
	}
	return reads, validate(asJSON(&doc))
}

// A forger writes random values of the kinds a record has.
type forger struct {
	rng    *rand.Rand
	places []forgedPlace
	told   map[string]bool // words that were written
	how    string          // what was spoilt last
}

// A forgedPlace is a value of a forged file.
type forgedPlace struct {
	node  *yaml.Node
	word  string // the word it stands behind
	of    reflect.Type
	group bool // whether it is a group of words
	lim   limits
}

// forgedScalars are texts of each kind of scalar that are in order whatever the word's
// limits are; a range is met by forgedNumber.
var forgedScalars = map[reflect.Type][]string{
	reflect.TypeFor[Text]():          {"a few words", "40", "true", "2026-08-01", "größer", "x"},
	reflect.TypeFor[Spoken]():        {"a few words", "40", "{de: Worte}", "{en: words, de: Worte}"},
	reflect.TypeFor[Flag]():          {"true", "false"},
	reflect.TypeFor[Duration]():      {"50 min", "1 h 20 min", "24 h"},
	reflect.TypeFor[Date]():          {"2026-08-03", "1999-12-31"},
	reflect.TypeFor[Moment]():        {"2026-08-05 14:10", "2026-08-05"},
	reflect.TypeFor[Areal]():         {"190 g/m2", "5.6 oz/yd2"},
	reflect.TypeFor[Mass]():          {"12 g", "1.5 kg", "2 oz"},
	reflect.TypeFor[Money]():         {"18.50 EUR", "USD 4"},
	reflect.TypeFor[Val[Noun]]():     {"Hose f", "trousers pl", "gants m pl", "blue dress, n"},
	reflect.TypeFor[Val[Cut]]():      {"1", "2", "1 on fold", "2 alike"},
	reflect.TypeFor[Where]():         {"75", "75 from waist", "middle", "waist"},
	reflect.TypeFor[Val[Reach]]():    {"120", "to elbow"},
	reflect.TypeFor[Val[Down]]():     {"60", "to hip", "all"},
	reflect.TypeFor[Val[Beside]]():   {"18 inside front edge", "1/2 in inside hem"},
	reflect.TypeFor[Val[Spot]]():     {"hem at 20 from side", "[10, 20]"},
	reflect.TypeFor[Val[NewPlace]](): {"75 from waist", "hem at 20 from side", "[10, 20]"},
	reflect.TypeFor[Val[Slash]]():    {"hem at 20 from side to waist at middle", "hem at 20 to waist at side"},
	reflect.TypeFor[Val[Spread]]():   {"15", "[15, 0]", "[-1/2 in, -4]"},
	reflect.TypeFor[ClosedTo]():      {"365", "{waist: 365, hip: 515}"},
	reflect.TypeFor[Eased]():         {"8", "8 from front to top", "[8 from front to top, 3 from top to end]"},
	reflect.TypeFor[Gathered]():      {"2", "1.5 from end"},
	reflect.TypeFor[EdgeRef]():       {"front.side", "front.side from waist to hip", "back.side from waist for 120"},
	reflect.TypeFor[Val[XY]]():       {"[10, 20]", "[1.5 cm, -2]"},
	reflect.TypeFor[Val[Bends]]():    {"[[1, 2], [3, 4]]", "[[1, 2], [3, 4], [5, 6], [7, 8], [9, 10]]"},
	reflect.TypeFor[Val[Handles]]():  {"[[1, 2], [3, 4]]"},
	reflect.TypeFor[Val[Bend]]():     {"[[1, 2], [3, 4]]", "-13", "1/2 in"},
	reflect.TypeFor[Val[EdgeRef]]():  {"front.side", "12 inside front.side", "collar seam"},
	reflect.TypeFor[RectangleSpec](): {"[740, 70]", "[10 cm, 2 in]", "[12 repeats, 560]"},
	reflect.TypeFor[Hours]():         {"09:00-12:30, 13:30-17:00", "none", "8:00-24:00"},
	reflect.TypeFor[FreeYAML]():      {"anything", "{a: [1, 2]}", "[1, b]"},
}

// forgedRanges are the numbers each kind of number may be where its word sets no limits.
var forgedRanges = map[reflect.Type][2]float64{
	reflect.TypeFor[Count]():   {-9, 400},
	reflect.TypeFor[Number]():  {-10, 1000},
	reflect.TypeFor[Length]():  {-400, 4000},
	reflect.TypeFor[Percent](): {0, 100},
	reflect.TypeFor[Turns]():   {0, 8},
}

// value forges a value of a type.
func (f *forger) value(t reflect.Type, lim limits, depth int) *yaml.Node {
	switch k := kindOf(t).(type) {
	case privateKind:
		return f.value(k.schemaOf(t), lim, depth)
	case *pointerKind:
		return f.value(k.elem, lim, depth)
	case *listKind:
		if k.bare && f.rng.IntN(2) == 0 {
			return f.value(k.elem, lim, depth)
		}
		return f.several(yaml.SequenceNode, func(string) []*yaml.Node { return []*yaml.Node{f.kept(k.elem, lim, depth+1)} })
	case *dictKind:
		n := f.several(yaml.MappingNode, func(name string) []*yaml.Node {
			return []*yaml.Node{scalar(name), f.kept(k.value(), lim, depth+1)}
		})
		if lim.names != nil {
			for i := 0; i < len(n.Content); i += 2 {
				n.Content[i].Value = lim.names[i/2]
			}
			f.places = append(f.places, forgedPlace{node: n, of: t, group: true})
		}
		return n
	case *keyedKind:
		return f.several(yaml.MappingNode, func(name string) []*yaml.Node {
			return []*yaml.Node{scalar(name), f.kept(k.elem, lim, depth+1)}
		})
	case *structKind:
		return f.group(t, depth)
	}
	return f.scalar(t, lim)
}

// kept forges a value and notes it as one that may be spoilt.
func (f *forger) kept(t reflect.Type, lim limits, depth int) *yaml.Node {
	n := f.value(t, lim, depth)
	f.places = append(f.places, forgedPlace{node: n, of: t, lim: lim})
	return n
}

// several forges one to three entries.
func (f *forger) several(kind yaml.Kind, one func(name string) []*yaml.Node) *yaml.Node {
	n := &yaml.Node{Kind: kind, Style: yaml.FlowStyle}
	for i := range 1 + f.rng.IntN(3) {
		n.Content = append(n.Content, one([]string{"front", "side seam", "hip"}[i])...)
	}
	return n
}

func scalar(text string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: text} }

// scalar forges one value, or what stands in the place of one.
func (f *forger) scalar(t reflect.Type, lim limits) *yaml.Node {
	if lim.oneOf != nil {
		return scalar(lim.oneOf[f.rng.IntN(len(lim.oneOf))])
	}
	if r, ok := forgedRanges[t]; ok {
		if lim.min != nil {
			r[0] = *lim.min
		}
		r[1] = max(r[1], r[0]+1)
		if lim.max != nil {
			r[1] = *lim.max
		}
		number := r[0] + f.rng.Float64()*(r[1]-r[0])
		if t == reflect.TypeFor[Count]() {
			return scalar(strconv.Itoa(int(number)))
		}
		return scalar(strconv.FormatFloat(number, 'f', 2, 64))
	}
	texts := forgedScalars[t]
	if texts == nil {
		panic("no texts of " + t.String())
	}
	return parsed(texts[f.rng.IntN(len(texts))])
}

// parsed is a value as it is written.
func parsed(text string) *yaml.Node {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		panic(err)
	}
	return doc.Content[0]
}

// group forges a group: its short form, or the words it must have and some others.
func (f *forger) group(t reflect.Type, depth int) *yaml.Node {
	p := kindOf(t).(*structKind).planned()
	if n := f.short(t, p, depth); n != nil && f.rng.IntN(2) == 0 {
		return n
	}
	out := &yaml.Node{Kind: yaml.MappingNode}
	for i := range p.fields {
		fp := &p.fields[i]
		if readElsewhere[fp.key] != nil || !(fp.must && fp.unless == "") && f.told[fp.key] && f.rng.IntN(2+2*depth) != 0 {
			continue
		}
		f.told[fp.key] = true
		n := f.value(fp.of, fp.limits, depth+1)
		out.Content = append(out.Content, scalar(fp.key), n)
		f.places = append(f.places, forgedPlace{n, fp.key, fp.of, false, fp.limits})
	}
	f.either(t, p, out, depth)
	f.places = append(f.places, forgedPlace{node: out, of: t, group: true})
	return out
}

// either adds to a group the word that does instead of those that must be there, or these.
func (f *forger) either(t reflect.Type, p *structPlan, out *yaml.Node, depth int) {
	has := func(word string) bool {
		return slices.ContainsFunc(out.Content, func(n *yaml.Node) bool { return n.Value == word })
	}
	for i := range p.fields {
		fp := &p.fields[i]
		if !fp.must || fp.unless == "" || has(fp.unless) || has(fp.key) {
			continue
		}
		out.Content = append(out.Content, scalar(fp.key), f.value(fp.of, fp.limits, depth+1))
	}
	if p.rest >= 0 && (p.ofRest.must && !has(p.ofRest.unless) || f.rng.IntN(3) == 0) {
		more := f.value(t.Field(p.rest).Type, p.ofRest.limits, depth+1)
		out.Content = append(out.Content, more.Content...)
	}
}

// short forges what may stand in place of a group; nil where nothing may.
func (f *forger) short(t reflect.Type, p *structPlan, depth int) *yaml.Node {
	var may []*yaml.Node
	of := func(i int) {
		if i >= 0 {
			may = append(may, f.value(p.fields[i].of, p.fields[i].limits, depth+1))
		}
	}
	of(p.short.value)
	of(p.short.list)
	if p.short.word != "" {
		may = append(may, scalar(p.short.word))
	}
	if p.short.name >= 0 {
		may = append(may, scalar("front"))
	}
	if may == nil {
		return nil
	}
	return may[f.rng.IntN(len(may))]
}

// spoil changes one thing in what was forged, and gives back how to undo it.
func (f *forger) spoil() (undo func()) {
	p := f.places[f.rng.IntN(len(f.places))]
	was := *p.node
	was.Content = slices.Clone(was.Content)
	undo = func() { *p.node = was }
	if p.group && p.node.Kind == yaml.MappingNode && len(p.node.Content) > 0 {
		f.spoilGroup(p)
		return undo
	}
	another := f.another(p)
	f.how = fmt.Sprintf("%s: %s instead of %s", p.word, inBraces(another), inBraces(&was))
	*p.node = *another
	return undo
}

// spoilGroup takes a word out of a group, or adds one that there is not.
func (f *forger) spoilGroup(p forgedPlace) {
	n := p.node
	if f.rng.IntN(2) == 0 {
		f.how = "a word that there is not"
		n.Content = append(n.Content, scalar("wibble"), scalar("1"))
		return
	}
	i := f.rng.IntN(len(n.Content)/2) * 2
	f.how = "without " + n.Content[i].Value
	n.Content = slices.Delete(slices.Clone(n.Content), i, i+2)
}

// another is a value that is probably none of those that may stand in a place.
func (f *forger) another(p forgedPlace) *yaml.Node {
	number := func(mm float64) *yaml.Node { return scalar(trim(mm)) }
	if p.lim.whole { // what names a piece or an edge there, the reader knows alone
		return parsed([]string{"{wibble: 1}", "[[[[7]]]]", "~"}[f.rng.IntN(3)])
	}
	switch f.rng.IntN(9) {
	case 0:
		return parsed([]string{"[7]", "[[7]]"}[f.rng.IntN(2)])
	case 1:
		return parsed("{wibble: 1}")
	case 2:
		return scalar("")
	case 3:
		return parsed(`""`)
	case 4:
		return scalar("quite-wrong")
	case 5:
		return parsed("true")
	case 6:
		if p.lim.max != nil {
			return number(*p.lim.max + 1)
		}
		return number(1e12)
	case 7:
		switch {
		case p.lim.min == nil:
			return number(-1e12)
		case *p.lim.min > 0 && p.of == reflect.TypeFor[Length](): // the schema does not know in which unit
			return number(*p.lim.min / 26)
		}
		return number(*p.lim.min - 1)
	}
	return parsed("[]")
}
