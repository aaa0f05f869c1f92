package search

import (
	"slices"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// A term is an entry of the dictionary with the documents that have it.
type term struct {
	text   string // a word; words with a space between, for a phrase that has synonyms; or a beginning followed by *
	weight int
	found  []posting // best first: by level, then by document
	cut    bool      // found is only the best of them: a little word that stands nearly everywhere
}

// A posting is a document with its level for a term.
type posting struct {
	doc   uint32
	level uint8
}

// phrase reports whether the term is several words.
func (t *term) phrase() bool { return strings.Contains(t.text, " ") }

// beginning reports whether the term stands for all that begin with it.
func (t *term) beginning() bool { return strings.HasSuffix(t.text, "*") }

// How much of a list stands in the dictionary's own lists.
const (
	headLength = 1000 // postings of a term that are read first
	manyFound  = 2000 // a beginning of terms with more postings than this has a list of its own
	leastStar  = 32   // the least postings in such a list
)

// A gatherer collects what terms the documents have.
type gatherer struct {
	reader
	ids     map[string]uint32
	texts   []string
	counts  [][]count
	lengths []int
	total   int
	phrases map[string][][]string // by their first word
	at      []int32               // for each term: its place in now, plus 1
	now     []uint32              // terms of the document being read
	of      []count               // their counts
}

func newGatherer(synonyms [][]string) *gatherer {
	g := &gatherer{reader: *newReader(), ids: map[string]uint32{}, phrases: map[string][][]string{}}
	for _, group := range synonyms {
		for _, member := range group {
			if words := strings.Split(member, " "); len(words) > 1 {
				g.phrases[words[0]] = append(g.phrases[words[0]], words)
			}
		}
	}
	return g
}

// add counts the terms of the next document.
func (g *gatherer) add(d *Document) {
	length := g.field(d.Text, func(c *count, _ int) { c.times = min(c.times, 65534) + 1 })
	g.field(d.Title, func(c *count, n int) { c.bonus = max(c.bonus, titleBonus(n)) })
	for _, name := range d.Names {
		g.field(name, func(c *count, n int) { c.bonus = max(c.bonus, nameBonus(n)) })
	}
	doc := uint32(len(g.lengths))
	g.lengths = append(g.lengths, length)
	g.total += length
	for i, id := range g.now {
		c := g.of[i]
		c.doc = doc
		g.counts[id] = append(g.counts[id], c)
		g.at[id] = 0
	}
	g.now, g.of = g.now[:0], g.of[:0]
}

// field counts the terms of one field, and says how many words it has.
func (g *gatherer) field(text string, note func(c *count, words int)) int {
	words, joins := g.read(text)
	for _, w := range words {
		note(g.count(w.term), len(words))
	}
	for _, j := range joins {
		note(g.count(j.term), len(words))
	}
	for i, w := range words {
		for _, p := range g.phrases[w.term] {
			if startsWith(words[i:], p) {
				note(g.count(strings.Join(p, " ")), len(words))
			}
		}
	}
	return len(words)
}

func startsWith(words []word, phrase []string) bool {
	if len(words) < len(phrase) {
		return false
	}
	for i, p := range phrase {
		if words[i].term != p {
			return false
		}
	}
	return true
}

// count is the count of a term in the document being read.
func (g *gatherer) count(text string) *count {
	id, ok := g.ids[text]
	if !ok {
		text = strings.Clone(text)
		id = uint32(len(g.texts))
		g.ids[text], g.texts = id, append(g.texts, text)
		g.counts, g.at = append(g.counts, nil), append(g.at, 0)
	}
	if g.at[id] == 0 {
		g.now, g.of = append(g.now, id), append(g.of, count{})
		g.at[id] = int32(len(g.now))
	}
	return &g.of[g.at[id]-1]
}

// terms are all terms of so many documents in the order of the dictionary, the
// beginnings among them.
func (g *gatherer) terms(n int) []*term {
	average := g.total / max(n, 1)
	out := make([]*term, 0, len(g.texts))
	for id, text := range g.texts {
		t := &term{text: text, weight: weight(len(g.counts[id]), n)}
		t.found = make([]posting, len(g.counts[id]))
		for i, c := range g.counts[id] {
			l := level(int(c.times), g.lengths[c.doc], average, int(c.bonus))
			t.found[i] = posting{c.doc, uint8(l)}
		}
		g.counts[id] = nil
		byWorth(t.found)
		if len(t.found) > n/2 && len(t.found) > headLength {
			t.found, t.cut = slices.Clone(t.found[:headLength]), true
		}
		out = append(out, t)
	}
	out = append(out, stars(out, n)...)
	slices.SortFunc(out, func(a, b *term) int { return compare(a.text, b.text) })
	return out
}

func byWorth(list []posting) {
	slices.SortFunc(list, func(a, b posting) int {
		if a.level != b.level {
			return int(b.level) - int(a.level)
		}
		return int(a.doc) - int(b.doc)
	})
}

// stars are the beginnings that many terms share, each with the best documents
// of all of them.
func stars(terms []*term, n int) []*term {
	members := map[string][]*term{}
	for _, t := range terms {
		if t.phrase() {
			continue
		}
		for i := range t.text {
			if i > 0 {
				members[t.text[:i]] = append(members[t.text[:i]], t)
			}
		}
		members[t.text] = append(members[t.text], t)
	}
	most := min(max(n/16, leastStar), headLength)
	var out []*term
	for beginning, list := range members {
		found := 0
		for _, t := range list {
			found += len(t.found)
		}
		if len(list) > 4 && found > manyFound {
			out = append(out, star(beginning, list, most, n))
		}
	}
	return out
}

// star gathers the best postings of some terms.
func star(beginning string, list []*term, most, n int) *term {
	best := make([]uint8, n) // level plus 1
	s := &term{text: beginning + "*", weight: 90}
	var touched []uint32
	for _, t := range list {
		s.weight = min(s.weight, t.weight)
		// among the best of all are only the best of each
		for _, p := range t.found[:min(most, len(t.found))] {
			if best[p.doc] == 0 {
				touched = append(touched, p.doc)
			}
			best[p.doc] = max(best[p.doc], p.level+1)
		}
	}
	for _, d := range touched {
		s.found = append(s.found, posting{d, best[d] - 1})
	}
	byWorth(s.found)
	if len(s.found) > most {
		s.found, s.cut = slices.Clone(s.found[:most]), true
	}
	return s
}

// compare orders terms as a script's < does: by units of UTF-16.
func compare(a, b string) int {
	for a != "" && b != "" {
		c, n := utf8.DecodeRuneInString(a)
		d, m := utf8.DecodeRuneInString(b)
		if c != d {
			return int(firstUnit(c, d)) - int(firstUnit(d, c))
		}
		a, b = a[n:], b[m:]
	}
	return len(a) - len(b)
}

// firstUnit is the unit of c at which it differs from d.
func firstUnit(c, d rune) uint16 {
	cs, ds := utf16.Encode([]rune{c}), utf16.Encode([]rune{d})
	if len(cs) == 2 && len(ds) == 2 && cs[0] == ds[0] {
		return cs[1]
	}
	return cs[0]
}
