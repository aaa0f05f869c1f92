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

// gather collects the terms of all documents in the order of the dictionary,
// the beginnings among them.
func gather(read []*reading, words *lexicon) []*term {
	n, total := len(read), 0
	df := make([]int, len(words.texts))
	all := 0
	for _, r := range read {
		total += r.length
		all += len(r.terms)
		for _, id := range r.terms {
			df[id]++
		}
	}
	average := total / max(n, 1)
	room := make([]posting, all)
	found := make([][]posting, len(df)) // in the order of the documents
	for id, k := range df {
		found[id], room = room[:0:k], room[k:]
	}
	for doc, r := range read {
		for i, id := range r.terms {
			c := r.counts[i]
			l := level(int(c.times), r.length, average, int(c.bonus))
			if r.last {
				l = lastLevel(l)
			}
			found[id] = append(found[id], posting{uint32(doc), uint8(l)})
		}
	}
	var out []*term
	for id, list := range found {
		if len(list) == 0 {
			continue // a word of documents that are gone
		}
		t := &term{text: words.texts[id], weight: weight(len(list), n), found: byLevel(list)}
		if len(t.found) > n/2 && len(t.found) > headLength {
			t.found, t.cut = slices.Clone(t.found[:headLength]), true
		}
		out = append(out, t)
	}
	byText := func(a, b *term) int { return compare(a.text, b.text) }
	slices.SortFunc(out, byText)
	if more := stars(out, n); len(more) > 0 {
		out = append(out, more...)
		slices.SortFunc(out, byText)
	}
	return out
}

// byLevel puts the highest level first, and keeps the order within each.
func byLevel(list []posting) []posting {
	var at [len(levels)]int
	for _, p := range list {
		at[p.level]++
	}
	for l, sum := len(at)-1, 0; l >= 0; l-- {
		at[l], sum = sum, sum+at[l]
	}
	out := make([]posting, len(list))
	for _, p := range list {
		out[at[p.level]] = p
		at[p.level]++
	}
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
// of all of them. The terms are in order, so that those of a beginning stand
// together.
func stars(terms []*term, n int) []*term {
	words := make([]*term, 0, len(terms))
	for _, t := range terms {
		if !t.phrase() {
			words = append(words, t)
		}
	}
	most := min(max(n/16, leastStar), headLength)
	var out []*term
	var look func(list []*term, length int)
	look = func(list []*term, length int) { // all begin with so many bytes alike
		for len(list) > 0 {
			if len(list[0].text) == length { // it is no longer than that
				list = list[1:]
				continue
			}
			_, size := utf8.DecodeRuneInString(list[0].text[length:])
			beginning := list[0].text[:length+size]
			k, found := 0, 0
			for k < len(list) && strings.HasPrefix(list[k].text, beginning) {
				found += len(list[k].found)
				k++
			}
			if k > 4 && found > manyFound {
				out = append(out, star(beginning, list[:k], most, n))
				look(list[:k], length+size)
			}
			list = list[k:]
		}
	}
	look(words, 0)
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
		if c != d && c <= 0xffff && d <= 0xffff {
			return int(c - d)
		}
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
