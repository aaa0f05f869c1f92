package search

import "unicode/utf8"

// A maze holds every way to cut the segments of some texts into candidates, so
// that one can ask again and again which are the shortest while candidates drop
// out.
type maze struct {
	segments []mazeSegment
	ways     []way
	letter   int // the candidate that announces a character
	all      int // candidates
}

// A mazeSegment is a segment, how often it stands in the texts, and its ways,
// from its end to its beginning.
type mazeSegment struct {
	size, n  int
	from, to int // of its ways
}

// A way leads from one place of a segment to a later one by a candidate, or
// by a character written out: those come first of all from a place.
type way struct{ from, to, piece int32 }

const byLetter = -1 // the piece of a way by a character

// newMaze numbers the candidates and finds the ways of the segments through them.
func newMaze(segments, list []candidate) *maze {
	m := &maze{segments: make([]mazeSegment, 0, len(segments)), all: len(list)}
	number := make(map[string]int32, len(list))
	for i := range list {
		list[i].id = i
		number[list[i].text] = int32(i)
		if list[i].text == "" {
			m.letter = i
		}
	}
	for _, s := range segments {
		from := len(m.ways)
		for i := len(s.text) - 1; i >= 0; i-- {
			if utf8.RuneStart(s.text[i]) {
				m.add(s.text, i, number)
			}
		}
		m.segments = append(m.segments, mazeSegment{len(s.text), s.n, from, len(m.ways)})
	}
	return m
}

// add finds the ways from one place of a segment.
func (m *maze) add(text string, i int, number map[string]int32) {
	_, n := utf8.DecodeRuneInString(text[i:])
	m.ways = append(m.ways, way{int32(i), int32(i + n), byLetter})
	for j := i + 1; j <= min(len(text), i+longestPiece); j++ {
		if j < len(text) && !utf8.RuneStart(text[j]) {
			continue
		}
		if id, ok := number[text[i:j]]; ok {
			m.ways = append(m.ways, way{int32(i), int32(j), id})
		}
	}
}

// used is how often each candidate is needed for the segments, where only those
// of a list are pieces. Those that are not needed are left out.
func (m *maze) used(list []candidate) []candidate {
	bits := make([]int, m.all) // 0 for what is no piece
	for i, l := range codeLengths(list) {
		bits[list[i].id] = l
	}
	times := make([]int, m.all)
	var least, step []int
	for _, s := range m.segments {
		if len(least) <= s.size {
			least, step = make([]int, 2*s.size+1), make([]int, 2*s.size+1)
		}
		m.shortest(s, bits, least, step)
		for i := 0; i < s.size; {
			w := m.ways[step[i]]
			if w.piece == byLetter {
				times[m.letter] += s.n
			} else {
				times[w.piece] += s.n
			}
			i = int(w.to)
		}
	}
	var out []candidate
	for _, d := range list {
		if d.n = times[d.id]; d.needed() {
			d.n++
		}
		if d.n > 0 {
			out = append(out, d)
		}
	}
	return out
}

// shortest finds for every place of a segment the way that takes the fewest
// bits to its end; of equal ones that by the shorter piece.
func (m *maze) shortest(s mazeSegment, bits, least, step []int) {
	least[s.size] = 0
	for k := s.from; k < s.to; k++ {
		w := m.ways[k]
		switch {
		case w.piece == byLetter:
			least[w.from], step[w.from] = bits[m.letter]+letterBits+least[w.to], k
		case bits[w.piece] > 0 && bits[w.piece]+least[w.to] < least[w.from]:
			least[w.from], step[w.from] = bits[w.piece]+least[w.to], k
		}
	}
}
