package search

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"strings"

	"hembook/internal/trade"
)

// A maker of synthetic archives: documents of 150 to 400 words from a Zipf
// vocabulary of 20 000 words that mean nothing, with one word in eight of the
// trade. The same seed makes the same archive.
type archive struct {
	docs  []Document
	words []string
	trade []string
}

const vocabulary = 20_000

func synthetic(n int, seed uint64) *archive {
	r := rand.New(rand.NewPCG(seed, 7))
	a := &archive{trade: tradeWords(), words: madeUp(r)}
	sums := make([]float64, vocabulary)
	total := 0.0
	for i := range sums {
		total += 1 / math.Pow(float64(i+1), 1.0)
		sums[i] = total
	}
	pick := func(from int) string { // by Zipf, the most frequent few left out
		low := 0.0
		if from > 0 {
			low = sums[from-1]
		}
		x := low + r.Float64()*(total-low)
		return a.words[sort.SearchFloat64s(sums, x)]
	}
	word := func(from int) string {
		if r.IntN(8) == 0 {
			k := int(float64(len(a.trade)) * math.Pow(r.Float64(), 2))
			return a.trade[k]
		}
		return pick(from)
	}
	kinds := []string{"build", "technique", "cloth", "page"}
	for i := range n {
		var title []string
		for range 2 + r.IntN(3) {
			title = append(title, word(100))
		}
		d := Document{
			Address: fmt.Sprintf("%ss/%s-%d.html", kinds[i%4], strings.ReplaceAll(title[0], " ", "-"), i),
			Kind:    kinds[i%4], Title: capital(strings.Join(title, " ")),
			Text: prose(r, 150+r.IntN(251), func() string { return word(0) }),
			Facets: []Facet{
				{"cloth", []string{fmt.Sprintf("cloth %d", r.IntN(40))}},
				{"technique", []string{a.trade[r.IntN(60)], a.trade[r.IntN(60)]}},
				{"garment", []string{[]string{"dress", "skirt", "coat", "waistcoat"}[r.IntN(4)]}},
				{"year", []string{fmt.Sprint(1990 + r.IntN(36))}},
			},
		}
		if i%4 == 1 {
			d.Names = []string{word(100) + " " + word(100)}
		}
		a.docs = append(a.docs, d)
	}
	return a
}

var syntheticOptions = Options{Synonyms: trade.Synonyms(), Facets: []string{"cloth", "technique", "garment", "year"}}

// prose makes sentences of so many words.
func prose(r *rand.Rand, words int, word func() string) string {
	var b strings.Builder
	left := 0
	for i := range words {
		w := word()
		if left == 0 {
			left = 6 + r.IntN(14)
			w = capital(w)
		}
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(w)
		switch left--; {
		case left == 0 || i == words-1:
			b.WriteByte('.')
			left = 0
		case r.IntN(11) == 0:
			b.WriteByte(',')
		}
	}
	return b.String()
}

func capital(w string) string { return strings.ToUpper(w[:1]) + w[1:] }

// madeUp makes words of syllables; frequent ones are shorter.
func madeUp(r *rand.Rand) []string {
	starts := strings.Fields("b b c c d d d f f g h h j k l l l m m m n n n p p p r r r s s s t t t v w w br ch cl cr fl gr pl sh st th tr")
	vowels := strings.Fields("a a e e e i i o o u ea ai ou oo y")
	ends := strings.Fields("_ _ _ _ n n r r s t t l d m ng nd nt st ck rs ll")
	seen := map[string]bool{}
	var out []string
	for len(out) < vocabulary {
		syllables := 1
		switch n := r.IntN(10); {
		case len(out) > 3000:
			syllables = 2 + n/6
		case len(out) > 200:
			syllables = 1 + n/3 - n/7
		}
		var b strings.Builder
		for range syllables {
			b.WriteString(starts[r.IntN(len(starts))] + vowels[r.IntN(len(vowels))])
		}
		b.WriteString(ends[r.IntN(len(ends))])
		w := strings.ReplaceAll(b.String(), "_", "")
		if !seen[w] && len(w) > 1 {
			seen[w] = true
			out = append(out, w)
		}
	}
	return out
}

func tradeWords() []string {
	var out []string
	seen := map[string]bool{}
	for _, t := range trade.Glossary() {
		for _, w := range strings.Fields(strings.ToLower(t.Term)) {
			if !seen[w] && len(w) > 2 {
				seen[w] = true
				out = append(out, w)
			}
		}
	}
	return out
}
