package garment

import (
	"maps"
	"math"
	"slices"
	"strings"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// meetsNear is how nearly an edge must be as long as the one it is proposed to be sewn
// to, mm and as a part of it (common practice, no source).
const (
	meetsNear = 15
	meetsPart = 0.05
)

// otherEdge finds the edge that was meant in the place of one that a seam of two names:
// of the same piece, joined to nothing and finished by nothing, and as long as the
// seam's other edge.
func otherEdge(s *Seam) (ref record.EdgeRef, meant *PieceEdge) {
	r := s.Record
	if s.set {
		return ref, nil
	}
	if r.Ease.Given() || r.Gather.Given() || r.Overlap.Given() || len(r.Stretches) > 0 {
		return ref, nil // she looked at these edges
	}
	for i := range s.Sides {
		if len(s.Record.Join) != 2 || len(s.Record.Join[i]) != 1 || len(s.Sides[i].Edges) != 1 || len(s.Sides[1-i].Edges) != 1 {
			return ref, nil
		}
		named, stays := s.Sides[i].Edges[0].Edge, s.Sides[1-i].Edges[0].Edge
		if math.Abs(named.sewn-stays.sewn) <= 2*meetsNear {
			continue
		}
		for k := range named.piece.Edges {
			e := &named.piece.Edges[k]
			if !e.free() || e.Times != stays.Times || !near(e, stays) {
				continue
			}
			if meant != nil && meant.Name != stays.Name { // the one of the same name before others
				meant, ref = nil, record.EdgeRef{}
			}
			if meant == nil {
				ref, meant = s.Record.Join[i][0], e
			}
		}
	}
	return ref, meant
}

// free reports whether an edge is joined to nothing and finished by nothing.
func (e *PieceEdge) free() bool {
	return e.seam == nil && e.finish == nil && !e.Fold && !e.meant && e.note.whole == ""
}

func near(a, b *PieceEdge) bool {
	return math.Abs(a.sewn-b.sewn) <= max(meetsNear, meetsPart*b.sewn)
}

// unlikeItself are words for edges that are sewn to another piece's and seldom to their
// own mirror image (terms of the trade).
var unlikeItself = []string{"side", "shoulder", "underarm", "outseam"}

// joinedToItself warns of an edge that is sewn to its own mirror image while an edge of
// that name and length, on another piece, stays loose.
func (w *derivation) joinedToItself() {
	for _, s := range w.g.Seams {
		if s.broken || s.set || len(s.Record.Join) != 2 || len(s.Record.Join[1]) != 1 || len(s.Sides[0].Edges) != 1 || len(s.Sides[1].Edges) != 1 || s.Sides[0].Edges[0].Edge != s.Sides[1].Edges[0].Edge {
			continue
		}
		own := s.Sides[0].Edges[0].Edge
		if own.Times%2 != 0 || !words.AnyOf(own.Name, unlikeItself) {
			continue
		}
		for _, p := range w.g.Pieces {
			if e := p.edgeCalled(own.Name); p != own.piece && e != nil && e.free() && e.Times == own.Times && near(e, own) {
				e.meant = true
				ref := s.Record.Join[1][0]
				w.faults.LookAgain(s.Record.At, say.Of("garment.did-you-mean", own.ref, e.ref), say.Of("garment.joins-to-itself-and-stays-loose", s.Name, own.ref, e.ref)).
					InsteadAt(ref.At, ref.Piece+"."+ref.Edge, e.ref)
				break
			}
		}
	}
}

// writtenTwice warns of a seam that is written again under another name: the same edges
// in the same way. One that is sewn otherwise is a row more, and is meant.
func (w *derivation) writtenTwice() {
	first := map[string]*Seam{}
	for _, s := range w.g.Seams {
		if s.broken || s.set || s.kind == nil || len(s.Record.Join) < 2 {
			continue
		}
		edges := s.edgesWritten()
		o := first[edges]
		if o == nil {
			first[edges] = s
			continue
		}
		if o.kind == s.kind && maps.Equal(o.given, s.given) && o.Record.Stitch.V == s.Record.Stitch.V {
			w.faults.LookAgain(s.Record.At, say.Of("garment.keep-one-of-them-or-write-what"),
				say.Of("garment.sews-the-same-edges-as-in-the", say.Quoted(s.Name), say.Quoted(o.Name)))
		}
	}
}

// edgesWritten are the edges that a seam joins, whichever is named first.
func (s *Seam) edgesWritten() string {
	var out []string
	for _, side := range s.Record.Join {
		for _, r := range side {
			out = append(out, r.String())
		}
	}
	slices.Sort(out)
	return strings.Join(out, " + ")
}
