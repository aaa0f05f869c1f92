package search

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The files, each `hembook(name, data)`. A number n lies at KIND/⌊n÷256⌋/n.js.
//
//	first.js  documents, where the dictionary's shards begin, the synonyms
//	d/…       dictionary: terms by their letters, with weights and places
//	r/…       the same words by their last letter, for a typing slip in the first half
//	p/…       the best postings of each term
//	x/…       the other postings of terms that have many
//	k/…       what finds a document by its whole title or name
//	t/…       addresses, titles and texts, eight documents to a file
//	pieces.js the pieces that texts are made of: how many codes there are of
//	          each length, and the pieces, packed as the dictionary's terms
//	facets.js the facets with their values
//	f/…       the documents of each value
//
// Numbers are written in bits, 13 to two characters (bits.go).

// How large files are made, bytes.
const (
	wordsSize   = 1600 // before it is packed
	listsSize   = 1500
	tailsSize   = 5000
	textsInFile = 8 // most are parts of a build, some 50 bytes each; a file for fewer would be half of all files there are
)

// The kinds of files of postings.
const (
	headsKind = "p"
	tailsKind = "x"
)

// A fileSet collects files.
type fileSet struct{ files []File }

// add adds a file that hands over a value.
func (s *fileSet) add(name string, value string) File {
	call := strings.Replace(name, "/", "", 1)
	data := make([]byte, 0, len(call)+len(value)+len("hembook(\"\",)\n"))
	data = append(append(append(data, "hembook(\""...), call...), "\","...)
	f := File{pathOf(name), append(append(data, value...), ")\n"...)}
	s.files = append(s.files, f)
	return f
}

// pathOf is where a file of such a name lies.
func pathOf(name string) string {
	kind, n, ok := strings.Cut(name, "/")
	if !ok {
		return name + ".js"
	}
	i, _ := strconv.Atoi(n)
	return kind + "/" + strconv.Itoa(i>>8) + "/" + n + ".js"
}

// quote writes a string for a script; the line ends of Unicode come out escaped.
func quote(v string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.Encode(v) // a string always can
	return strings.TrimSuffix(b.String(), "\n")
}

func numbers(list []int) string {
	b, _ := json.Marshal(append([]int{}, list...))
	return string(b)
}

// done returns the files by name, and the stamp of them all.
func (s *fileSet) done() ([]File, string) {
	slices.SortFunc(s.files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	sum := sha256.New()
	for _, f := range s.files {
		fmt.Fprintf(sum, "%s %d\n", f.Name, len(f.Data))
		sum.Write(f.Data)
	}
	return s.files, hex.EncodeToString(sum.Sum(nil)[:6])
}

// A packer puts lists into files of one kind, one after the other without a
// gap: to read one, a reader passes over those before it.
type packer struct {
	shelf *fileSet
	kind  string
	size  int
	n     int // of documents
	file  int // being filled
	lists int // in it already
	bits  bitWriter
}

// put adds a list of postings, best first, and reports whether it begins a new
// file.
func (p *packer) put(found []posting) (begins bool) {
	if len(p.bits.out) > p.size {
		p.flush()
		begins = true
	}
	p.lists++
	p.list(found)
	return begins
}

// list writes a list of postings, best first: how many they are, the highest level,
// then for each level how many and the gaps between their documents.
func (p *packer) list(found []posting) {
	w := &p.bits
	w.gamma(len(found) + 1)
	if len(found) == 0 {
		return
	}
	top := int(found[0].level)
	w.write(uint64(top), 4)
	for l := top; len(found) > 0; l-- {
		end := 0
		for end < len(found) && int(found[end].level) == l {
			end++
		}
		if l == top {
			w.gamma(end) // never none
		} else if l > 0 {
			w.gamma(end + 1)
		}
		p.gaps(found[:end])
		found = found[end:]
	}
}

func (p *packer) gaps(found []posting) {
	if len(found) == 0 {
		return
	}
	k := riceBits(len(found), p.n)
	last := -1
	for _, f := range found {
		p.bits.rice(int(f.doc)-last-1, k)
		last = int(f.doc)
	}
}

func (p *packer) flush() {
	if p.lists > 0 {
		p.shelf.add(p.kind+"/"+strconv.Itoa(p.file), quote(p.bits.take()))
		p.file, p.lists = p.file+1, 0
	}
}

// first writes the file that is read before all others.
//
// Of the synonyms those that stand in no document are marked: they are typed and
// never looked for.
func (s *fileSet) first(n, titles int, w dictionary, synonyms [][]string, terms []*term) {
	known := knownOf(terms)
	groups := make([]string, len(synonyms))
	for i, g := range synonyms {
		for k, m := range g {
			if k > 0 {
				groups[i] += "|"
			}
			if !known[m] {
				groups[i] += "~"
			}
			groups[i] += m
		}
	}
	s.add("first", fmt.Sprintf("{n:%d,titles:%d,levels:%s,words:%s,backwards:%s,synonyms:%s,letters:%s}", n, titles, numbers(levelValues()),
		quote(strings.Join(w.bounds, ",")), quote(strings.Join(w.backwards, ",")), quote(strings.Join(groups, ",")), w.letters))
}

func levelValues() []int {
	out := make([]int, len(levels))
	for l := range levels {
		out[l] = levelValue(l)
	}
	return out
}

// shared is how many runes a and b begin with alike, and the bytes of them.
func shared(a, b string) (runes, bytes int) {
	for bytes < len(a) && bytes < len(b) {
		c, n := utf8.DecodeRuneInString(a[bytes:])
		d, _ := utf8.DecodeRuneInString(b[bytes:])
		if c != d {
			break
		}
		runes, bytes = runes+1, bytes+n
	}
	return runes, bytes
}

// bound is the shortest beginning of b that comes after a.
func bound(a, b string) string {
	_, n := shared(a, b)
	_, size := utf8.DecodeRuneInString(b[n:])
	return b[:n+size]
}

// fronts writes sorted words in one text: for each a capital, which says how
// many letters it takes from the one before (A none, B one, …), and the rest.
type fronts struct {
	text strings.Builder
	last string
}

func (f *fronts) add(w string) {
	runes, n := shared(f.last, w)
	for runes > 'Z'-'A' {
		_, size := utf8.DecodeLastRuneInString(w[:n])
		runes, n = runes-1, n-size
	}
	f.text.WriteByte(byte('A' + runes))
	f.text.WriteString(w[n:])
	f.last = w
}
