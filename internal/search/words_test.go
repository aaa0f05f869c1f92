package search

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

var tokenSamples = []string{
	"", "Seam", "seams, dresses and stitches", "Appliqué façade", "Größe Straße", "tailor's chalk", "tailors’ ham", "don't",
	"cross-section", "cross‑cut", "15 mm", "15mm", "1.5 cm", "5/8 in", "1½ yd", "½", "1,500 mm", "1,5 mm", "150 g/m²", "ISO 4915",
	"301", "type 2.01", "10-12", "and/or", "end.", "…dots…", "o'clock", "ﬁne", "A4", "m2", "halves feet women", "bias canvas lens",
	"organza organzas", "hoodie hoodies", "boxes axes sizes", "a b c", "İstanbul", "ΣΟΦΟΣ", "日本語 text", "x-ray-y", "3 mm-wide", "-a-", "'tis",
	"2026-08-03", "14:10", "100 %", strings.Repeat("long", 30), "\u00ad soft\u00adhyphen", "𝔸stral",
}

func TestWords(t *testing.T) {
	for _, c := range []struct{ text, terms, joins string }{
		{"French seams", "french seam", ""},
		{"stitches, dresses; boxes & sizes", "stitch dress box size", ""},
		{"Appliqué", "applique", ""},
		{"Straße", "strasse", ""},
		{"the tailor's chalk", "the tailor chalk", ""},
		{"cross-section", "cross section", "crosssection"},
		{"15mm", "15 mm", "15mm"},
		{"15 mm", "15 mm", "15mm"},
		{"1½ in", "1 1/2 in", "1/2in"},
		{"5/8 in", "5/8 in", "5/8in"},
		{"1,500 mm or 1,5 m", "1500 mm or 1.5 m", "1500mm 1.5m"},
		{"10-12", "10 12", ""},
		{"and/or.", "and or", ""},
		{"150 g/m²", "150 g m 2", "150g m2"},
		{"batteries", "battery", ""},
		{"gas bus", "gas bus", ""},
		{"", "", ""},
	} {
		words, joins := newReader().read(c.text)
		var made []string
		for _, j := range joins {
			made = append(made, j.term)
		}
		slices.Sort(made)
		want := strings.Fields(c.joins)
		slices.Sort(want)
		if got := strings.Join(plain(words), " "); got != c.terms || !slices.Equal(made, want) {
			t.Errorf("%q: terms %q and joins %q, want %q and %q", c.text, got, made, c.terms, want)
		}
	}
}

func TestForms(t *testing.T) {
	for term, want := range map[string]string{"seam": "seams", "dress": "dresses", "battery": "batterys batteries batterie", "box": "boxs boxes", "501": ""} {
		if got := strings.Join(forms(term), " "); got != want {
			t.Errorf("%q may be written %q, want %q", term, got, want)
		}
	}
}

func FuzzWords(f *testing.F) {
	for _, s := range tokenSamples {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		words, joins := newReader().read(text)
		for _, w := range words {
			if w.raw == "" || w.term == "" || utf8.RuneCountInString(w.raw) > mostLetters || strings.ContainsAny(w.term, " ,|*'-") {
				t.Errorf("%q has the word %+q", text, w)
			}
			if again, _ := newReader().read(w.raw); utf8.ValidString(text) && (len(again) != 1 || again[0] != w) {
				t.Errorf("%q: the word %+q reads %+q alone", text, w, again)
			}
		}
		for _, j := range joins {
			if j.first < 0 || j.first >= j.last || j.last >= len(words) {
				t.Errorf("%q joins %+v of %d words", text, j, len(words))
			}
		}
	})
}
