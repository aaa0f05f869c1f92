package garment

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/sewn"
)

// lapsAt is what closures overlap at a level, and where the first of it is said: what
// a band that lies at it is longer than what it is sewn to, and what lies beyond the
// line that buttons are set out on, at each edge that the level ends at.
func (w *levelReckoner) lapsAt(l *Level) (laps []figure.Term, at fault.Pos) {
	note := func(name string, length record.Length, times int) {
		t := w.Length(name, length)
		if times > 1 {
			t = t.By(float64(times))
		}
		if laps = append(laps, t); len(laps) == 1 {
			at = length.At
		}
	}
	for _, s := range w.g.Seams {
		lies := func(u EdgeUse) bool {
			return slices.ContainsFunc(l.cross, func(c crossing) bool { return c.edge != nil && (c.edge == u.Edge || c.edge == acrossBand(u)) })
		}
		if lap := s.closure(); lap.Given() && !s.broken && slices.ContainsFunc(s.Sides[s.lapSide()].Edges, lies) {
			note("overlap", lap, max(l.Limbs, 1))
		}
	}
	ends := map[*record.Notion]int{}
	end := func(at sewn.Place) {
		if n := w.lineBeside(w.edgeAt(at.Side)); n != nil {
			ends[n]++
		}
	}
	for i := range l.Girths {
		g := &l.Girths[i]
		if !g.Closed {
			end(g.Ends[0].Place)
			end(g.Ends[1].Place)
		}
		for _, c := range g.Crosses { // buttoned, it is closed there
			if w.g.Sewn.Joins[c.Join].Kind == sewn.Closing {
				end(c.At[0])
				end(c.At[1])
			}
		}
	}
	for i := range w.notions {
		if n := &w.notions[i]; ends[n] > 0 {
			note(w.Join("beyond the ", n.Name.V), n.Inside(), ends[n])
		}
	}
	return laps, at
}

// bandLong is how many times as long as it is wide a rectangle must be to count as a
// band and not as a panel of the garment (common practice, no source).
const bandLong = 4

// acrossBand is the edge of a band, a long rectangle whose ends are open or turned in,
// that lies opposite to the one it is sewn on by; nil where it is no band.
func acrossBand(u EdgeUse) *PieceEdge {
	if u.Piece.band() != nil && len(u.Piece.Edges) == 4 {
		return u.Edge.beside(2)
	}
	if u.Piece.Record.Rectangle == nil || len(u.Piece.Edges) != 4 {
		return nil
	}
	for _, end := range [...]*PieceEdge{u.Edge.beside(1), u.Edge.beside(-1)} {
		if end.seam != nil && !end.seam.turns() || end.sewn > u.Edge.sewn/bandLong {
			return nil
		}
	}
	return u.Edge.beside(2)
}

// lineBeside is the notion that is set out on a line inside an edge, or that has its
// buttonholes there; nil where none is.
func (w *index) lineBeside(e *PieceEdge) *record.Notion {
	for i := range w.notions {
		n := &w.notions[i]
		for _, at := range [...]record.Val[record.EdgeRef]{n.Along, n.HolesOn} {
			if at.Given() && n.Along.V.Inside > 0 && at.V.Inside == n.Along.V.Inside && at.V.Piece == e.piece.Name && e.is(at.V.Edge) {
				return n
			}
		}
	}
	return nil
}

// is reports whether an edge, or the one it is a stretch of, is called so.
func (e *PieceEdge) is(name string) bool {
	return e.piece.form.is(e, name) || e.note.whole != "" && e.note.whole == name
}
