package garment

import (
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
	"math"
	"slices"
)

// A holder is what keeps its length at a level, so that nothing there can be
// let out.
type holder struct {
	name          string
	what, written string // what the record says of it, and where
	at            fault.Pos
}

// heldFast is what keeps its length at a level: a stay, a band that nothing
// crosses, a strip; nil where nothing does.
func (w *letOuts) heldFast(l *Level) *holder {
	for i := range w.notions {
		n := &w.notions[i]
		if words.Plain(n.Where.V) == words.Plain(l.Name) && n.Length.Given() && holdsItsLength(n) {
			return &holder{n.Name.V, say.Of("garment.sewn-in"), n.Name.V, n.Name.At}
		}
	}
	for i := range l.cross {
		e := l.cross[i].edge
		if e == nil {
			if h := w.heldAtCorner(l, &l.cross[i]); h != nil {
				return h
			}
			continue
		}
		if n := w.notionOn(e); n != nil && holdsItsLength(n) {
			return &holder{n.Name.V, say.Of("garment.sewn-in"), n.Name.V, n.Name.At}
		}
		if f := e.finish; f != nil && f.kind != nil && holdsFast(f.kind) && e.seam == nil {
			return &holder{f.Name, "finish", f.Record.Type.V, f.Record.Type.At}
		}
		if s := e.seam; s != nil && !s.Record.Gather.Given() {
			if band := bandOf(s, e); band != nil {
				return &holder{band.Name, "seam", s.Record.Type.V, s.Record.Type.At}
			}
		}
	}
	return nil
}

// holdsFast reports whether a strip of a finish keeps the length of its edge: a cord that
// is drawn through keeps none.
func holdsFast(t *seamType) bool {
	return slices.ContainsFunc(t.Strips, func(s trade.Strip) bool { return s.As != trade.Cord })
}

// heldAtCorner is a band that is sewn on at a corner a level goes over.
func (w *letOuts) heldAtCorner(l *Level, c *crossing) *holder {
	p := c.piece
	n := len(p.Edges)
	for k := range p.Edges {
		a, b := &p.Edges[k], &p.Edges[(k+1)%n]
		if a.seam == nil || b.seam == nil || a.Fold || b.Fold || math.Abs(p.Outline.Start(b.Index).Y-p.heightOf(l.Name, c.y.V.MM())) > atCorner {
			continue
		}
		for _, e := range [...]*PieceEdge{a, b} {
			if s := e.seam; !w.crossedAt(l, e) && !s.Record.Gather.Given() {
				if band := bandOf(s, e); band != nil {
					return &holder{band.Name, "seam", s.Record.Type.V, s.Record.Type.At}
				}
			}
		}
	}
	return nil
}

// crossedAt reports whether a level goes over the seam of an edge.
func (w *letOuts) crossedAt(l *Level, e *PieceEdge) bool {
	for i := range l.Girths {
		for _, id := range l.Girths[i].Crossed(w.g.Sewn) {
			if j := &w.g.Sewn.Joins[id]; w.edgeAt(j.A.Side) == e || w.edgeAt(j.B.Side) == e {
				return true
			}
		}
	}
	return false
}

// stays are words for what is sewn in to hold a length (terms of the trade).
var stays = []string{"stay", "petersham", "grosgrain", "elastic", "tape", "ribbon", "waistband", "band"}

func holdsItsLength(n *record.Notion) bool {
	return words.AnyOf(n.Is(), stays)
}

// bandOf is the piece on the other side of a seam where nothing crosses it, so
// that it cannot be let out: a band cut in one.
func bandOf(s *Seam, e *PieceEdge) *Piece {
	side := 1 - e.side
	if len(s.Sides[side].Edges) != 1 {
		return nil
	}
	u := s.Sides[side].Edges[0]
	p, at := u.Piece, u.Edge.index()
	n := len(p.Edges)
	for _, beside := range []*PieceEdge{&p.Edges[(at+1)%n], &p.Edges[(at+n-1)%n]} {
		if beside.seam != nil && !beside.Fold && !beside.seam.turns() {
			return nil
		}
	}
	return p
}
