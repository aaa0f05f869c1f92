package search

import (
	"slices"
	"strconv"
)

// A shelf parts the lists of terms into packs, each of which becomes a file. Where
// one ends is told by the terms alone and about how long their lists are, so that a
// list that is other than before leaves the packs after it as they were.
type shelf struct {
	kind   string
	size   int // of a file, bytes, about
	n      int // of documents
	packs  []*pack
	filled int // bytes in the last pack, about
	had    map[*term]*pack
}

// A pack is one file of lists. It never changes once it is filled.
type pack struct {
	terms []*term
	value string // what the file hands over
	file  File
}

// packed are the packs of an index by their first terms; none where it is not of so
// many documents. It is safe to ask a nil Index.
func (x *Index) packed(kind string, documents int) map[*term]*pack {
	if x == nil || x.Documents != documents {
		return nil
	}
	out := map[*term]*pack{}
	for _, p := range x.packs[kind] {
		out[p.terms[0]] = p
	}
	return out
}

// head are the postings of a term that are read first.
func (t *term) head() []posting { return t.found[:min(len(t.found), headLength)] }

// tail are all others.
func (t *term) tail() []posting { return t.found[min(len(t.found), headLength):] }

// end is the file that would be added to, and how many lists are in it already.
func (s *shelf) end() (file, lists int) {
	if len(s.packs) == 0 {
		return 0, 0
	}
	return len(s.packs) - 1, len(s.packs[len(s.packs)-1].terms)
}

// put adds a list of a term, and reports whether it begins a new file behind another.
func (s *shelf) put(t *term, list []posting) (begins bool) {
	begins = len(s.packs) > 0 && (s.filled > s.size*4/3 || s.filled > s.size*2/3 && endsBefore(t.text))
	if begins || len(s.packs) == 0 {
		s.packs, s.filled = append(s.packs, &pack{}), 0
	}
	p := s.packs[len(s.packs)-1]
	p.terms = append(p.terms, t)
	s.filled += 2 + len(list)*(riceBits(len(list), s.n)+2)*2/13
	return begins
}

// endsBefore reports whether a pack that is long enough ends before a word, which is
// one of four.
func endsBefore(word string) bool {
	h := uint32(2166136261)
	for i := range len(word) {
		h = (h ^ uint32(word[i])) * 16777619
	}
	return h>>7%4 == 0
}

// fill writes the files of a shelf. Packs of the same lists as before are taken over.
func (s *shelf) fill(files *fileSet) []*pack {
	for i, p := range s.packs {
		name := s.kind + "/" + strconv.Itoa(i)
		had := s.had[p.terms[0]]
		switch {
		case had == nil || !slices.Equal(had.terms, p.terms):
			w := &packer{n: s.n}
			for _, t := range p.terms {
				if s.kind == tailsKind {
					w.list(t.tail())
				} else {
					w.list(t.head())
				}
			}
			p.value = quote(w.bits.take())
			p.file = files.add(name, p.value)
		case had.file.Name != pathOf(name):
			p.value = had.value
			p.file = files.add(name, p.value)
		default:
			s.packs[i] = had
			files.files = append(files.files, had.file)
		}
	}
	return s.packs
}
