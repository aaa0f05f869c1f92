package garment

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
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
			bad := w.faults.Warnf(at, "cut them in pairs: write cut: 2", "%q needs a left and a right, but %s are all cut alike", s.Name, w.cutAlike(f))
			w.inPairs(bad, f)
		case sewn.SewnTwice:
			w.faults.Warnf(at, "name the pieces that lie on each other there in one seam, or another edge",
				"%s is sewn in %q and in %q", refName(f.Edges[0]), w.seamCalled(f.Counts[0]).Name, w.seamCalled(f.Counts[1]).Name)
		case sewn.Twisted:
			w.faults.Warnf(at, "name the edge of the other side", "%q can only be sewn with one of its pieces turned over, and other seams need it as it is", s.Name)
		case sewn.WrongSide:
			w.faults.Warnf(at, "name the edges of the other armhole, or cut the sleeve the other way round",
				"%q lays the front of %s to the back of %s: is it the other one", s.Name, f.Edges[0].Piece, f.Edges[1].Piece)
		case sewn.NoWayIn:
			w.faults.Warnf(w.named[f.Edges[0].Piece].Record.At, "leave an edge open, or put a zip into a seam", "%s closed all round: there is no way in", closedNames(f.Edges))
		}
	}
}

func (w *index) seamCalled(i int) *Seam {
	anchor := w.g.Sewn.Plan.Seams[i].Name
	return w.g.Seams[slices.IndexFunc(w.g.Seams, func(s *Seam) bool { return s.anchor == anchor })]
}

func refName(r sewn.EdgeRef) string { return r.Piece + "." + r.Edge }

// cutAlike names the pieces of a fault that are not cut in pairs.
func (w *derivation) cutAlike(f sewn.Snag) string {
	var out []string
	for _, r := range f.Edges {
		if p := w.named[r.Piece]; !p.Mirrored && !p.OnFold && !slices.Contains(out, r.Piece) {
			out = append(out, r.Piece)
		}
	}
	if len(out) == 0 {
		return refName(f.Edges[0]) + " and " + refName(f.Edges[1])
	}
	return "the pieces " + strings.Join(out, " and ")
}

func closedNames(list []sewn.EdgeRef) string {
	if len(list) == 1 {
		return list[0].Piece + " is"
	}
	names := make([]string, len(list))
	for i, r := range list {
		names[i] = r.Piece
	}
	return meant.List(names, "and") + " are"
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
			w.faults.Warnf(at, "mark it there, or move the level of "+from.Name, "the %s of %s meets %s at a height of %s, and is marked there at %s",
				l.Name, from.Name, to.Name, w.tape().Tenth(meets), w.tape().Tenth(w.g.Sewn.HeightAt(c.At[1].Side, c.At[1].At)))
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
