package record

import (
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/words"
)

// Tongues are the languages that sheets are written in, by their codes of ISO 639-1.
// The first is the notebook's.
var Tongues = []string{"en", "de", "fr", "es", "it", "nl", "ja"}

// tongueNames are the names of Tongues, in English and in themselves: what may be
// written where a code is wanted.
var tongueNames = map[string]string{
	"english": "en", "german": "de", "deutsch": "de", "french": "fr", "français": "fr", "francais": "fr", "spanish": "es", "español": "es", "espanol": "es",
	"italian": "it", "italiano": "it", "dutch": "nl", "nederlands": "nl", "japanese": "ja", "日本語": "ja", "jp": "ja",
}

// A Spoken is words of the maker that may stand in several languages, because they are
// read on sheets. Its own V is what the notebook shows: what was written alone, or is in
// the notebook's language, or stands first.
type Spoken struct {
	Text
	Told Dict[Text] // by code, where languages were told apart
}

// Told is words in one language.
func (s Spoken) tongue() string {
	for i := range s.Told {
		if s.Told[i].V.At == s.At {
			return s.Told[i].Name.V
		}
	}
	return Tongues[0]
}

// In gives the words as they stand in a language; where they do not, those of the
// notebook. It says in which they are.
func (s Spoken) In(code string) (words, tongue string) {
	if v, ok := s.Told.Get(code); ok {
		return v.V, code
	}
	return s.V, s.tongue()
}

// Has reports whether the words stand in a language.
func (s Spoken) Has(code string) bool {
	_, tongue := s.In(code)
	return tongue == code
}

// spokenKind reads words, alone or by language.
type spokenKind struct{}

var textKind = scalarKinds[reflect.TypeFor[Text]()]

func (spokenKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	s := into.Addr().Interface().(*Spoken)
	whole := d.pos(n)
	if n = d.resolve(n); n == nil {
		return
	}
	if n.Kind != yaml.MappingNode {
		textKind.read(d, n, reflect.ValueOf(&s.Text).Elem(), lim)
		return
	}
	for _, p := range d.inTongues(n) {
		told := Named[Text]{Name: p.key}
		textKind.read(d, p.value, reflect.ValueOf(&told.V).Elem(), lim)
		if told.V.Given() {
			s.Told = append(s.Told, told)
		}
	}
	switch own, has := s.Told.Get(Tongues[0]); {
	case has:
		s.Text = own
	case len(s.Told) > 0:
		s.Text = s.Told[0].V
	case len(n.Content) == 0:
		d.faults.Wrong(whole, say.Of("record.write-the-words-or"), say.Of("record.there-are-no-words-here"))
	}
}

// byTongue reports whether every word of a group is the code of a language.
func byTongue(n *yaml.Node) bool {
	for i := 0; n.Kind == yaml.MappingNode && i < len(n.Content); i += 2 {
		if !slices.Contains(Tongues, n.Content[i].Value) {
			return false
		}
	}
	return n.Kind == yaml.MappingNode && len(n.Content) > 0
}

// inTongues are the pairs of a group whose words are codes of languages; others are
// answered.
func (d *decoder) inTongues(n *yaml.Node) []pair {
	var out []pair
	for _, p := range d.pairs(n) {
		if slices.Contains(Tongues, p.key.V) {
			out = append(out, p)
			continue
		}
		now := tongueNames[strings.ToLower(p.key.V)]
		hint := say.Of("record.one-of", meant.List(Tongues, "or"))
		if now != "" {
			hint = say.Of("record.write-5", now)
		}
		d.faults.Wrong(p.key.At, hint, say.Of("record.is-no-language-of-the-sheets", say.Quoted(fault.Shorten(p.key.V)))).Instead(p.key.V, now)
	}
	return out
}

func (spokenKind) schema(s *schemaWriter, lim limits) map[string]any {
	text := textKind.schema(s, lim)
	return map[string]any{"anyOf": []any{text, tonguesForm(text)}}
}

// tonguesForm is the schema of what stands by language.
func tonguesForm(each map[string]any) map[string]any {
	return map[string]any{"type": "object", "minProperties": 1, "propertyNames": map[string]any{"enum": Tongues}, "additionalProperties": each}
}

// spokenLists reads a list of words that is written once a language, as
// {en: [one, two], de: [eins, zwei]}: each language has as many. It gives nil where it is
// written otherwise.
func (d *decoder) spokenLists(n *yaml.Node, lines func(*yaml.Node) []*yaml.Node) []Spoken {
	if n.Kind != yaml.MappingNode || !slices.ContainsFunc(n.Content, func(c *yaml.Node) bool {
		return c.Kind == yaml.SequenceNode || c.Style&yaml.LiteralStyle != 0
	}) {
		return nil
	}
	out := []Spoken{}
	var first Text
	for _, p := range d.inTongues(n) {
		list := d.resolve(p.value)
		if list == nil {
			return out
		}
		items := list.Content
		if list.Kind != yaml.SequenceNode {
			items = lines(list)
		}
		if !first.Given() {
			first, out = p.key, make([]Spoken, len(items))
		} else if len(items) != len(out) {
			d.faults.Wrong(p.key.At, say.Of("record.give-each-line-in-both-in-the"), say.Of("record.has-has", p.key.V, words.Count(len(items), "line"), first.V, len(out)))
			continue
		}
		for i, item := range items {
			told := Named[Text]{Name: p.key}
			textKind.read(d, item, reflect.ValueOf(&told.V).Elem(), limits{})
			if !told.V.Given() {
				continue
			}
			out[i].Told = append(out[i].Told, told)
			if !out[i].Given() || p.key.V == Tongues[0] {
				out[i].Text = told.V
			}
		}
	}
	return out
}

// spokenListsForm is the schema of that.
func spokenListsForm(s *schemaWriter) map[string]any {
	text := s.of(reflect.TypeFor[Text](), limits{})
	return tonguesForm(map[string]any{"anyOf": []any{text, map[string]any{"type": "array", "items": text}}})
}
