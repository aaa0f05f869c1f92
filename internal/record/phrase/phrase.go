// Package phrase reads the phrases of a record: the few words by which a maker
// says where something is, as "front.rise from waist to fly end" or "75 from
// underarm back". It knows nothing of which pieces and edges there are: what it
// reads are the names, and whoever knows the garment says what they mean.
package phrase

import (
	"errors"
	"slices"
	"strings"
	"unicode"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// words are the small words that make phrases. They always mean the same, and no
// name may contain them.
var words = []string{"at", "from", "to", "for", "inside"}

// A Where is a place on an edge: "75 from underarm back", "middle", "rib" or "75".
// The zero Where is where the edge begins.
type Where struct {
	From   string         // what it is at, or measured from; "" for where the edge begins
	By     measure.Length // how far from there; 0 at it
	Middle bool           // half way along
}

// Plain reports whether a place is measured from where its edge begins.
func (w Where) Plain() bool { return w.From == "" && !w.Middle }

// A Stretch says which part of an edge is meant. The zero Stretch is the whole edge.
type Stretch struct {
	From, To string         // names; To is "" where it is said for how long
	For      measure.Length // 0 where To is said; where neither is, the part has no end
	text     string         // as it was written
}

// Whole reports whether all of an edge is meant.
func (p Stretch) Whole() bool { return p.From == "" }

// String is the part as it is written behind the name of its edge, with one space
// between its words.
func (p Stretch) String() string { return p.text }

// Open reports whether a part is said to begin somewhere and not where it ends.
func (p Stretch) Open() bool { return p.From != "" && p.To == "" && p.For == 0 }

// A Line is what a seam, a finish or a notion goes along: an edge, a part of one,
// or a line beside one.
type Line struct {
	Name   string         // of the edge: front.side, or side in its own piece
	At     int            // characters before it
	Inside measure.Length // how far inside the edge the line runs; 0 for the edge itself
	Part   Stretch
	Text   string // as it was written, with one space between its words
}

// ReadWhere reads a place on an edge; a bare length is in the unit bare.
func ReadWhere(text string, bare measure.Unit) (Where, *fault.Fault) {
	s := split(text)
	switch {
	case len(s.words) == 0:
		return Where{}, fault.InText(0, say.Of("phrase.this-does-not-say-where"), say.Of("phrase.write-how-far-along-as-75-or"))
	case s.has("to", "for", "at", "inside"):
		i := s.first("to", "for", "at", "inside")
		return Where{}, fault.InText(s.words[i].at, say.Of("phrase.has-no-place-here", quoted(s.words[i].text)), say.Of("phrase.a-place-is-75-from-waist-middle"))
	}
	i := s.first("from")
	if i < 0 {
		return s.bareWhere(bare)
	}
	if f := s.once("from", i); f != nil {
		return Where{}, f
	}
	by, f := s.length(0, i, bare, say.Of("phrase.75-from-waist"))
	if f != nil {
		return Where{}, f
	}
	name, f := s.name(i+1, len(s.words), i)
	return Where{From: name, By: by}, f
}

// ReadPlace reads a place on an edge with the edge before it, as "wrist at 75 from
// underarm back".
func ReadPlace(text string, bare measure.Unit) (edge string, where Where, f *fault.Fault) {
	s := split(text)
	i := s.first("at")
	switch {
	case len(s.words) == 0:
		return "", Where{}, fault.InText(0, say.Of("phrase.this-does-not-say-where"), say.Of("phrase.write-an-edge-and-how-far-along"))
	case i < 0:
		return "", Where{}, fault.InText(0, say.Of("phrase.names-no-place", quoted(s.join(0, len(s.words)))), say.Of("phrase.a-place-is-an-edge-at-and"))
	case i == 0:
		return "", Where{}, fault.InText(s.words[0].at, say.Of("phrase.nothing-stands-before-at"), say.Of("phrase.write-the-edge-first-wrist", s.join(0, len(s.words))))
	case i == len(s.words)-1:
		return "", Where{}, fault.InText(s.words[i].at, say.Of("phrase.nothing-stands-after-at"), say.Of("phrase.write-how-far-along-75", s.join(0, i+1)))
	}
	if f = s.once("at", i); f != nil {
		return "", Where{}, f
	}
	if where, f = ReadWhere(s.join(i+1, len(s.words)), bare); f != nil {
		return "", Where{}, s.within(i+1, len(s.words), f)
	}
	return s.join(0, i), where, nil
}

// ReadCut reads two places on edges, as "waist at 120 from side to hem at middle".
func ReadCut(text string, bare measure.Unit) (edges [2]string, places [2]Where, f *fault.Fault) {
	s := split(text)
	i, end := s.first("to"), len(s.words)
	eg := say.Of("phrase.waist-at-120-from-side-to-hem")
	switch {
	case i < 0:
		return edges, places, fault.InText(0, say.Of("phrase.does-not-say-where-it-ends", quoted(s.join(0, end))), say.Of("phrase.it-goes-from-a-place-to-a", eg))
	case i == 0:
		return edges, places, fault.InText(s.words[0].at, say.Of("phrase.nothing-stands-before-to"), say.Of("phrase.write-where-it-begins", eg))
	case i == end-1:
		return edges, places, fault.InText(s.words[i].at, say.Of("phrase.nothing-stands-after-to"), say.Of("phrase.write-where-it-ends", eg))
	}
	if f = s.once("to", i); f != nil {
		return edges, places, f
	}
	for k, part := range [2][2]int{{0, i}, {i + 1, end}} {
		if edges[k], places[k], f = ReadPlace(s.join(part[0], part[1]), bare); f != nil {
			return edges, places, s.within(part[0], part[1], f)
		}
	}
	return edges, places, nil
}

// bareWhere reads a place without a small word: middle, a length or a name.
func (s *spoken) bareWhere(bare measure.Unit) (Where, *fault.Fault) {
	whole := s.join(0, len(s.words))
	switch {
	case whole == "middle":
		return Where{Middle: true}, nil
	case !s.figures(0):
		return Where{From: whole}, nil
	}
	by, f := s.length(0, len(s.words), bare, say.Of("phrase.75-from-waist"))
	if f != nil {
		if i := s.first(insteadOfFrom...); i > 0 && i+1 < len(s.words) {
			now := say.Of("phrase.from", s.join(0, i), s.join(i+1, len(s.words)))
			f = fault.InText(s.words[i].at, say.Of("phrase.a-place-is-so-far-from-something"), say.Of("phrase.write", now)).Whole(now)
		}
	}
	return Where{By: by}, f
}

// insteadOfFrom are words that makers write where from is meant.
var insteadOfFrom = []string{"form", "frm", "below", "above", "under", "beneath", "beyond", "past", "after", "before", "off"}

// ReadLine reads an edge, a part of one or a line beside one.
func ReadLine(text string, bare measure.Unit) (Line, *fault.Fault) {
	s := split(text)
	out := Line{Text: s.join(0, len(s.words))}
	begin, end := 0, len(s.words)
	if i := s.first("at"); i >= 0 {
		return out, fault.InText(s.words[i].at, say.Of("phrase.is-a-place-name-an-edge-here", quoted(out.Text)), say.Of("phrase.write-the-edge-alone-or-a-part", strings.TrimSpace(say.Of("phrase.from-waist-for-100", s.join(0, i)))))
	}
	if i := s.first("inside"); i >= 0 {
		if f := s.once("inside", i); f != nil {
			return out, f
		}
		by, f := s.length(0, i, bare, say.Of("phrase.18-inside-front-edge"))
		if f != nil {
			return out, f
		}
		out.Inside, begin = by, i+1
	}
	if i := s.first("from"); i >= 0 {
		part, f := s.part(i, bare)
		if f != nil {
			return out, f
		}
		part.text = s.join(i, len(s.words))
		out.Part, end = part, i
	} else if i := s.first("to", "for"); i >= 0 {
		edge := i
		if edge-1 > begin && slices.Contains([]string{"up", "down", "over", "on"}, s.words[edge-1].text) {
			edge--
		}
		return out, fault.InText(s.words[i].at, say.Of("phrase.does-not-say-where-it-begins", quoted(out.Text)), say.Of("phrase.write-from-a-name", s.join(begin, edge), s.join(i, len(s.words))))
	}
	name, f := s.name(begin, end, max(begin-1, 0))
	if end > begin {
		out.At = s.words[begin].at
	}
	out.Name = name
	return out, f
}

// part reads what follows the word from, which stands at i.
func (s *spoken) part(i int, bare measure.Unit) (out Stretch, f *fault.Fault) {
	if f = s.once("from", i); f != nil {
		return out, f
	}
	k := s.first("to", "for")
	if k >= 0 && k < i {
		return out, fault.InText(s.words[k].at, say.Of("phrase.comes-before-from", quoted(s.words[k].text)), say.Of("phrase.write-from-first-from-waist-to-hem", s.join(0, k)))
	}
	if k < 0 {
		out.From, f = s.name(i+1, len(s.words), i)
		return out, f
	}
	for _, other := range []string{"to", "for"} {
		if f = s.once(other, k); f != nil {
			return out, f
		}
	}
	if out.From, f = s.name(i+1, k, i); f != nil {
		return out, f
	}
	if s.words[k].text == "to" {
		out.To, f = s.name(k+1, len(s.words), k)
		return out, f
	}
	if k+1 == len(s.words) {
		return out, s.nothingAfter(k)
	}
	out.For, f = s.length(k+1, len(s.words), bare, s.join(0, k+1)+" 200")
	if f == nil && out.For == 0 {
		f = fault.InText(s.words[k+1].at, say.Of("phrase.a-part-of-an-edge-is-longer"), say.Of("phrase.write-how-long-it-is-200", s.join(0, k+1)))
	}
	return out, f
}

// ReadBetween reads how much is worked in between two notches, as "8 from front
// to top"; amount is what stands before them, for the caller to read. Without the
// words from and to it is meant from end to end.
func ReadBetween(text string) (amount, from, to string, f *fault.Fault) {
	s := split(text)
	if i := s.first("at", "for", "inside"); i >= 0 {
		return "", "", "", fault.InText(s.words[i].at, say.Of("phrase.has-no-place-here", quoted(s.words[i].text)), say.Of("phrase.say-how-much-from-which-notch-to"))
	}
	i, k := s.first("from"), s.first("to")
	if f = s.once("from", i); f == nil {
		f = s.once("to", k)
	}
	if f == nil && i >= 0 && k >= 0 && k < i {
		f = fault.InText(s.words[k].at, say.Of("phrase.to-comes-before-from"), say.Of("phrase.say-how-much-from-which-notch-to"))
	}
	end := len(s.words)
	if f == nil && k >= 0 {
		to, f = s.name(k+1, end, k)
		end = k
	}
	if f == nil && i >= 0 {
		from, f = s.name(i+1, end, i)
		end = i
	}
	if f == nil && end == 0 {
		f = fault.InText(0, say.Of("phrase.does-not-say-how-much", quoted(s.join(0, len(s.words)))), say.Of("phrase.say-how-much-first-8", s.join(0, len(s.words))))
	}
	return s.join(0, end), from, to, f
}

// NameFault tells of a name that holds one of the small words; "" where it holds
// none. instead is a name without them.
func NameFault(name string) (word, instead string) {
	var rest []string
	for _, w := range strings.Fields(name) {
		switch {
		case !slices.Contains(words, w):
			rest = append(rest, w)
			continue
		case w == "to" && len(rest) > 0:
			rest = append(rest, "and")
		}
		if word == "" {
			word = w
		}
	}
	return word, strings.Join(rest, " ")
}

// A spoken is a text, word by word.
type spoken struct {
	words []word
	size  int // characters
}

// A word stands so many characters into the text.
type word struct {
	text string
	at   int
}

func split(text string) *spoken {
	s := &spoken{size: len([]rune(text))}
	var open []rune
	for i, r := range append([]rune(text), ' ') {
		switch {
		case !unicode.IsSpace(r):
			open = append(open, r)
		case len(open) > 0:
			s.words = append(s.words, word{string(open), i - len(open)})
			open = nil
		}
	}
	return s
}

// first is the first place of one of some words; −1 where none is there.
func (s *spoken) first(of ...string) int {
	return slices.IndexFunc(s.words, func(w word) bool { return slices.Contains(of, w.text) })
}

func (s *spoken) has(of ...string) bool { return s.first(of...) >= 0 }

// once faults a word that stands again after place i.
func (s *spoken) once(of string, i int) *fault.Fault {
	if i < 0 {
		return nil
	}
	for _, w := range s.words[i+1:] {
		if w.text == of {
			return fault.InText(w.at, say.Of("phrase.stands-here-twice", quoted(of)), say.Of("phrase.keep-one-of-them"))
		}
	}
	return nil
}

// join writes some of the words with one space between them.
func (s *spoken) join(from, to int) string {
	var list []string
	for _, w := range s.words[from:to] {
		list = append(list, w.text)
	}
	return strings.Join(list, " ")
}

// figures reports whether a word begins as a number does.
func (s *spoken) figures(i int) bool {
	return strings.ContainsAny(s.words[i].text[:1], "0123456789.+-") || []rune(s.words[i].text)[0] > 0x80 && unicode.IsNumber([]rune(s.words[i].text)[0])
}

// length reads a length from some of the words.
func (s *spoken) length(from, to int, bare measure.Unit, eg string) (measure.Length, *fault.Fault) {
	if from >= to {
		at := s.size
		if to < len(s.words) {
			at = s.words[to].at
		}
		return 0, fault.InText(at, say.Of("phrase.a-length-is-missing-before", quoted(s.join(to, min(to+1, len(s.words))))), say.Of("phrase.write-it-as", eg))
	}
	l, err := measure.ParseLength(s.join(from, to), bare)
	if list, ok := errors.AsType[fault.List](err); ok {
		return 0, s.within(from, to, &list[0])
	}
	return l, nil
}

// within moves what is wrong with some of the words to its place in the whole text.
func (s *spoken) within(from, to int, bad *fault.Fault) *fault.Fault {
	f := fault.InText(s.words[from].at+bad.Offset(), bad.Message, bad.Hint)
	if now := bad.Meant(); now != "" {
		f.Whole(strings.TrimSpace(s.join(0, from) + " " + now + " " + s.join(to, len(s.words))))
	}
	return f
}

// name reads a name from some of the words, after the small word at place after.
func (s *spoken) name(from, to, after int) (string, *fault.Fault) {
	if from < to {
		return s.join(from, to), nil
	}
	if after >= len(s.words) {
		return "", fault.InText(0, say.Of("phrase.this-names-no-edge"), say.Of("phrase.write-piece-edge-as-front-side"))
	}
	if after >= to {
		return "", fault.InText(s.words[after].at, say.Of("phrase.nothing-stands-before", quoted(s.words[after].text)), say.Of("phrase.write-the-edge-first-front-side", s.join(after, len(s.words))))
	}
	return "", s.nothingAfter(after)
}

func (s *spoken) nothingAfter(i int) *fault.Fault {
	what, eg := say.Of("phrase.a-name"), "waist"
	switch s.words[i].text {
	case "for":
		what, eg = say.Of("phrase.a-length"), "200"
	case "to":
		eg = "hem"
	}
	return fault.InText(s.words[i].at, say.Of("phrase.nothing-stands-after", quoted(s.words[i].text)), say.Of("phrase.write-2", what, s.join(0, i+1), eg))
}

func quoted(s string) string {
	if r := []rune(s); len(r) > 60 {
		s = string(r[:60]) + "…"
	}
	return `"` + s + `"`
}
