package search

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
)

// A dictionary says where the shards of words begin: each with the shortest
// beginning that no word of the shard before it reaches; the first with "".
type dictionary struct {
	bounds    []string
	backwards []string
	letters   string // the pieces that the shards and the pieces of texts are packed in
}

// dictionary packs the terms, the words backwards and the pieces of texts.
// The pieces are waited for.
func (x *Index) dictionary(s *fileSet, was *Index, learnt <-chan *coder) dictionary {
	heads := &shelf{kind: headsKind, size: listsSize, n: len(x.docs), had: was.packed(headsKind, len(x.docs))}
	tails := &shelf{kind: tailsKind, size: tailsSize, n: len(x.docs), had: was.packed(tailsKind, len(x.docs))}
	chapters, bounds := chapters(x.terms, heads, tails)
	x.packs = map[string][]*pack{heads.kind: heads.fill(s), tails.kind: tails.fill(s)}
	backwards, backBounds := backwards(x.terms)
	c := newCoder(500, newLexicon())
	for _, ch := range chapters {
		c.count(c.segments.cut(ch.fronts.text.String() + "\n"))
	}
	for _, text := range backwards {
		c.count(c.segments.cut(text + "\n"))
	}
	pieces := <-learnt
	listed := c.segments.cut(pieces.listed())
	c.count(listed)
	c.learn()
	c.encode(listed)
	s.add("pieces", "["+numbers(pieces.perLength())+","+quote(c.bits.take())+"]")
	for i, ch := range chapters {
		ch.write(s, c, i)
	}
	for i, text := range backwards {
		c.encode(c.segments.cut(text + "\n"))
		s.add("r/"+strconv.Itoa(i), quote(c.bits.take()))
	}
	return dictionary{bounds, backBounds, c.table()}
}

// chapters parts the terms into shards, and puts their lists on shelves.
func chapters(terms []*term, heads, tails *shelf) (chapters []*chapter, bounds []string) {
	chapters, bounds = []*chapter{newChapter(heads, tails)}, []string{""}
	for i, t := range terms {
		c := chapters[len(chapters)-1]
		if c.fronts.text.Len() > wordsSize {
			bounds = append(bounds, bound(terms[i-1].text, t.text))
			c = newChapter(heads, tails)
			chapters = append(chapters, c)
		}
		c.add(t)
	}
	return chapters, bounds
}

// A chapter is one shard of the dictionary. Its file holds
//
//	[ terms, weights, number of the first file of postings, lists in it already,
//	  terms that begin a new file of postings,
//	  number of the first file of tails, lists in it already,
//	  terms that have a tail, those of them that begin a new file,
//	  terms that are cut ]
//
// with terms by their place in the chapter. Weights are those of terms that have
// a tail or are cut and of beginnings; any other's follows from how many
// postings it has.
type chapter struct {
	fronts       fronts
	terms        int
	weights      []byte
	heads, tails *shelf
	head, tail   [2]int // file, lists in it already
	newHeads     []int
	withTail     []int
	newTails     []int
	cut          []int
}

func newChapter(heads, tails *shelf) *chapter {
	c := &chapter{heads: heads, tails: tails}
	c.head[0], c.head[1] = heads.end()
	c.tail[0], c.tail[1] = tails.end()
	return c
}

func (c *chapter) add(t *term) {
	i := c.terms
	c.terms++
	c.fronts.add(t.text)
	if c.heads.put(t, t.head()) {
		c.newHeads = append(c.newHeads, i)
	}
	tail := t.tail()
	if len(tail) > 0 {
		c.withTail = append(c.withTail, i)
		if c.tails.put(t, tail) {
			c.newTails = append(c.newTails, i)
		}
	}
	if t.cut {
		c.cut = append(c.cut, i)
	}
	if t.cut || len(tail) > 0 || t.beginning() {
		c.weights = append(c.weights, alphabet[t.weight])
	}
}

func (c *chapter) write(s *fileSet, pack *coder, number int) {
	pack.encode(pack.segments.cut(c.fronts.text.String() + "\n"))
	s.add("d/"+strconv.Itoa(number), fmt.Sprintf("[%s,%s,%d,%d,%s,%d,%d,%s,%s,%s]",
		quote(pack.bits.take()), quote(string(c.weights)),
		c.head[0], c.head[1], numbers(c.newHeads), c.tail[0], c.tail[1],
		numbers(c.withTail), numbers(c.newTails), numbers(c.cut)))
}

// backwards writes the words by their last letter, in shards.
func backwards(terms []*term) (shards, bounds []string) {
	var words []string
	for _, t := range terms {
		if slips(t.text) {
			words = append(words, reversed(t.text))
		}
	}
	slices.SortFunc(words, compare)
	bounds = []string{""}
	var f fronts
	for i, w := range words {
		if f.text.Len() > wordsSize {
			shards, bounds = append(shards, f.text.String()), append(bounds, bound(words[i-1], w))
			f = fronts{}
		}
		f.add(w)
	}
	return append(shards, f.text.String()), bounds
}

// slips reports whether a word is one that a typing slip is forgiven in: three
// letters or more and nothing else.
func slips(w string) bool {
	n := 0
	for _, c := range w {
		if !unicode.IsLetter(c) {
			return false
		}
		n++
	}
	return n >= 3
}

func reversed(w string) string {
	r := []rune(w)
	slices.Reverse(r)
	return string(r)
}

// keysInFile is about how many keys stand in one file.
const keysInFile = 100

// titles writes the keys of titles and names, each to the file whose number is
// the rest of its hash by how many files there are, which is returned.
func (x *Index) titles(was *Index) (files int) {
	if was != nil && x.placed && !slices.ContainsFunc(x.changed, func(i int) bool { return !slices.Equal(x.read[i].keys, was.read[i].keys) }) {
		x.titled = was.titled
		return len(x.titled)
	}
	all := 0
	for _, r := range x.read {
		all += len(r.keys)
	}
	files = max(all/keysInFile, 1)
	wide := 3 // characters of a document's number
	if len(x.read) <= 91*91 {
		wide = 2
	}
	shards := make([]strings.Builder, files)
	for doc, r := range x.read {
		for _, hash := range r.keys {
			shards[hash%files].WriteString(digits(hash, 5) + digits(doc, wide))
		}
	}
	var s fileSet
	for i := range shards {
		s.add("k/"+strconv.Itoa(i), quote(shards[i].String()))
	}
	x.titled = s.files
	return files
}

// titleKeys are the keys of a document's title and names: they find it where
// one of these was typed whole. A part of a page has one for its title alone.
func (r *reader) titleKeys(d *Document) (keys []int) {
	names := []string{d.Title}
	if d.Under == "" {
		names = append(names, d.Names...)
	}
	for _, name := range names {
		words, _ := r.read(name)
		if words = content(words); len(words) == 0 {
			continue
		}
		if h := titleHash(words); !slices.Contains(keys, h) {
			keys = append(keys, h)
		}
	}
	return keys
}

// titleHash is the 32-bit FNV-1a hash (IETF draft-eastlake-fnv) of the terms, a
// space between, by units of UTF-16. 31 bits of it stand in the files: with
// fewer, a page would now and then come first for words that are not its name.
func titleHash(words []word) int {
	h := uint32(2166136261)
	for i, w := range words {
		if i > 0 {
			h = (h ^ ' ') * 16777619
		}
		for _, u := range utf16.Encode([]rune(w.term)) {
			h = (h ^ uint32(u)) * 16777619
		}
	}
	return int(h >> 1)
}
