package trade

import "slices"

// A Term is a word of the trade, or of the program, explained.
type Term struct {
	Term       string   `yaml:"term"`
	Definition string   `yaml:"definition"`
	Ours       bool     `yaml:"ours,omitempty"` // a word that the program uses in a way of its own
	Use        Use      `yaml:"use,omitempty"`  // where the head word is at home
	Also       []Also   `yaml:"also,omitempty"`
	See        []string `yaml:"see,omitempty"` // seam types and finishes by name
	Source     Source   `yaml:"source"`
}

// A Pair is a British and an American word for the same thing.
type Pair struct {
	British  string `yaml:"british"`
	American string `yaml:"american"`
}

type glossaryTable struct {
	Source Source `yaml:"source"`
	Terms  []Term `yaml:"terms"`
}

type pairTable struct {
	Source Source `yaml:"source"`
	Pairs  []Pair `yaml:"pairs"`
}

var glossaryData = once(func() ([]Term, error) {
	t, err := table[glossaryTable]("glossary")
	if err != nil {
		return nil, err
	}
	for i := range t.Terms {
		if t.Terms[i].Source == "" {
			t.Terms[i].Source = t.Source
		}
	}
	return t.Terms, nil
})

var pairData = onceTable[pairTable]("synonyms")

// An abroadTable is what a search knows beside the trade's own words.
type abroadTable struct {
	Source Source                `yaml:"source"`
	Words  []map[string][]string `yaml:"words"` // by language, English first of all
	Asked  [][]string            `yaml:"asked"`
}

var abroadData = onceTable[abroadTable]("abroad")

// Glossary is the trade's vocabulary and the program's own words, in alphabetical order.
func Glossary() []Term { return slices.Clone(glossaryData()) }

// Synonyms are groups of words that a search should take for one another:
// the pairs, every head word with the words for it, of all tables here, and what
// other languages call it. Each group is in a fixed order, its first word the preferred one.
func Synonyms() [][]string {
	var out [][]string
	add := func(head string, also []Also) {
		group := []string{head}
		for _, a := range also {
			if !slices.Contains(group, a.Term) {
				group = append(group, a.Term)
			}
		}
		if len(group) > 1 {
			out = append(out, group)
		}
	}
	for _, p := range pairData().Pairs {
		out = append(out, []string{p.British, p.American})
	}
	for _, t := range glossaryData() {
		add(t.Term, t.Also)
	}
	for _, t := range seamTypes() {
		add(t.Title, t.Also)
	}
	for _, f := range fibreData() {
		add(f.Name, f.Also)
	}
	for _, m := range sizeData().Measurements {
		add(m.Title, m.Also)
	}
	for _, s := range stitchData().Stitches {
		add(s.Name, s.Also)
	}
	for _, row := range abroadData().Words {
		var group []string
		for _, language := range abroadLanguages {
			for _, w := range row[language] {
				if !slices.Contains(group, w) {
					group = append(group, w)
				}
			}
		}
		out = append(out, group)
	}
	return append(out, abroadData().Asked...)
}

// abroadLanguages are the languages of that table, the words of the notebook first.
var abroadLanguages = []string{"en", "de", "fr", "es", "it", "nl", "ja"}
