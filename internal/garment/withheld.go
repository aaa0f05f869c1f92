package garment

import (
	"slices"
	"strings"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// What stands here holds a figure back where the record is measured edge by
// edge and the figure needs the garment sewn. A figure that is not known costs
// a look at the garment; a wrong one costs the cloth.

// atCorner is how near a level may come to a corner of a piece before it
// belongs to the corner, in millimetres (common practice, no source).
const atCorner = 2

// behindWords are names of pieces that lie behind others of the same cloth
// (common practice, no source).
var behindWords = []string{"facing", "lining", "stay", "interfacing", "interlining", "underlining", "backing", "underlay", "undercollar"}

func liesBehind(piece string) bool {
	return words.AnyOf(piece, behindWords)
}

// letOutUnsure says why nobody can say yet how far a level can be let out;
// empty where the sum over its seams is right.
func (w *letOuts) letOutUnsure(l *Level) string {
	if w.girthUnsure(l) != "" {
		return say.Of("garment.it-is-not-known-how-far-round")
	}
	for i := range l.cross {
		if e := l.cross[i].edge; e != nil {
			if n := w.notionAt(e); n != "" {
				return w.Join(n, " is sewn to ", e.ref, " and holds it")
			}
		}
	}
	return ""
}

// heldAlong says why the allowance of an edge in a seam that a level crosses
// cannot be counted on.
func (w *letOuts) heldAlong(s *Seam, e *PieceEdge) string {
	if s.kind == nil || s.broken || s.err != nil {
		return w.Join("nothing is known of how ", s.Name, " is sewn")
	}
	if !s.kind.Told() {
		return w.Join("workroom.yaml does not say what the seam type ", s.kind.Name, " leaves of its allowances: write keeps and holds")
	}
	for _, other := range w.g.Seams {
		if other != s && other.uses(e) && s.handOn(e).Meets(other.handOn(e)) {
			return w.Join("two seams, ", s.Name, " and ", other.Name, ", share the allowance of ", e.ref)
		}
	}
	for _, f := range w.g.Finishes {
		if f.uses(e) && f.kind != nil && (f.kind.Gives.A.String() != "0" || len(f.kind.Strips) > 0) {
			return w.Join(f.Name, " uses of the allowance of ", e.ref)
		}
	}
	return ""
}

// liesIn is the notion, other than a zip, that is sewn to an edge or lies in the channel
// of its seam: what is left of the allowance holds it, and gives nothing.
func (w *index) liesIn(e *PieceEdge) string {
	if n := w.notionOn(e); n != nil && !isZip(n) {
		return n.Name.V
	}
	return ""
}

func (s *Seam) uses(e *PieceEdge) bool {
	return s.usesOn(e, 0) || s.usesOn(e, 1)
}

func (f *Finish) uses(e *PieceEdge) bool {
	return slices.ContainsFunc(f.Edges, func(u EdgeUse) bool { return u.Edge == e })
}

// notionAt names a notion with a length of its own, a zip or a tape, that is
// sewn to an edge or into the seam that has it.
func (w *index) notionAt(e *PieceEdge) string {
	if n := w.notionOn(e); n != nil {
		return n.Name.V
	}
	return ""
}

func (w *index) notionOn(e *PieceEdge) *record.Notion {
	for i := range w.notions {
		n := &w.notions[i]
		at := n.Along.Given() && n.Along.V.Piece == e.piece.Name && e.piece.edgeCalled(n.Along.V.Edge) == e && !n.SetOut()
		in := slices.ContainsFunc(n.In, func(t record.Text) bool { return t.V == e.SewnBy })
		if at || in {
			return n
		}
	}
	return nil
}

func layerOfItsOwn(part string) bool {
	return strings.Contains(part, "lining") || strings.Contains(part, "overlay") || strings.Contains(part, "backing") || strings.Contains(part, "interfacing")
}

// marks reports whether the piece marks a level.
func (p *Piece) marks(level string) bool {
	return slices.ContainsFunc(p.Edges, func(e PieceEdge) bool { return e.Level == level }) ||
		slices.ContainsFunc(p.AtLevels, func(a LevelWidth) bool { return a.Level == level })
}
