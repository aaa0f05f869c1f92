// Package proof searches what is about to go out for what is private: a last
// look at the finished files, which trusts nothing that was done before.
//
// What is looked for, of every private value of the workroom (rule.go):
//
//   - a text by its words, wherever they stand in their order, if it tells
//     something: it has a word of four letters or more with a capital, or two
//     words of ten letters together, or an @. A long text is found by any six
//     words of it, and by any of its lines;
//   - an amount of money with its currency, on either side;
//   - a number of six digits or more by itself;
//   - any other number of two digits or more, any date, and a single word in
//     small letters of four or more, only where the word they are the value of
//     stands just before: "waist 75.5", not 75.5. A wearer's length is looked
//     for in millimetres, centimetres and inches.
//
// What is shorter than that cannot be told from chance and is not looked for.
// Names of the words themselves are not private, but those of the maker's own
// that have a capital or a digit.
//
// A value that also stands in a public place of the workroom, or in the words
// that come with the program, is public: finding it says nothing. A number that
// a public figure of the same build has is told apart by the caller.
//
// It does not see into the pixels of pictures, nor a word that a tag breaks in
// two.
package proof

import (
	"bytes"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
)

// Secrets are private values, ready to be looked for. They never change and
// may be asked by many goroutines at once.
type Secrets struct {
	list  []record.Secret
	looks []look
	ends  map[uint64][]int // looks by their last word
	sieve sieve
}

// A look is one form in which a private value is looked for.
type look struct {
	phrase
	secret int
	same   []int // further values that are written so too, as the address of two in one house
	words  []uint64
	value  []uint64 // those of the value alone
	rest   []uint64 // those behind the one that its needle stands in
}

// A Find is a private value that stands in a file.
type Find struct {
	At     fault.Pos // where the value was written
	Number bool      // it is a number, which some figure may have by chance
	look   int
}

// New makes private values ready to be looked for.
func New(kept []record.Private[record.Secret]) *Secrets {
	s := &Secrets{ends: map[uint64][]int{}}
	seen := map[phrase]int{}
	for i, k := range kept {
		s.list = append(s.list, k.Open(record.ToProve))
		for _, p := range phrasesOf(&s.list[i]) {
			words := wordsIn(p.text)
			if at, before := seen[p]; before {
				s.looks[at].same = append(s.looks[at].same, i)
				continue
			}
			if len(words) == 0 {
				continue
			}
			seen[p] = len(s.looks)
			l := look{phrase: p, secret: i, words: words[:min(len(words), ring)], value: wordsIn(p.value)}
			last := l.words[len(l.words)-1]
			s.ends[last] = append(s.ends[last], len(s.looks))
			s.sieve.add(len(s.looks), &l)
			s.looks = append(s.looks, l)
		}
	}
	return s
}

// wordsIn are the words of a text.
func wordsIn(text string) (out []uint64) {
	r := &reader{emit: func(h uint64) { out = append(out, h) }}
	r.read([]byte(text))
	return out
}

// Written are the places of all values that are written as a found one is.
func (s *Secrets) Written(f Find) []fault.Pos {
	out := []fault.Pos{f.At}
	for _, i := range s.looks[f.look].same {
		out = append(out, s.list[i].At)
	}
	return out
}

// Texts says what is written at some places, for [Secrets.Private]: where a sheet shows
// an e-mail, it shows the name in it.
func (s *Secrets) Texts(places []fault.Pos) func(say func(words string)) {
	return func(say func(words string)) {
		for i := range s.list {
			if slices.Contains(places, s.list[i].At) {
				say(s.list[i].Text)
			}
		}
	}
}

// Find looks through a file that would go out. name is its address, which is
// looked through too and tells by its ending how the file is read. Each value
// is found once.
func (s *Secrets) Find(name string, data []byte) []Find {
	text, how := textOf(name, data)
	wanted := s.through(name, text, how)
	if wanted == nil {
		return nil
	}
	return s.read(name, text, how, wanted)
}

// read takes a file apart into words for some looks.
func (s *Secrets) read(name string, text []byte, how tongue, wanted []bool) []Find {
	f := s.finder(wanted)
	readFile(name, text, how, f.text.put, f.tag.put)
	var out []Find
	for i, found := range f.found {
		l := &s.looks[i]
		if found && (l.exact == "" || bytes.Contains(text, []byte(l.exact)) || bytes.Contains(text, []byte(strings.ToUpper(l.exact)))) {
			out = append(out, Find{s.list[l.secret].At, l.number, i})
		}
	}
	return out
}

// Private are those of the finds that are found in nothing public. public calls
// the function it is given with every text that is.
func (s *Secrets) Private(finds []Find, public func(say func(words string))) []Find {
	return s.without(finds, false, public)
}

// NotOf are those of the finds that are not numbers found among some figures.
func (s *Secrets) NotOf(finds []Find, figures func(say func(words string))) []Find {
	return s.without(finds, true, figures)
}

func (s *Secrets) without(finds []Find, numbers bool, public func(say func(words string))) []Find {
	if len(finds) == 0 {
		return nil
	}
	wanted := make([]bool, len(s.looks))
	for _, f := range finds {
		wanted[f.look] = f.Number || !numbers
	}
	f := s.finder(wanted)
	f.numbers = numbers
	r := &reader{emit: f.text.put}
	public(func(words string) {
		f.text.past, f.text.at = [ring]uint64{}, 0
		r.read([]byte(words))
	})
	var out []Find
	for _, one := range finds {
		if !f.found[one.look] {
			out = append(out, one)
		}
	}
	return out
}

// ring is how many words a look may have at most.
const ring = 16

// A finder notes which looks it comes by, word by word.
type finder struct {
	*Secrets
	wanted, found []bool
	numbers       bool // look for the values alone
	text, tag     trail
}

// A trail is the last words that were read.
type trail struct {
	*finder
	past  [ring]uint64
	at    int
	inTag bool
}

func (s *Secrets) finder(wanted []bool) *finder {
	f := &finder{Secrets: s, wanted: wanted, found: make([]bool, len(s.looks))}
	f.text, f.tag = trail{finder: f}, trail{finder: f, inTag: true}
	return f
}

func (t *trail) put(h uint64) {
	t.at++
	t.past[t.at%ring] = h
	for _, i := range t.ends[h] {
		l := &t.looks[i]
		words := l.words
		if t.numbers {
			words = l.value
		}
		if t.wanted[i] && !t.found[i] && !(t.inTag && l.bare) && t.endsWith(words) {
			t.found[i] = true
		}
	}
}

func (t *trail) endsWith(words []uint64) bool {
	if t.at < len(words) {
		return false
	}
	for k := range words {
		if t.past[(t.at-k)%ring] != words[len(words)-1-k] {
			return false
		}
	}
	return true
}

// Same reports whether two sets of private values are looked for alike, so that
// a file in which nothing of the one was found holds nothing of the other.
func (s *Secrets) Same(other *Secrets) bool {
	if s == nil || other == nil || len(s.looks) != len(other.looks) {
		return false
	}
	for i := range s.looks {
		if s.looks[i].phrase != other.looks[i].phrase {
			return false
		}
	}
	return true
}
