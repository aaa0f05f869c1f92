package trade

import (
	"slices"
	"strings"
	"testing"
)

func TestGlossary(t *testing.T) {
	terms := Glossary()
	if len(terms) < 90 {
		t.Errorf("only %d terms", len(terms))
	}
	seen := map[string]bool{}
	for _, g := range terms {
		if seen[strings.ToLower(g.Term)] {
			t.Errorf("%q is explained twice", g.Term)
		}
		seen[strings.ToLower(g.Term)] = true
		if len(strings.Fields(g.Definition)) < 6 || !strings.HasSuffix(g.Definition, ".") {
			t.Errorf("%q has no proper definition: %q", g.Term, g.Definition)
		}
		if n := strings.Count(g.Definition, ". ") + 1; n > 2 {
			t.Errorf("%q takes %d sentences", g.Term, n)
		}
		if g.Source.sure() == sureUnsaid {
			t.Errorf("%q has no source", g.Term)
		}
		for _, name := range g.See {
			if _, ok := SeamTypeNamed(name); !ok {
				t.Errorf("%q points at %q, which is no seam type", g.Term, name)
			}
		}
		for _, a := range g.Also {
			if a.Term == "" || a.Use != "" && a.Use != british && a.Use != american || strings.EqualFold(a.Term, g.Term) {
				t.Errorf("%q is also %+v", g.Term, a)
			}
		}
	}
}

func TestPairs(t *testing.T) {
	pairs, source := pairData().Pairs, pairData().Source
	if len(pairs) < 80 || source.sure() != sureMemory {
		t.Errorf("%d pairs from %q", len(pairs), source)
	}
	seen := map[Pair]bool{}
	for _, p := range pairs {
		if p.British == "" || p.American == "" || strings.EqualFold(p.British, p.American) || seen[p] {
			t.Errorf("pair %+v is empty, doubled or no pair", p)
		}
		seen[p] = true
	}
	for _, p := range []Pair{{"tacking", "basting"}, {"calico", "muslin"}, {"press stud", "snap"}, {"haberdashery", "notions"}} {
		if !seen[p] {
			t.Errorf("%+v is missing", p)
		}
	}
}

func TestSynonymsAreFixedAndWhole(t *testing.T) {
	a, b := Synonyms(), Synonyms()
	if len(a) < 150 || !slices.EqualFunc(a, b, slices.Equal) {
		t.Errorf("%d groups, and the second time %d", len(a), len(b))
	}
	for _, g := range a {
		if len(g) < 2 || slices.Contains(g, "") {
			t.Errorf("group %q", g)
		}
	}
}

// TestWordsAbroad: every row begins with an English word of the trade's tables, knows no
// language that the sheets do not, and says no word twice.
func TestWordsAbroad(t *testing.T) {
	all := abroadData()
	if len(all.Words) < 45 {
		t.Errorf("only %d rows", len(all.Words))
	}
	seen := map[string]bool{}
	for _, row := range all.Words {
		if len(row["en"]) == 0 || len(row["de"]) == 0 || len(row["fr"]) == 0 {
			t.Errorf("%q has no English, German or French word", row)
		}
		for language, list := range row {
			if !slices.Contains(abroadLanguages, language) {
				t.Errorf("%q is in the language %q", list, language)
			}
			for _, w := range list {
				if key := language + " " + w; seen[key] && w != "hilo" && w != "taille" && w != "gilet" {
					t.Errorf("%q stands for two things", key)
				}
				seen[language+" "+w] = true
			}
		}
	}
}
