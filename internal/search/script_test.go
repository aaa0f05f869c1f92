package search

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"hembook/internal/chromium"
	"hembook/internal/trade"

	"gopkg.in/yaml.v3"
)

// asking asks the script's answers to many queries in one go.
func asking(w *window, queries []string, need int) [][]int {
	w.t.Helper()
	return eval[[][]int](w, `(async () => {
		const out = [];
		for (const q of %s) out.push((await hembook.parts.answer(q, %s, null)).docs);
		return out;
	})()`, queries, need)
}

// agree compares the script with the reference.
func agree(t *testing.T, w *window, f *reference, queries []string) {
	t.Helper()
	wrong := 0
	for i, got := range asking(w, queries, 10) {
		if want := f.answer(queries[i], 10, nil); !slices.Equal(got, want) {
			if wrong++; wrong < 6 {
				t.Errorf("%q: found %v, want %v", queries[i], got, want)
			}
		}
	}
	if wrong > 0 {
		t.Errorf("%d of %d queries differ", wrong, len(queries))
	}
}

func build(t *testing.T, docs []Document, opt Options) *Index {
	t.Helper()
	x, err := Build(docs, opt)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestScriptAgreesWithTheSlowSearch asks for titles, words of texts,
// beginnings, slips, words that do not exist and mixtures of them.
func TestScriptAgreesWithTheSlowSearch(t *testing.T) {
	ctx := chromium.LongTab(t)
	a := synthetic(400, 3)
	x := build(t, a.docs, syntheticOptions)
	w := open(t, ctx, publish(t, x, themeScripts(t)))
	f := newReference(a.docs, syntheticOptions.Synonyms)
	r := rand.New(rand.NewPCG(5, 5))
	pick := func() string {
		text := strings.Fields(a.docs[r.IntN(len(a.docs))].Text)
		return text[r.IntN(len(text))]
	}
	kinds := map[string]func() string{
		"titles":     func() string { return a.docs[r.IntN(len(a.docs))].Title },
		"words":      func() string { return pick() + " " },
		"two words":  func() string { return pick() + " " + pick() + " " },
		"beginnings": func() string { q := strings.Trim(pick(), ".,"); return q[:1+r.IntN(len(q))] },
		"word and beginning": func() string {
			q := strings.Trim(pick(), ".,")
			return pick() + " " + q[:1+r.IntN(min(len(q), 3))]
		},
		"slips":          func() string { return slip(r, strings.Trim(pick(), ".,")) + " " },
		"title with one": func() string { return slipInTitle(r, a.docs[r.IntN(len(a.docs))].Title) },
		"unfinished":     func() string { q := slip(r, strings.Trim(pick(), ".,")); return q[:max(1, len(q)-r.IntN(3))] },
		"nonsense":       func() string { return "qqxz " + pick() },
	}
	for _, name := range slices.Sorted(maps.Keys(kinds)) { // in one order, so that chance is the same in every run
		next := kinds[name]
		t.Run(name, func(t *testing.T) {
			var queries []string
			for range 40 {
				queries = append(queries, next())
			}
			agree(t, w, f, queries)
		})
	}
	// the hash of a title of this archive has the same rest to 91³ as that of "ci"
	t.Run("all but a title's hash", func(t *testing.T) { agree(t, w, f, []string{"ci"}) })
}

// slip makes one slip of a kind chosen by chance, or of a kind given.
func slip(r *rand.Rand, w string) string { return slipOf(r, w, r.IntN(5)) }

var slipKinds = [5]string{"dropped", "added", "replaced", "swapped", "first letter wrong"}

func slipOf(r *rand.Rand, w string, kind int) string {
	l := []rune(w)
	if len(l) < 3 {
		return w
	}
	i := r.IntN(len(l))
	other := func(c rune) rune {
		for {
			if o := rune('a' + r.IntN(26)); o != c {
				return o
			}
		}
	}
	switch kind {
	case 0:
		l = slices.Delete(l, i, i+1)
	case 1:
		l = slices.Insert(l, i, other(0))
	case 2:
		l[i] = other(l[i])
	case 3:
		i = r.IntN(len(l) - 1)
		l[i], l[i+1] = l[i+1], l[i]
	case 4:
		l[0] = other(l[0])
	}
	return string(l)
}

// slipInTitle makes a slip in a word of four letters or more.
func slipInTitle(r *rand.Rand, title string) string {
	words := strings.Fields(title)
	for _, i := range r.Perm(len(words)) {
		if len(words[i]) >= 4 {
			words[i] = slip(r, words[i])
			break
		}
	}
	return strings.Join(words, " ")
}

func TestEveryTitleIsFoundFirst(t *testing.T) {
	ctx := chromium.LongTab(t)
	a := synthetic(300, 9)
	w := open(t, ctx, publish(t, build(t, a.docs, syntheticOptions), themeScripts(t)))
	var queries []string
	owner := map[string]int{}
	for i, d := range a.docs {
		queries = append(queries, d.Title)
		words, _ := newReader().read(d.Title)
		if name := strings.Join(plain(words), " "); owner[name] == 0 {
			owner[name] = i + 1
		}
	}
	for i, got := range asking(w, queries, 10) {
		words, _ := newReader().read(queries[i])
		if want := owner[strings.Join(plain(words), " ")] - 1; len(got) == 0 || got[0] != want {
			t.Errorf("%q: found %v, want %d first", queries[i], got, want)
		}
	}
}

// TestSynonymsBothWays has, for each British and American pair, a page with one
// and a page with the other.
func TestSynonymsBothWays(t *testing.T) {
	ctx := chromium.LongTab(t)
	text, err := os.ReadFile("../trade/tables/synonyms.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var table struct{ Pairs []trade.Pair }
	if err := yaml.Unmarshal(text, &table); err != nil || len(table.Pairs) < 80 {
		t.Fatalf("%d pairs, %v", len(table.Pairs), err)
	}
	var docs []Document
	var queries []string
	for i, p := range table.Pairs {
		for k, word := range []string{p.British, p.American} {
			docs = append(docs, Document{Address: fmt.Sprintf("p%d-%d.html", i, k), Kind: "page", Title: fmt.Sprintf("Page %d", 2*i+k), Text: "Here is " + word + " at work."})
			queries = append(queries, word)
		}
	}
	w := open(t, ctx, publish(t, build(t, docs, Options{Synonyms: trade.Synonyms()}), themeScripts(t)))
	for i, got := range asking(w, queries, len(docs)) {
		if !slices.Contains(got, i) || !slices.Contains(got, i^1) {
			t.Errorf("%q: does not find both %q and %q", queries[i], queries[i], queries[i^1])
		}
	}
}

func TestEachKindOfSlip(t *testing.T) {
	ctx := chromium.LongTab(t)
	docs := []Document{
		{Address: "a.html", Kind: "technique", Title: "French seam", Text: "Two passes, wrong sides first."},
		{Address: "b.html", Kind: "technique", Title: "Interfacing", Text: "Fused or sewn in; stitches hold it."},
		{Address: "c.html", Kind: "technique", Title: "Buttonhole", Text: "By hand, with gimp."},
		{Address: "d.html", Kind: "technique", Title: "Underlining", Text: "Mounted as one with the shell."},
	}
	w := open(t, ctx, publish(t, build(t, docs, Options{}), themeScripts(t)))
	for _, c := range []struct {
		query string
		want  int
	}{
		{"frnch ", 0}, {"frrench ", 0}, {"frxnch ", 0}, {"frecnh ", 0}, {"grench ", 0}, {"rench ", 0}, {"rfench ", 0}, {"afrench ", 0},
		{"french saem", 0}, {"frenc seam", 0},
		{"intefacing ", 1}, {"interfacingg ", 1}, {"onterfacing ", 1}, {"intrefacing ", 1}, {"stithes ", 1}, {"sttich ", 1},
		{"buttonhloe ", 2}, {"buttonhol ", 2}, {"buttnhole ", 2}, {"gmip ", 2}, {"gim ", 2}, {"ximp ", 2},
		{"nuderlining ", 3}, {"undrelining ", 3}, {"underlinig ", 3}, {"underlni", 3},
	} {
		if got := asking(w, []string{c.query}, 10)[0]; len(got) == 0 || got[0] != c.want {
			t.Errorf("%q: found %v, want %d first", c.query, got, c.want)
		}
	}
}

// TestWordsAreTheSameOnBothSides compares how Go and the script split texts.
func TestWordsAreTheSameOnBothSides(t *testing.T) {
	ctx := chromium.LongTab(t)
	w := open(t, ctx, publish(t, build(t, []Document{{Address: "a.html", Title: "A"}}, Options{}), themeScripts(t)))
	texts := slices.Clone(tokenSamples)
	r := rand.New(rand.NewPCG(11, 2))
	bits := []string{"seam", "é", "ss", "’", "'s", "-", "1", "½", "23", ".", ",", "/", " ", " ", "mm", "ies", "Æ", "ﬁ", "İ", "Σ", "²", "\u00ad", "x", "°", "日", "ß", "𝔸", "Ⅳ", "٣"}
	for range 400 {
		var b strings.Builder
		for range 1 + r.IntN(12) {
			b.WriteString(bits[r.IntN(len(bits))])
		}
		texts = append(texts, b.String())
	}
	type seen struct {
		Raw, Term string
		Joins     []string
	}
	got := eval[[][]seen](w, `%s.map(t => hembook.parts.words(t).map(w => ({Raw: w.raw, Term: w.term, Joins: w.joins})))`, texts)
	for i, text := range texts {
		words, joins := newReader().read(text)
		want := make([]seen, len(words))
		for k, v := range words {
			want[k] = seen{v.raw, v.term, []string{}}
			for _, j := range joins {
				if j.first <= k && k <= j.last {
					want[k].Joins = append(want[k].Joins, j.term)
				}
			}
		}
		sorted := func(s []seen) string {
			for k := range s {
				slices.Sort(s[k].Joins)
			}
			return fmt.Sprint(s)
		}
		if sorted(got[i]) != sorted(want) {
			t.Errorf("%q: the script reads %v, Go %v", text, got[i], want)
		}
	}
}
