package search

import (
	"cmp"
	"math/bits"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A coder writes texts in few bits: it learns a few thousand pieces from them,
// frequent words with the space before them and what rarer words are made of,
// and gives each a code of Huffman's (Proc. IRE 40, 1952) by how often it is
// needed. A reader needs the pieces and nothing else.
type coder struct {
	most     int      // pieces, at most
	steady   bool     // it learns from about how often each segment stands there
	segments *lexicon // what texts are cut into
	times    []int    // how often each segment stands in the texts
	learnt   []int    // times as it learnt from them
	pieces   []string // in the order of their codes; "" announces a character that is in no piece
	length   []int    // of the codes, in bits
	code     []uint32
	place    map[string]int
	known    [][]int // segments in pieces; nil for those that were not asked for
	bits     bitWriter
}

func newCoder(most int, segments *lexicon) *coder { return &coder{most: most, segments: segments} }

// segments calls f with every segment of a text: a space, if there is one, and
// the letters and digits, or the one other character, that follow it, with
// the shift that follows those. A capital after a small letter begins a segment.
func segments(text string, f func(string)) {
	for text != "" {
		i := 0
		if text[0] == ' ' {
			i = 1
		}
		from := i
		for i < len(text) {
			c, n := utf8.DecodeRuneInString(text[i:])
			if !unicode.IsLetter(c) && !unicode.IsNumber(c) {
				if i == from {
					i += n
				}
				if c != shift && i < len(text) && text[i] == shift {
					i++
				}
				break
			}
			if i > from && c >= 'A' && c <= 'Z' && text[i-1] >= 'a' {
				break
			}
			i += n
		}
		f(text[:i])
		text = text[i:]
	}
}

// cut returns the numbers of a text's segments.
func (v *lexicon) cut(text string) []uint32 {
	var out []uint32
	segments(text, func(s string) { out = append(out, v.number(s)) })
	return out
}

// count takes note of a text that will be written, as its segments.
func (c *coder) count(text []uint32) {
	c.times = append(c.times, make([]int, len(c.segments.texts)-len(c.times))...)
	for _, s := range text {
		c.times[s]++
	}
}

// A candidate is a string that may become a piece.
type candidate struct {
	text string
	n    int
	id   int // its number in a maze
}

// gain is about how many characters a candidate saves.
func (d candidate) gain() int { return d.n * (len(d.text) - 1) }

// byGain orders candidates by what they save, the most first. It tells any two
// apart.
func byGain(a, b candidate) int {
	return cmp.Or(cmp.Compare(b.gain(), a.gain()), strings.Compare(a.text, b.text))
}

// single reports whether a candidate is one character, or none.
func (d candidate) single() bool {
	_, n := utf8.DecodeRuneInString(d.text)
	return n == len(d.text)
}

func candidates(m map[string]int) []candidate {
	out := make([]candidate, 0, len(m))
	for text, n := range m {
		out = append(out, candidate{text: text, n: n})
	}
	return out // whoever asks puts them in order
}

// leastKnown is how often a segment must stand in texts that are told roughly.
const leastKnown = 4

// rough are counts told roughly: by the power of two below, and none where it is few
// of all. A word more or less then seldom changes what is learnt, so that texts
// which stay as they are stay written as they are.
func rough(times []int) []int {
	total := 0
	for _, n := range times {
		total += n
	}
	least := below(max(leastKnown, total>>17))
	out := make([]int, len(times))
	for s, n := range times {
		if n >= least {
			out[s] = below(n)
		}
	}
	for len(out) > 0 && out[len(out)-1] == 0 {
		out = out[:len(out)-1]
	}
	return out
}

// below is the greatest power of two that is not above n, which is 1 or more.
func below(n int) int { return 1 << (bits.Len(uint(n)) - 1) }

// learn chooses the pieces from what was counted.
func (c *coder) learn() {
	if c.learnt = c.times; c.steady {
		c.learnt = rough(c.times)
	}
	var whole []candidate
	for s, n := range c.learnt {
		if n > 0 {
			whole = append(whole, candidate{text: c.segments.texts[s], n: n})
		}
	}
	slices.SortFunc(whole, byGain)
	estimate := map[string]int{"": 1, "\n": 1}
	words := c.most * 7 / 10
	for i, w := range whole {
		if i < words && w.n > 2 {
			estimate[w.text] = w.n
		} else {
			fragments(w, estimate)
		}
	}
	delete(estimate, "|") // parts the pieces in their file
	list := useful(candidates(estimate), c.most*2)
	m := newMaze(whole, list)
	for _, most := range []int{c.most * 3 / 2, c.most * 5 / 4, c.most * 9 / 8, c.most, c.most} {
		list = useful(m.used(list), most)
	}
	c.setCodes(list)
}

// knows reports whether a coder has learnt from the same as another would now.
func (c *coder) knows(other *coder) bool {
	return c != nil && c.segments == other.segments && c.most == other.most && slices.Equal(c.learnt, rough(other.times))
}

// fragments adds the parts of a word to an estimate of what is needed.
func fragments(w candidate, into map[string]int) {
	var at [64]int // where its characters begin
	n := 0
	for i := range w.text {
		if n == len(at)-1 {
			break
		}
		at[n] = i
		n++
	}
	at[n] = len(w.text)
	for i := range n {
		for j := i + 1; j <= min(i+6, n); j++ {
			if f := w.text[at[i]:at[j]]; !strings.Contains(f, "|") {
				into[f] += w.n
			}
		}
	}
}

// useful are the candidates that save most, all single characters that are not
// rare before them, and at any rate those that no text can do without.
func useful(list []candidate, most int) []candidate {
	list = slices.DeleteFunc(list, func(d candidate) bool {
		return d.n < 3 && !d.needed() && !(len(d.text) == 1 && d.text[0] < 0x7f)
	})
	slices.SortFunc(list, func(a, b candidate) int {
		if a.single() != b.single() {
			if a.single() {
				return -1
			}
			return 1
		}
		return byGain(a, b)
	})
	kept := list[:min(len(list), max(most, 200))]
	place := len(kept)
	for _, d := range list[len(kept):] { // so many different characters there are
		if d.needed() {
			place--
			kept[place] = d
		}
	}
	return kept
}

// needed reports whether it announces a character, or ends a field.
func (d candidate) needed() bool { return d.text == "" || d.text == "\n" }

// setCodes gives every piece its code: canonical, shorter codes first, pieces
// of one length in the order of their text.
func (c *coder) setCodes(list []candidate) {
	type coded struct {
		text   string
		length int
	}
	all := make([]coded, len(list))
	for i, l := range codeLengths(list) {
		all[i] = coded{list[i].text, l}
	}
	slices.SortFunc(all, func(a, b coded) int {
		return cmp.Or(cmp.Compare(a.length, b.length), cmp.Compare(a.text, b.text))
	})
	c.pieces, c.length, c.code = nil, nil, nil
	c.place, c.known = make(map[string]int, len(all)), nil
	code, last := uint32(0), 0
	for i, p := range all {
		code <<= p.length - last
		c.pieces, c.length, c.code = append(c.pieces, p.text), append(c.length, p.length), append(c.code, code)
		c.place[p.text] = i
		code, last = code+1, p.length
	}
}

// perLength is how many codes have one bit, two bits, and so on.
func (c *coder) perLength() []int {
	var out []int
	for _, l := range c.length {
		for len(out) < l {
			out = append(out, 0)
		}
		out[l-1]++
	}
	return out
}

// listed are the pieces in the order of their codes, each with the letters it
// takes from the one before; a line end within is written pieceEnd.
func (c *coder) listed() string {
	var f fronts
	for _, p := range c.pieces {
		f.add(strings.ReplaceAll(p, "\n", pieceEnd))
	}
	return f.text.String() + "\n"
}

// pieceEnd stands for a line end in the list of pieces; no text has it.
const pieceEnd = "\x02"

// table is what a reader needs that has nothing else yet: how many codes there
// are of each length, and the pieces.
func (c *coder) table() string {
	return "[" + numbers(c.perLength()) + "," + quote(strings.Join(c.pieces, "|")) + "]"
}

const (
	letterBits   = 21 // of a character that is in no piece
	longestPiece = 24 // that is looked for, in bytes
)

// parse cuts a segment into the pieces that take the fewest bits; -1-r stands
// for a character r written out.
func (c *coder) parse(number uint32) []int {
	if n := len(c.segments.texts); len(c.known) < n {
		c.known = append(c.known, make([][]int, n-len(c.known))...)
	}
	if p := c.known[number]; p != nil {
		return p
	}
	segment := c.segments.texts[number]
	least := make([]int, len(segment)+1) // bits from here to the end, plus 1; 0 where no character begins
	step := make([]int, len(segment))
	least[len(segment)] = 1
	for i := len(segment) - 1; i >= 0; i-- {
		if !utf8.RuneStart(segment[i]) {
			continue
		}
		r, n := utf8.DecodeRuneInString(segment[i:])
		least[i], step[i] = c.length[c.place[""]]+letterBits+least[i+n], -1-int(r)
		for j := i + 1; j <= min(len(segment), i+longestPiece); j++ {
			p, ok := c.place[segment[i:j]]
			if ok && least[j] > 0 && c.length[p]+least[j] < least[i] {
				least[i], step[i] = c.length[p]+least[j], p
			}
		}
	}
	var out []int
	for i := 0; i < len(segment); {
		out = append(out, step[i])
		if step[i] < 0 {
			i += utf8.RuneLen(rune(-1 - step[i]))
		} else {
			i += len(c.pieces[step[i]])
		}
	}
	c.known[number] = out
	return out
}

// encode writes a text, as its segments.
func (c *coder) encode(text []uint32) {
	escape := c.place[""]
	for _, s := range text {
		for _, p := range c.parse(s) {
			if p >= 0 {
				c.bits.write(uint64(c.code[p]), c.length[p])
				continue
			}
			c.bits.write(uint64(c.code[escape]), c.length[escape])
			c.bits.write(uint64(-1-p), letterBits)
		}
	}
}

// codeLengths are the lengths of Huffman's codes for the counts of a list. Very
// rare ones are counted as less rare, which bounds the codes to about 24 bits.
// Of equal counts the one that was there first is taken: those of the list in
// their order, then what was made of them.
func codeLengths(list []candidate) []int {
	total := 0
	for _, d := range list {
		total += d.n
	}
	type knot struct{ n, of int } // of: its leaf, or below nought the pair it was made of
	leaves := make([]knot, len(list))
	for i, d := range list {
		leaves[i] = knot{max(d.n, total>>16, 1), i}
	}
	slices.SortStableFunc(leaves, func(a, b knot) int { return a.n - b.n })
	made := make([]knot, 0, len(list)) // their counts never fall, so they are in order
	pairs := make([][2]int, 0, len(list))
	least := func() (k knot) {
		if len(made) == 0 || len(leaves) > 0 && leaves[0].n <= made[0].n {
			k, leaves = leaves[0], leaves[1:]
		} else {
			k, made = made[0], made[1:]
		}
		return k
	}
	for len(leaves)+len(made) > 1 {
		a, b := least(), least()
		pairs = append(pairs, [2]int{a.of, b.of})
		made = append(made, knot{a.n + b.n, -len(pairs)})
	}
	out := make([]int, len(list))
	if len(list) == 1 {
		out[0] = 1
	}
	depth := make([]int, len(pairs))
	for p := len(pairs) - 1; p >= 0; p-- { // the root was made last
		for _, of := range pairs[p] {
			if of >= 0 {
				out[of] = depth[p] + 1
			} else {
				depth[-of-1] = depth[p] + 1
			}
		}
	}
	return out
}
