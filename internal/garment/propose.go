package garment

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// tape prints lengths in the record's unit.
func (w *desk) tape() words.Tape { return words.Tape(w.unit) }

// written is a length as a bare number of the record: in the record's unit, to a
// tenth of a millimetre or nearer.
func (w *desk) written(mm float64) string { return w.tape().Written(mm) }

// writtenUp is a length of at least so many millimetres, as the record would have it.
func (w *desk) writtenUp(mm float64) string {
	switch w.unit {
	case measure.UnitCM:
		return words.PlainNumber(math.Ceil(mm*10-1e-6)/100, 2)
	case measure.UnitIn:
		return words.PlainNumber(math.Ceil(mm/25.4*16-1e-6)/16, 4)
	}
	return words.PlainNumber(math.Ceil(mm*10-1e-6)/10, 1)
}

// edgeWord proposes a word for an edge, where the piece's own record can take it.
func edgeWord(f *fault.Fault, e *PieceEdge, line string) {
	p := e.piece.Record
	for i := range p.Edges {
		if own := &p.Edges[i]; own.Name.V == e.note.name || own.Name.V == e.note.before {
			f.Set(own.Name.At, "name", line)
			return
		}
	}
	if p.Outline != nil && !p.Outline.File.Given() {
		f.Set(e.note.at, "to", line)
		return
	}
	name := e.note.name
	if e.note.before != "" {
		name = e.note.before
	}
	f.Set(p.At, "", line, "edges", name)
}

// allowanceOf proposes another allowance for an edge.
func (w *desk) allowanceOf(f *fault.Fault, e *PieceEdge, mm float64) {
	now := w.writtenUp(mm)
	if e.note.allowance.Given() {
		f.InsteadAt(e.note.allowance.At, "", now)
		return
	}
	edgeWord(f, e, "allowance: "+now)
}

// seamWord proposes a word for a seam.
func (s *Seam) seamWord(f *fault.Fault, line string) { f.Set(s.Record.At, "join", line) }

// curveOf proposes another curve for an edge that the record of a piece draws in one
// part; nil where it cannot.
func curveOf(drawn *Piece, e *PieceEdge, curve string) []fault.Correction {
	p := drawn.Record
	if p.Outline == nil || p.Outline.File.Given() {
		return nil
	}
	parts := 0
	for i := range e.piece.form.notes {
		if e.piece.form.notes[i].at == e.note.at {
			parts++
		}
	}
	if parts != 1 {
		return nil
	}
	var f fault.Fault
	f.Set(e.note.at, "to", curve)
	return f.Correct
}

// inPairs proposes to cut in pairs the pieces of a fault that are all cut alike.
func (w *derivation) inPairs(f *fault.Fault, found sewn.Snag) {
	var done []*Piece
	for _, r := range found.Edges {
		p := w.named[r.Piece]
		if p.Mirrored || p.OnFold || p.Count%2 != 0 || slices.Contains(done, p) {
			continue
		}
		done = append(done, p)
		f.Set(p.Record.At, "", "cut: "+strconv.Itoa(p.Count))
	}
}
