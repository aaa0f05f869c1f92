package garment

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// tellUnsewn warns of what cannot be sewn as the record has it.
func (w *derivation) tellUnsewn() {
	for _, f := range w.unsewn {
		var s *Seam
		at := w.b.Name.At
		if f.Seam >= 0 {
			s = w.seamCalled(f.Seam)
			at = s.Record.At
		}
		switch f.Kind {
		case sewn.SameHand:
			alike := w.cutAlike(f)
			if len(alike) == 0 {
				w.faults.LookAgain(at, say.Of("garment.name-the-edge-of-the-other-side"), say.Of("garment.would-lie-wrong-side-up", say.Quoted(s.Name), refName(f.Edges[0]), refName(f.Edges[1])))
				continue
			}
			bad := w.faults.LookAgain(at, say.Of("garment.cut-them-in-pairs-write-cut-2"), say.Of("garment.needs-a-left-and-a-right-but", say.Quoted(s.Name), say.Of("garment.the-pieces", strings.Join(alike, " and "))))
			w.inPairs(bad, f)
		case sewn.SewnTwice:
			w.faults.LookAgain(at, say.Of("garment.name-the-pieces-that-lie-on-each"),
				say.Of("garment.is-sewn-in-and-in", refName(f.Edges[0]), say.Quoted(w.seamCalled(f.Counts[0]).Name), say.Quoted(w.seamCalled(f.Counts[1]).Name)))
		case sewn.Twisted:
			w.faults.LookAgain(at, say.Of("garment.name-the-edge-of-the-other-side"), say.Of("garment.can-only-be-sewn-with-one-of", say.Quoted(s.Name)))
		case sewn.WrongSide:
			w.faults.LookAgain(at, say.Of("garment.name-the-edges-of-the-other-armhole"),
				say.Of("garment.lays-the-front-of-to-the-back", say.Quoted(s.Name), f.Edges[0].Piece, f.Edges[1].Piece))
		case sewn.NoWayIn:
			w.faults.LookAgain(w.named[f.Edges[0].Piece].Record.At, say.Of("garment.leave-an-edge-open-or-put-a"), say.Of("garment.closed-all-round-there-is-no-way", closedNames(f.Edges)))
		}
	}
}

func (w *index) seamCalled(i int) *Seam {
	anchor := w.g.Sewn.Plan.Seams[i].Name
	return w.g.Seams[slices.IndexFunc(w.g.Seams, func(s *Seam) bool { return s.anchor == anchor })]
}

func refName(r sewn.EdgeRef) string { return r.Piece + "." + r.Edge }

// cutAlike names the pieces of a fault that are cut several times and not in pairs; none
// where the seam names the wrong one of a pair.
func (w *derivation) cutAlike(f sewn.Snag) []string {
	var out []string
	for _, r := range f.Edges {
		if p := w.named[r.Piece]; p.Count > 1 && !p.Mirrored && !p.OnFold && !slices.Contains(out, r.Piece) {
			out = append(out, r.Piece)
		}
	}
	return out
}

func closedNames(list []sewn.EdgeRef) string {
	if len(list) == 1 {
		return say.Of("garment.is-3", list[0].Piece)
	}
	names := make([]string, len(list))
	for i, r := range list {
		names[i] = r.Piece
	}
	return say.Of("garment.are-2", meant.List(names, "and"))
}

// levelsMeet is how far the ends of a level may lie apart at a seam before it is
// told, mm (common practice, no source).
const levelsMeet = 5

// tellLevels warns where a level of one piece meets the next at another height
// than it is marked there.
func (w *levelReckoner) tellLevels(l *Level) {
	type meeting struct {
		seam     int
		from, to string
	}
	var told []meeting
	for i := range l.Girths {
		for _, c := range l.Girths[i].Crosses {
			j := &w.g.Sewn.Joins[c.Join]
			if c.Off <= levelsMeet || j.Seam < 0 {
				continue
			}
			from, to := w.pieceOf(c.At[0].Side), w.pieceOf(c.At[1].Side)
			m := meeting{j.Seam, min(from.Name, to.Name), max(from.Name, to.Name)}
			at, marked := to.levelMark(l.Name)
			if from == to || !marked || slices.Contains(told, m) {
				continue
			}
			told = append(told, m)
			meets := w.g.Sewn.HeightAt(c.Met.Side, c.Met.At)
			w.faults.LookAgain(at, say.Of("garment.mark-it-there-or-move-the-level", from.Name), say.Of("garment.the-of-meets-at-a-height-of", l.Name, from.Name, to.Name, w.tape().Tenth(meets), w.tape().Tenth(w.g.Sewn.HeightAt(c.At[1].Side, c.At[1].At))))
		}
	}
}

func (w *index) pieceOf(id sewn.SideID) *Piece {
	return w.named[w.g.Sewn.Copies[w.g.Sewn.Sides[id].Copy].Name]
}

// levelMark is where the height of a level is written for a piece.
func (p *Piece) levelMark(level string) (fault.Pos, bool) {
	for i := range p.form.levels {
		if l := &p.form.levels[i]; l.Name.V == level {
			return l.V.At, true
		}
	}
	return fault.Pos{}, false
}
