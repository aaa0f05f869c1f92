package sheet

import (
	"embed"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"
	"gopkg.in/yaml.v3"

	"hembook/internal/record"
)

// Languages are those the sheets can be written in. The first is the one
// everything else falls back to.
var Languages = []string{"en", "de", "fr", "es", "it", "nl", "ja"}

//go:embed words/*.yaml
var wordFiles embed.FS

// A word is one entry of a language: a text, or a text for each plural form.
type word struct {
	text     string
	forms    map[string]string // by CLDR plural category: one, many, other …
	reviewed bool              // someone who speaks the language has read it
}

// texts are all texts of an entry, in a fixed order.
func (w word) texts() []string {
	if w.forms == nil {
		return []string{w.text}
	}
	var out []string
	for _, form := range slices.Sorted(maps.Keys(w.forms)) {
		out = append(out, w.forms[form])
	}
	return out
}

// A wordList is a language's file.
type wordList struct {
	words   map[string]word
	garment record.Noun // what sentences call a garment that has no noun of its own
	genders []string    // of the nouns of garments, in the order their forms stand in
}

// UnmarshalYAML reads the two halves of a file: what was reviewed, and what is
// from memory.
func (l *wordList) UnmarshalYAML(n *yaml.Node) error {
	var file struct {
		Language string               `yaml:"language"`
		Garment  string               `yaml:"garment"`
		Genders  []string             `yaml:"genders"`
		Reviewed map[string]yaml.Node `yaml:"reviewed"`
		Memory   map[string]yaml.Node `yaml:"from-memory"`
	}
	if err := n.Decode(&file); err != nil {
		return err
	}
	*l = wordList{words: map[string]word{}, genders: file.Genders}
	var known bool
	if l.garment, known = record.NounOf(file.Garment); !known || !slices.Contains(file.Genders, l.garment.Gender) {
		return fmt.Errorf("%q is no noun with its gender", file.Garment)
	}
	for half, entries := range []map[string]yaml.Node{file.Reviewed, file.Memory} {
		for key, node := range entries {
			w := word{reviewed: half == 0}
			into := any(&w.text)
			if node.Kind == yaml.MappingNode {
				into = &w.forms
			}
			if err := node.Decode(into); err != nil {
				return err
			}
			w.text = heldTogether(w.text, file.Language)
			for form, text := range w.forms {
				w.forms[form] = heldTogether(text, file.Language)
			}
			if _, twice := l.words[key]; twice {
				return fmt.Errorf("%s stands in both halves", key)
			}
			l.words[key] = w
		}
	}
	return nil
}

// withUnit is a number, or what stands for one, and its unit.
var withUnit = regexp.MustCompile(`([0-9}]) (°C|%|mm|cm|kg)($|[^\pL])`)

// frenchSigns are the signs that stand apart from the word before them, or behind them, in
// French.
var frenchSigns = strings.NewReplacer(" :", gap+":", " ;", gap+";", " !", gap+"!", " ?", gap+"?", " »", gap+"»", "« ", "«"+gap)

// heldTogether keeps a line from breaking between a number and its unit, and in French
// before the signs that stand apart.
func heldTogether(text, code string) string {
	text = withUnit.ReplaceAllString(text, "$1"+gap+"$2$3")
	if code == "fr" {
		text = frenchSigns.Replace(text)
	}
	return text
}

// A dictionary is every language's words, ready to be printed.
type dictionary struct {
	lists map[string]wordList
	order map[string][]string // the names in a text's braces, as English has them first
	built *catalog.Builder
}

var words = sync.OnceValue(func() *dictionary {
	d, err := readWords()
	if err != nil {
		panic("sheet: " + err.Error()) // our own files; a test reads them
	}
	return d
})

func readWords() (*dictionary, error) {
	d := &dictionary{lists: map[string]wordList{}, order: map[string][]string{}, built: catalog.NewBuilder(catalog.Fallback(language.English))}
	for _, code := range Languages {
		data, err := wordFiles.ReadFile(path.Join("words", code+".yaml"))
		if err != nil {
			return nil, err
		}
		var list wordList
		if err := yaml.Unmarshal(data, &list); err != nil {
			return nil, fmt.Errorf("%s: %w", code, err)
		}
		d.lists[code] = list
	}
	for key, w := range d.lists[Languages[0]].words {
		d.order[key] = braces(w.texts()...)
	}
	for _, code := range Languages {
		if err := d.build(code); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// build puts a language's words into the catalogue.
func (d *dictionary) build(code string) error {
	tag := language.MustParse(code)
	for key, w := range d.lists[code].words {
		names, known := d.order[key]
		if !known {
			return fmt.Errorf("%s: %q is no word of the English list", code, key)
		}
		var err error
		if w.forms == nil {
			err = d.buildText(tag, key, w.text, d.lists[code].genders)
		} else {
			var cases []any
			for _, form := range []string{"zero", "one", "two", "few", "many", "other"} { // "other" must come last
				if text, ok := w.forms[form]; ok {
					cases = append(cases, form, verbs(text, names))
				}
			}
			err = d.built.Set(tag, key, plural.Selectf(1+slices.Index(names, "n"), "%d", cases...))
		}
		if err != nil {
			return fmt.Errorf("%s: %s: %w", code, key, err)
		}
	}
	return nil
}

// buildText puts a text into the catalogue, once for each gender that the garment's noun
// may have.
func (d *dictionary) buildText(tag language.Tag, key, text string, genders []string) error {
	for _, gender := range genders {
		said, err := inGender(text, slices.Index(genders, gender), len(genders))
		if err != nil {
			return err
		}
		if err := d.built.SetString(tag, genderKey(key, gender), verbs(said, d.order[key])); err != nil {
			return err
		}
	}
	return nil
}

// genderKey is a text's name in the catalogue for garments of a gender.
func genderKey(key, gender string) string { return key + " " + gender }

// genderForms are the forms of a few words that follow the gender of the garment's noun.
var genderForms = regexp.MustCompile(`\[([^\[\]]*)\]`)

// inGender is a text as it is said of a garment whose noun has one gender of so many.
func inGender(text string, gender, of int) (string, error) {
	var err error
	said := genderForms.ReplaceAllStringFunc(text, func(s string) string {
		forms := strings.Split(strings.Trim(s, "[]"), "|")
		if len(forms) != of {
			err = fmt.Errorf("%s has %d forms, there are %d genders", s, len(forms), of)
			return s
		}
		return forms[gender]
	})
	return said, err
}

// braces lists the names in braces, each once, in the order they stand.
func braces(texts ...string) []string {
	var out []string
	for _, text := range texts {
		for {
			_, rest, open := strings.Cut(text, "{")
			name, tail, closed := strings.Cut(rest, "}")
			if !open || !closed {
				break
			}
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
			text = tail
		}
	}
	return out
}

// verbs turns names in braces into what the printer reads.
func verbs(text string, names []string) string {
	text = strings.ReplaceAll(text, "%", "%%")
	for i, name := range names {
		text = strings.ReplaceAll(text, "{"+name+"}", fmt.Sprintf("%%[%d]v", i+1))
	}
	return text
}

// A tongue writes fixed words in one language, and remembers which it lacked.
type tongue struct {
	code    string
	noun    record.Noun // of the garment
	printer *message.Printer
	english *message.Printer
	lacked  map[string]bool
}

// newTongue is nil for a language there is no list for.
func newTongue(code string) *tongue {
	if !slices.Contains(Languages, code) {
		return nil
	}
	d := words()
	return &tongue{
		code:    code,
		noun:    d.lists[code].garment,
		printer: message.NewPrinter(language.MustParse(code), message.Catalog(d.built)),
		english: message.NewPrinter(language.English, message.Catalog(d.built)),
		lacked:  map[string]bool{},
	}
}

// speakOf takes the garment's own noun where the record has one.
func (t *tongue) speakOf(b *record.Build) {
	if n, ok := b.Noun.Get(t.code); ok && slices.Contains(words().lists[t.code].genders, n.V.Gender) {
		t.noun = n.V
	}
}

// has reports whether there is such a word at all.
func (t *tongue) has(key string) bool {
	_, ok := words().lists[Languages[0]].words[key]
	return ok
}

// say writes a fixed word, with what stands in its braces as name and value by
// turns; the garment's noun it knows itself. A word the language lacks comes in English with a mark before it.
func (t *tongue) say(key string, with ...any) string {
	d := words()
	names, known := d.order[key]
	if !known {
		panic("sheet: there is no word " + key)
	}
	args := make([]any, len(names))
	for i, name := range names {
		if name == "noun" {
			args[i] = t.noun.Word
		}
		for k := 0; k+1 < len(with); k += 2 {
			if with[k] == name {
				args[i] = with[k+1]
			}
		}
		if args[i] == nil {
			panic("sheet: " + key + " is said without its " + name)
		}
	}
	if w, ok := d.lists[t.code].words[key]; ok {
		return said(t.printer, key, w, t.noun.Gender, args)
	}
	t.lacked[key] = true
	english := d.lists[Languages[0]]
	return foreign("en") + said(t.english, key, english.words[key], english.garment.Gender, args)
}

// said prints a word of the catalogue of a garment of that gender.
func said(p *message.Printer, key string, w word, gender string, args []any) string {
	if w.forms == nil {
		key = genderKey(key, gender)
	}
	return p.Sprintf(message.Key(key, key), args...)
}

// foreign is the mark before words in another language than the sheet's.
func foreign(code string) string { return "[" + code + "] " }

// raw is a text with its braces, for what fills them in elsewhere.
func (t *tongue) raw(key string) string {
	if w, ok := words().lists[t.code].words[key]; ok {
		return w.text
	}
	return words().lists[Languages[0]].words[key].text
}

// sayOr is say where there is such a word, else the maker's own.
func (t *tongue) sayOr(key, own string) string {
	if t.has(key) {
		return t.say(key)
	}
	return own
}

// missing lists the words that were lacked, sorted.
func (t *tongue) missing() []string { return slices.Sorted(maps.Keys(t.lacked)) }
