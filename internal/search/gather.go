package search

import (
	"slices"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// A term is an entry of the dictionary with the documents that have it. It never
// changes once it is made.
type term struct {
	text   string // a word; words with a space between, for a phrase that has synonyms; or a beginning followed by *
	weight int
	all    []posting // best first: by level, then by document
	found  []posting // all
	cut    bool      // found is only the best of them: a little word that stands nearly everywhere
}

// newTerm is a term of an index of n documents.
func newTerm(text string, all []posting, n int) *term {
	t := &term{text: text, weight: weight(len(all), n), all: all, found: all}
	if len(all) > n/2 && len(all) > headLength {
		t.found, t.cut = all[:headLength], true
	}
	return t
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
func (x *Index) gather(was *Index) {
	total := 0
	for _, r := range x.read {
		total += r.length
	}
	x.average = total / max(len(x.read), 1)
	if was != nil && x.placed && x.average == was.average && len(x.changed) <= len(x.read)/8 {
		x.regather(was)
		return
	}
	x.byWord = gatherAll(x.read, x.words, x.average)
	x.order(nil, nil)
}

// levelOf is the level of a document for the term in a place of its list.
func (r *reading) levelOf(i, average int) uint8 {
	c := r.counts[i]
	l := level(int(c.times), r.length, average, int(c.bonus))
	if r.last {
		l = lastLevel(l)
	}
	return uint8(l)
}

// gatherAll makes the term of every word.
func gatherAll(read []*reading, words *lexicon, average int) []*term {
	df := make([]int, len(words.texts))
	all := 0
	for _, r := range read {
		all += len(r.terms)
		for _, id := range r.terms {
			df[id]++
		}
	}
	room := make([]posting, all)
	found := make([][]posting, len(df)) // in the order of the documents
	for id, k := range df {
		found[id], room = room[:0:k], room[k:]
	}
	for doc, r := range read {
		for i, id := range r.terms {
			found[id] = append(found[id], posting{uint32(doc), r.levelOf(i, average)})
		}
	}
	out := make([]*term, len(found))
	for id, list := range found {
		if len(list) > 0 {
			out[id] = newTerm(words.texts[id], byLevel(list), len(read))
		}
	}
	return out
}

// A move is what became of a document in the list of a term: its level before and
// after; none where it was not in it, or is not.
type move struct {
	doc     uint32
	had, is int
}

const none = -1

// regather makes anew the terms of documents that read otherwise than before.
func (x *Index) regather(was *Index) {
	moves := map[uint32][]move{} // by the number of the word, in the order of the documents
	for _, doc := range x.changed {
		had := map[uint32]int{}
		for i, id := range was.read[doc].terms {
			had[id] = int(was.read[doc].levelOf(i, x.average))
		}
		for i, id := range x.read[doc].terms {
			l, ok := had[id]
			if delete(had, id); !ok {
				l = none
			}
			if is := int(x.read[doc].levelOf(i, x.average)); is != l {
				moves[id] = append(moves[id], move{uint32(doc), l, is})
			}
		}
		for id, l := range had {
			moves[id] = append(moves[id], move{uint32(doc), l, none})
		}
	}
	x.byWord = make([]*term, len(x.words.texts))
	copy(x.byWord, was.byWord)
	other := make([]string, 0, len(moves))
	for id, list := range moves {
		text := x.words.texts[id]
		other = append(other, text)
		var all []posting
		if t := x.byWord[id]; t != nil {
			all = t.all
		}
		x.byWord[id] = nil
		if all = moved(all, list); len(all) > 0 {
			x.byWord[id] = newTerm(text, all, len(x.read))
		}
	}
	slices.Sort(other)
	x.order(was, other)
}

// moved is a list of postings, best first, once documents in it have moved.
func moved(list []posting, moves []move) []posting {
	gone := make(map[uint32]bool, len(moves))
	var come []posting
	for _, m := range moves {
		gone[m.doc] = m.had != none
		if m.is != none {
			come = append(come, posting{m.doc, uint8(m.is)})
		}
	}
	byWorth(come)
	out := make([]posting, 0, len(list)+len(come))
	for _, p := range list {
		if len(moves) == 1 && p.doc != moves[0].doc || len(moves) > 1 && !gone[p.doc] {
			for len(come) > 0 && worth(come[0], p) < 0 {
				out, come = append(out, come[0]), come[1:]
			}
			out = append(out, p)
		}
	}
	return append(out, come...)
}

// order puts the terms in the order of the dictionary, the beginnings among them.
// other are the texts of terms that are not as they were, in order.
func (x *Index) order(was *Index, other []string) {
	byText := func(a, b *term) int { return compare(a.text, b.text) }
	out := slices.DeleteFunc(slices.Clone(x.byWord), func(t *term) bool { return t == nil }) // those of documents that are gone
	slices.SortFunc(out, byText)
	s := starring{n: len(x.read), other: other, made: map[string]*term{}}
	if was != nil {
		s.had = was.starred
	}
	if more := s.stars(out); len(more) > 0 {
		out = append(out, more...)
		slices.SortFunc(out, byText)
	}
	x.terms, x.starred = out, s.made
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

func byWorth(list []posting) { slices.SortFunc(list, worth) }

// worth orders postings: the better first.
func worth(a, b posting) int {
	if a.level != b.level {
		return int(b.level) - int(a.level)
	}
	return int(a.doc) - int(b.doc)
}

// A starring finds the beginnings that many terms share.
type starring struct {
	n     int              // documents
	had   map[string]*term // those of before
	other []string         // the texts of terms that are not as they were then, in order
	made  map[string]*term
}

// stars are the beginnings that many terms share, each with the best documents
// of all of them. The terms are in order, so that those of a beginning stand
// together.
func (s *starring) stars(terms []*term) []*term {
	words := make([]*term, 0, len(terms))
	for _, t := range terms {
		if !t.phrase() {
			words = append(words, t)
		}
	}
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
				out = append(out, s.star(beginning, list[:k]))
				look(list[:k], length+size)
			}
			list = list[k:]
		}
	}
	look(words, 0)
	return out
}

// star is the term of a beginning, where none of its terms is other than before that
// of before.
func (s *starring) star(beginning string, list []*term) *term {
	t := s.had[beginning]
	if at, _ := slices.BinarySearch(s.other, beginning); t == nil || at < len(s.other) && strings.HasPrefix(s.other[at], beginning) {
		t = bestOf(beginning, list, s.n)
	}
	s.made[beginning] = t
	return t
}

// bestOf gathers the best postings of some terms of n documents.
func bestOf(beginning string, list []*term, n int) *term {
	most := min(max(n/16, leastStar), headLength)
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
