package garment

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/say"
)

// rowsMeet is how nearly two rows of edges must be as long as each other, as a part of
// the longer, for their brackets to have been forgotten (common practice, no source).
const rowsMeet = 0.06

// edgesInRow finds the brackets that are missing where a seam of three edges or more
// names each as a line of its own, and those before one of them are together as long as
// those from it on: the edges before and behind it were meant to be sewn end to end.
// first is how many there are before; 0 where it is not so.
func (w *derivation) edgesInRow(s *Seam) (first int) {
	join := s.Record.Join
	if len(join) < 3 || s.broken {
		return 0
	}
	lengths := make([]float64, len(join))
	sum := 0.0
	for i, line := range join {
		if len(line) != 1 || w.named[line[0].Piece] == nil {
			return 0
		}
		e := w.named[line[0].Piece].edgeCalled(line[0].Edge)
		if e == nil || !e.Sewn.Value.Known() {
			return 0
		}
		lengths[i] = e.sewn * float64(e.Times)
		sum += lengths[i]
	}
	best, row := math.Inf(1), 0.0
	for k := 1; k < len(join); k++ {
		row += lengths[k-1]
		a, b := row-s.lapping()[0], sum-row-s.lapping()[1]
		if off := math.Abs(a - b); off <= rowsMeet*max(a, b) && off < best {
			first, best = k, off
		}
	}
	return first
}

// tellRows tells of the brackets that are missing around edges sewn end to end; it
// reports whether any are.
func (w *derivation) tellRows(s *Seam) bool {
	first := w.edgesInRow(s)
	if first == 0 {
		return false
	}
	join := s.Record.Join
	refs := make([]string, len(join))
	for i := range join {
		refs[i] = join[i][0].String()
	}
	bracketed := func(from, to int) string {
		row := strings.Join(refs[from:to], ", ")
		if to-from > 1 {
			row = "[" + row + "]"
		}
		return row
	}
	s.met.Mend = say.Of("garment.write", bracketed(0, first), bracketed(first, len(join)))
	f := w.faults.Wrong(s.Record.At, s.met.Mend, say.Of("garment.edges-sewn-end-to-end-stand-in", s.Name))
	for _, row := range [...][2]int{{0, first}, {first, len(join)}} {
		if from, last := row[0], row[1]-1; last > from {
			f.InsteadAt(join[from][0].At, refs[from], "["+refs[from])
			f.InsteadAt(join[last][0].At, refs[last], refs[last]+"]")
		}
	}
	s.rows = true
	return true
}

// bandWords begin the names of pieces that close over each other (terms of the trade).
var bandWords = []string{"waistband", "band", "cuff", "belt", "stand"}

// What a band laps over itself, mm, at least and at most (common practice, no source).
const (
	lapLeast = 10
	lapMost  = 120
)

// mayOverlap reports whether the first side of a seam is a band that is longer than what
// it is sewn to by what a band laps over itself.
func (s *Seam) mayOverlap(longer float64) bool {
	side := s.Sides[0].Edges
	return longer >= lapLeast && longer <= lapMost && len(side) == 1 && len(s.Plies) == 0 &&
		slices.ContainsFunc(bandWords, func(word string) bool { return strings.HasPrefix(side[0].Piece.Name, word) }) && acrossBand(side[0]) != nil
}
