package search

import (
	"slices"
	"strings"
)

// A lexicon numbers words, in the order in which they are met.
type lexicon struct {
	ids   map[string]uint32
	texts []string
}

func newLexicon() *lexicon { return &lexicon{ids: map[string]uint32{}} }

// number is the number of a word.
func (v *lexicon) number(text string) uint32 {
	id, ok := v.ids[text]
	if !ok {
		text = strings.Clone(text)
		id = uint32(len(v.texts))
		v.ids[text], v.texts = id, append(v.texts, text)
	}
	return id
}

// A reading is what is read from a document, whatever the others are.
type reading struct {
	terms   []uint32 // their numbers
	counts  []count  // of each
	length  int      // of the text, in words
	keys    []int    // of its title and names
	last    bool     // it comes after others
	written []uint32 // the document as its file holds it, in segments
}

// A gatherer reads documents, one after the other.
type gatherer struct {
	reader
	words, segments *lexicon
	phrases         map[string][][]string // by their first word
	at              []int32               // for each word: its place in now, plus 1
	now             []uint32              // terms of the document being read
	of              []count               // their counts
}

func newGatherer(synonyms [][]string, words, segments *lexicon) *gatherer {
	g := &gatherer{reader: *newReader(), words: words, segments: segments, phrases: map[string][][]string{}}
	for _, group := range synonyms {
		for _, member := range group {
			if words := strings.Split(member, " "); len(words) > 1 {
				g.phrases[words[0]] = append(g.phrases[words[0]], words)
			}
		}
	}
	return g
}

// readAll reads the documents of an index. Those that are as they were in an
// earlier one, which may be nil, are taken over from there with its
// lexicons; then it returns that one.
func (x *Index) readAll(before *Index) (was *Index) {
	x.words, x.segments = newLexicon(), newLexicon()
	if before != nil && !before.worn() && slices.EqualFunc(before.folded, x.folded, slices.Equal) {
		was, x.words, x.segments, x.used = before, before.words, before.segments, before.used
	}
	g := newGatherer(x.folded, x.words, x.segments)
	x.read = make([]*reading, len(x.docs))
	x.placed = was != nil && len(was.docs) == len(x.docs)
	var had map[string]int
	for i := range x.docs {
		d := &x.docs[i]
		k, ok := i, was != nil && i < len(was.docs) && was.docs[i].Address == d.Address
		if !ok && was != nil {
			if had == nil {
				had = make(map[string]int, len(was.docs))
				for k := range was.docs {
					had[was.docs[k].Address] = k
				}
			}
			k, ok = had[d.Address]
		}
		if ok && d.readsLike(&was.docs[k]) {
			x.read[i] = was.read[k]
		} else {
			x.read[i] = g.document(d)
		}
		if x.placed && x.read[i] != was.read[i] {
			x.changed = append(x.changed, i)
		}
	}
	return was
}

// readsLike reports whether two documents of one address read the same.
func (d *Document) readsLike(e *Document) bool {
	return d.Kind == e.Kind && d.Title == e.Title && d.Text == e.Text && d.More == e.More && d.Page == e.Page && d.Under == e.Under && d.Last == e.Last &&
		slices.Equal(d.Names, e.Names) && slices.Equal(d.Answers, e.Answers)
}

// worn reports whether most of the words that an index knows are those of
// documents that are gone. What is in use is counted when there are many more words
// than at the count before.
func (x *Index) worn() bool {
	const some = 4096
	if len(x.words.texts) > 2*len(x.terms)+some {
		return true
	}
	if len(x.segments.texts) <= 2*x.used+some {
		return false
	}
	x.used = 0
	for _, n := range x.times {
		if n > 0 {
			x.used++
		}
	}
	return len(x.segments.texts) > 2*x.used+some
}

// document reads the next document.
func (g *gatherer) document(d *Document) *reading {
	r := &reading{keys: g.titleKeys(d), last: d.Last, written: g.segments.cut(d.written())}
	once := func(c *count, _ int) { c.times = min(c.times, 65534) + 1 }
	r.length = g.field(d.Text, once) + g.field(d.More, once)
	ofTitle, ofName := titleBonus, nameBonus
	if d.Under != "" {
		ofTitle, ofName = partTitleBonus, partNameBonus
	}
	g.field(d.Title, func(c *count, n int) { c.bonus = max(c.bonus, ofTitle(n)) })
	for _, name := range d.Names {
		g.field(name, func(c *count, n int) { c.bonus = max(c.bonus, ofName(n)) })
	}
	under := func(c *count, _ int) { c.bonus = max(c.bonus, underBonus) }
	g.field(d.Under, under)
	for _, a := range d.Answers {
		g.field(a.To, under)
		g.field(a.Says, once)
		g.count(asksFor(a.To)).times = 1
	}
	r.terms, r.counts = slices.Clone(g.now), slices.Clone(g.of)
	for _, id := range g.now {
		g.at[id] = 0
	}
	g.now, g.of = g.now[:0], g.of[:0]
	return r
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
	id := g.words.number(text)
	if more := len(g.words.texts) - len(g.at); more > 0 {
		g.at = append(g.at, make([]int32, more)...)
	}
	if g.at[id] == 0 {
		g.now, g.of = append(g.now, id), append(g.of, count{})
		g.at[id] = int32(len(g.now))
	}
	return &g.of[g.at[id]-1]
}
