package proof

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"unicode/utf8"
)

// A sieve finds in one quick pass over the bytes of a file which looks may
// stand in it. Of each look it knows a needle: a run of letters or digits in
// one of its words. Where a needle stands, the words behind it are read and
// must be those of the look. Most files hold none so far, and are not taken
// apart into words.
type sieve struct {
	first   [1 << 10]uint64 // by a hash of the first three bytes of needles
	needles map[uint32][]*needle
	always  []int // looks without a needle
}

// A needle is a run of bytes, letters in small, of three or more.
type needle struct {
	text  string
	alone bool             // no letter stands before or behind it
	last  []int            // looks that end with its word
	next  map[uint64][]int // looks by the word behind
	hides bool             // it begins a letter or digit that is written as a number
}

// add adds a look.
func (s *sieve) add(i int, l *look) {
	run, at, alone := runOf(l.text)
	behind := len(wordsIn(l.text)) - len(wordsIn(l.text[at:])) + 1
	if run == "" || behind > len(l.words) {
		s.always = append(s.always, i)
		return
	}
	l.rest = l.words[behind:]
	n := s.needle(run, alone)
	if len(l.rest) == 0 {
		n.last = append(n.last, i)
	} else {
		n.next[l.rest[0]] = append(n.next[l.rest[0]], i)
	}
	if run[0] >= utf8.RuneSelf { // it may be written otherwise
		for _, other := range otherwise(run) {
			n := s.needle(other, false)
			n.last = append(n.last, i)
		}
	}
}

// needle is the one of that text, which is made where there is none yet.
func (s *sieve) needle(text string, alone bool) *needle {
	if s.needles == nil {
		s.needles = map[uint32][]*needle{}
		s.hiding()
	}
	v := firstOf(text)
	for _, n := range s.needles[v] {
		if n.text == text && n.alone == alone {
			return n
		}
	}
	n := &needle{text: text, alone: alone, next: map[uint64][]int{}}
	s.needles[v] = append(s.needles[v], n)
	h := slot(v)
	s.first[h>>6] |= 1 << (h & 63)
	return n
}

// hiding adds the needles that tell of letters and digits of ASCII that are
// written as numbers: where one is, no other needle can be relied on.
func (s *sieve) hiding() {
	starts := []string{`\u0`, "&#x"}
	for d := range 10 {
		starts = append(starts, fmt.Sprintf("&#%d", d))
	}
	for c := '0'; c <= 'z'; c++ {
		if classes[c] != isOther {
			starts = append(starts, fmt.Sprintf("%%%02x", c))
		}
	}
	for _, text := range starts {
		s.needle(text, false).hides = true
	}
}

// hidesLetter reports whether a letter or digit of ASCII is written as a number
// where a text begins.
func hidesLetter(text []byte) bool {
	hides := false
	r := &reader{emit: func(uint64) { hides = true }, markup: true, links: true}
	r.special(text)
	r.flush()
	return hides
}

func firstOf(text string) uint32 {
	return uint32(text[0]) | uint32(text[1])<<8 | uint32(text[2])<<16 | 0x202020
}

func slot(v uint32) uint32 { return v * 0x9e3779b1 >> 16 }

// runOf picks the run of a text that is looked for: the first of four letters
// of ASCII or more, so that as many words as can be stand behind it; else the
// first of three; else letters of other scripts, else digits. alone says that
// it is a whole word of letters. It is empty where the text has no such run.
func runOf(text string) (run string, from int, alone bool) {
	best := 0
	for at := 0; at < len(text); {
		end, worth := runAt(text, at)
		if worth > best {
			best, run, from = worth, text[at:end], at
			alone = worth >= worthThree && (at == 0 || text[at-1] < utf8.RuneSelf) && (end == len(text) || text[end] < utf8.RuneSelf)
		}
		at = end
	}
	return inSmall(run), from, alone
}

const (
	worthDigits = iota + 1
	worthForeign
	worthThree
	worthFour
)

// runAt is where the run at a place ends, and what it is worth.
func runAt(text string, at int) (end, worth int) {
	end = at + 1
	switch class := classes[text[at]]; {
	case class == isLetter:
		for end < len(text) && classes[text[end]] == isLetter {
			end++
		}
		switch n := end - at; {
		case n >= 4:
			return end, worthFour
		case n == 3:
			return end, worthThree
		}
	case class == isDigit:
		for end < len(text) && (classes[text[end]] == isDigit || text[end] == '.' && end+1 < len(text) && classes[text[end+1]] == isDigit) {
			end++
		}
		if end-at >= 3 {
			return end, worthDigits
		}
	case text[at] >= utf8.RuneSelf:
		return foreignRun(text, at)
	}
	return end, 0
}

// foreignRun is a letter of three bytes, or some of two bytes each. Latin letters with
// accents, whose capitals are one with them, make none.
func foreignRun(text string, at int) (end, worth int) {
	end = at + sizeOf(text[at], len(text)-at)
	switch {
	case end-at == 3 && !isSign([]byte(text[at:end])):
		return end, worthForeign
	case end-at != 2 || text[at] < 0xc4:
		return end, 0
	}
	for end+2 <= len(text) && text[end] >= 0xc4 && text[end] < 0xe0 {
		end += 2
	}
	if end-at >= 4 {
		return end, worthForeign
	}
	return end, 0
}

func inSmall(s string) string {
	out := []byte(s)
	for i := range out {
		out[i] = small[out[i]]
	}
	return string(out)
}

// otherwise are the ways in which the first letter of a run beyond ASCII may be
// written as a number.
func otherwise(run string) []string {
	c, size := utf8.DecodeRuneInString(run)
	percent := ""
	for _, b := range []byte(run[:size]) {
		percent += fmt.Sprintf("%%%02x", b)
	}
	return []string{percent, fmt.Sprintf(`\u%04x`, c), fmt.Sprintf("&#%d", c), fmt.Sprintf("&#x%x", c), fmt.Sprintf("&#x0%x", c)}
}

// A tongue is how words are read in a text.
type tongue uint8

const (
	plainWords tongue = iota
	markupWords
	linkWords
)

// A sifting is one pass over a file.
type sifting struct {
	*Secrets
	wanted []bool // nil where none is
	words  []uint64
	reader reader
}

// through reports which looks may stand in a file of that name; nil where none
// may.
func (s *Secrets) through(name string, text []byte, how tongue) []bool {
	f := &sifting{Secrets: s}
	for _, i := range s.sieve.always {
		l := &s.looks[i]
		if l.also == "" || bytes.Contains(text, []byte(l.also)) {
			f.want(i)
		}
	}
	if len(s.sieve.needles) > 0 {
		f.reader.emit = func(h uint64) { f.words = append(f.words, h) }
		f.sift([]byte(name), linkWords)
		f.sift(text, how)
	}
	return f.wanted
}

func (f *sifting) want(i int) {
	if f.wanted == nil {
		f.wanted = make([]bool, len(f.looks))
	}
	f.wanted[i] = true
}

func (f *sifting) sift(text []byte, how tongue) {
	first := &f.sieve.first
	i := 0
	for ; i+8 <= len(text); i += 6 { // six places at once
		v := binary.LittleEndian.Uint64(text[i:]) | 0x2020202020202020
		for at := i; at < i+6; at++ {
			if h := slot(uint32(v) & 0xffffff); first[h>>6]>>(h&63)&1 == 1 {
				f.look(uint32(v)&0xffffff, text, at, how)
			}
			v >>= 8
		}
	}
	for ; i+3 <= len(text); i++ {
		f.look(uint32(text[i])|uint32(text[i+1])<<8|uint32(text[i+2])<<16|0x202020, text, i, how)
	}
}

// look notes the looks of the needles that stand at a place.
func (f *sifting) look(v uint32, text []byte, at int, how tongue) {
	for _, n := range f.sieve.needles[v] {
		if !begins(text[at:], n.text) || n.alone && !standsAlone(text, at, at+len(n.text)) {
			continue
		}
		for _, i := range n.last {
			f.want(i)
		}
		if n.hides && hidesLetter(text[at:]) {
			for i := range f.looks {
				f.want(i)
			}
		}
		if len(n.next) == 0 {
			continue
		}
		f.reader.markup, f.reader.links = how == markupWords, how == linkWords
		if how == markupWords && inTag(text, at) {
			f.follow(n, text[at:], (*reader).tags, true)
		} else {
			f.follow(n, text[at:], (*reader).read, how == linkWords)
		}
	}
}

// inTag reports whether a place of a page lies inside a tag.
func inTag(text []byte, at int) bool {
	for i := at - 1; i >= 0 && text[i] != '>'; i-- {
		if text[i] == '<' {
			return bytes.IndexByte(text[at:], '>') >= 0
		}
	}
	return false
}

// follow notes the looks of a needle whose words stand behind it.
func (f *sifting) follow(n *needle, text []byte, read func(*reader, []byte), inTag bool) {
	f.take(2, text, read)
	if len(f.words) < 2 {
		return
	}
	for _, i := range n.next[f.words[1]] {
		if f.wanted != nil && f.wanted[i] || inTag && f.looks[i].bare {
			continue
		}
		rest := f.looks[i].rest
		if len(f.words) <= len(rest) {
			f.take(ring, text, read)
		}
		if len(f.words) > len(rest) && same(f.words[1:], rest) {
			f.want(i)
		}
	}
}

// take reads the first words of a text.
func (f *sifting) take(words int, text []byte, read func(*reader, []byte)) {
	f.words = f.words[:0]
	f.reader.begin(words)
	read(&f.reader, text)
}

func same(words, as []uint64) bool {
	for i := range as {
		if words[i] != as[i] {
			return false
		}
	}
	return true
}

func begins(text []byte, run string) bool {
	if len(text) < len(run) {
		return false
	}
	for i := range len(run) {
		if small[text[i]] != run[i] {
			return false
		}
	}
	return true
}

// standsAlone reports whether no letter stands right before or behind a run.
// One that is part of a number for another letter is none.
func standsAlone(text []byte, from, to int) bool {
	if to < len(text) && classes[text[to]] == isLetter {
		return false
	}
	if from == 0 || classes[text[from-1]] != isLetter {
		return true
	}
	return small[text[from-1]] <= 'f' && (from >= 3 && text[from-3] == '%' || from >= 6 && text[from-6] == '\\')
}
