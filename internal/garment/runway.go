package garment

import (
	"math"

	"hembook/internal/say"
)

// A walked edge is an edge as it is walked along in a seam.
type walked struct {
	edge    *PieceEdge
	against bool    // walked from its end to its start
	begins  float64 // how far along the seam it begins, sewn
}

// toldElsewhere is why a seam is not walked of which another fault tells.
var toldElsewhere = say.Of("garment.its-sides-cannot-be-compared")

// walkedSides lays the edges of both sides end to end as they are sewn: each
// once where all occur equally often, else the whole run. why says why the
// record does not tell how they follow each other.
func (w *walker) walkedSides(s *Seam) (sides [2][]walked, why string) {
	alike := true
	times := s.Sides[0].Edges[0].Times()
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if !u.Edge.Sewn.Value.Known() || u.Times() == 0 {
				return sides, toldElsewhere
			}
			alike = alike && u.Times() == times
		}
	}
	first, other := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	sides[0] = inRun(s.Sides[0].Edges, false)
	sides[1] = inRun(s.Sides[1].Edges, sides[0][0].against == s.runAlike(first, other))
	switch {
	case alike:
		return sides, ""
	case !s.isRun():
		return sides, toldElsewhere
	}
	runs := runTimes(s)
	for i := range sides {
		if sides[i], why = wholeRun(sides[i], runs); why != "" {
			return sides, why
		}
	}
	return sides, ""
}

// inRun says which way each edge of a run is walked: so that it begins where
// the one before it ended. otherwise is the way of the first where nothing at
// its ends tells.
func inRun(list []EdgeUse, otherwise bool) []walked {
	out := make([]walked, len(list))
	at := 0.0
	for i, u := range list {
		out[i] = walked{edge: u.Edge, against: otherwise, begins: at}
		if len(list) > 1 && i == 0 {
			if way, ok := joinsNext(u.Edge, list[1].Edge); ok {
				out[i].against = way
			}
		}
		if i > 0 {
			out[i].against = beginsAt(out[i-1], u.Edge)
		}
		at += u.Edge.sewn
	}
	return out
}

// joinsNext reports whether an edge must be walked against its own way for its
// last corner to lie at the next edge of the run.
func joinsNext(e, next *PieceEdge) (against, ok bool) {
	if e.piece != next.piece || e == next {
		return false, false
	}
	switch {
	case e.beside(1) == next && e.beside(-1) != next:
		return false, true
	case e.beside(-1) == next && e.beside(1) != next:
		return true, true
	}
	return false, false
}

// beginsAt reports whether the next edge of a run is walked against its own way
// to begin where the one before it ended: at the corner of the same piece, or
// at that whose neighbours are sewn together.
func beginsAt(last walked, next *PieceEdge) bool {
	if last.edge.piece == next.piece && last.edge != next {
		return next.beside(-1) != last.edge && next.beside(1) == last.edge
	}
	corner := last.edge.beside(1)
	if last.against {
		corner = last.edge.beside(-1)
	}
	start, end := likeness(corner, next.beside(-1)), likeness(corner, next.beside(1))
	return end > start
}

// beside is the edge after (1) or before (−1) on the piece.
func (e *PieceEdge) beside(step int) *PieceEdge {
	n := len(e.piece.Edges)
	return &e.piece.Edges[(e.index()+n+step)%n]
}

// runAlike reports whether two edges that are joined run the same way as they
// are drawn.
func (s *Seam) runAlike(a, b *PieceEdge) bool {
	if a == b {
		return true
	}
	same := likeness(a.beside(-1), b.beside(-1)) + likeness(a.beside(1), b.beside(1))
	cross := likeness(a.beside(-1), b.beside(1)) + likeness(a.beside(1), b.beside(-1))
	if same != cross {
		return same > cross
	}
	up := func(e *PieceEdge) float64 {
		o := e.piece.Outline
		return o.Start(e.beside(1).Index).Y - o.Start(e.Index).Y
	}
	if u, v := up(a), up(b); math.Abs(u) > 1e-3 && math.Abs(v) > 1e-3 {
		return (u > 0) == (v > 0)
	}
	return false // two pieces beside each other run round the other way
}

// likeness is how much speaks for two edges meeting at one end of a seam.
func likeness(a, b *PieceEdge) int {
	n := 0
	switch {
	case a == b, a.seam != nil && a.seam == b.seam, a.finish != nil && a.finish == b.finish, a.Level != "" && a.Level == b.Level:
		n += 3
	}
	if a.Name == b.Name {
		n += 2
	}
	if a.Fold && b.Fold {
		n++
	}
	return n
}
