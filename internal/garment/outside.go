package garment

import (
	"math"
	"slices"

	"hembook/internal/sewn"
	"hembook/internal/words"
)

// innerNames are words for pieces that lie inside, whatever they are
// sewn to (terms of the trade).
var innerNames = []string{"pocket", "bag", "pouch"}

// outerLinings lets a piece that is cut from a lining lie in the outer layer where it
// stands in for the shell, as the back of a waistcoat does: its upright edges are sewn to
// pieces of the shell that are seen, or to others that stand in so.
func outerLinings(p *sewn.Plan) {
	if !anyPiece(p, isLining) {
		return
	}
	at := insides{}
	out := map[string]bool{}
	for i := range p.Pieces {
		q := &p.Pieces[i]
		at[q.Name] = q
		if isLining(q) && !q.Behind && !words.AnyOf(q.Name, innerNames) {
			out[q.Name] = true
		}
	}
	for again := len(out) > 0; again; { // what a piece is sewn to may stand in too
		again = false
		for i := range p.Pieces {
			name := p.Pieces[i].Name
			if out[name] && !at.standsIn(p, name, out) {
				delete(out, name)
				again = true
			}
		}
	}
	for name := range out {
		at[name].Layers = []string{outerLayer}
	}
}

// standsIn reports whether a piece goes on upright into the shell, and into nothing else.
func (at insides) standsIn(p *sewn.Plan, name string, out map[string]bool) (shell bool) {
	seen := func(r sewn.EdgeRef) bool {
		q := at[r.Piece]
		return q != nil && !q.Behind && !isLining(q)
	}
	for i := range p.Seams {
		s := &p.Seams[i]
		for k, side := range s.Sides {
			if s.Turns || slices.ContainsFunc(side, seen) {
				continue // what lies behind the shell's edge and its own
			}
			if !slices.ContainsFunc(side, func(r sewn.EdgeRef) bool { return r.Piece == name && runsUp(at[name], r.Edge) }) {
				continue
			}
			for _, r := range s.Sides[(k+1)%len(s.Sides)] {
				switch {
				case seen(r):
					shell = true
				case r.Piece != name && !out[r.Piece]:
					return false
				}
			}
		}
	}
	return shell
}

// runsUp reports whether an edge of a piece runs up rather than across.
func runsUp(q *sewn.Piece, edge string) bool {
	o := &q.Outline
	first, last := -1, -1
	for i := range o.Edges {
		if o.Edges[i].Name == edge {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return false
	}
	from, to := o.Start(first), o.Edges[last].To
	return math.Abs(to.Y-from.Y) > math.Abs(to.X-from.X)
}
