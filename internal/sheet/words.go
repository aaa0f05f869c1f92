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
type wordList map[string]word

// UnmarshalYAML reads the two halves of a file: what was reviewed, and what is
// from memory.
func (l *wordList) UnmarshalYAML(n *yaml.Node) error {
	var file struct {
		Language string               `yaml:"language"`
		Reviewed map[string]yaml.Node `yaml:"reviewed"`
		Memory   map[string]yaml.Node `yaml:"from-memory"`
	}
	if err := n.Decode(&file); err != nil {
		return err
	}
	*l = wordList{}
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
			if _, twice := (*l)[key]; twice {
				return fmt.Errorf("%s stands in both halves", key)
			}
			(*l)[key] = w
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
	for key, w := range d.lists[Languages[0]] {
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
	for key, w := range d.lists[code] {
		names, known := d.order[key]
		if !known {
			return fmt.Errorf("%s: %q is no word of the English list", code, key)
		}
		var err error
		if w.forms == nil {
			err = d.built.SetString(tag, key, verbs(w.text, names))
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
		printer: message.NewPrinter(language.MustParse(code), message.Catalog(d.built)),
		english: message.NewPrinter(language.English, message.Catalog(d.built)),
		lacked:  map[string]bool{},
	}
}

// has reports whether there is such a word at all.
func (t *tongue) has(key string) bool {
	_, ok := words().lists[Languages[0]][key]
	return ok
}

// say writes a fixed word, with what stands in its braces as name and value by
// turns. A word the language lacks comes in English with a mark before it.
func (t *tongue) say(key string, with ...any) string {
	d := words()
	names, known := d.order[key]
	if !known {
		panic("sheet: there is no word " + key)
	}
	args := make([]any, len(names))
	for i, name := range names {
		for k := 0; k+1 < len(with); k += 2 {
			if with[k] == name {
				args[i] = with[k+1]
			}
		}
		if args[i] == nil {
			panic("sheet: " + key + " is said without its " + name)
		}
	}
	if _, ok := d.lists[t.code][key]; ok {
		return t.printer.Sprintf(message.Key(key, key), args...)
	}
	t.lacked[key] = true
	return foreign("en") + t.english.Sprintf(message.Key(key, key), args...)
}

// foreign is the mark before words in another language than the sheet's.
func foreign(code string) string { return "[" + code + "] " }

// raw is a text with its braces, for what fills them in elsewhere.
func (t *tongue) raw(key string) string {
	if w, ok := words().lists[t.code][key]; ok {
		return w.text
	}
	return words().lists[Languages[0]][key].text
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
