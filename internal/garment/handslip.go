package garment

import (
	"slices"
	"strconv"

	"hembook/internal/say"
)

// alikeInPairs warns of a piece of which all are cut alike though it has a left and a
// right, and is sewn to one that is there as a left and a right: two left sleeves.
func (w *doubter) alikeInPairs(p *Piece) {
	c := p.form.cut
	if !c.Given() || !c.V.Alike || c.V.N%2 != 0 || p.form.ownImage() || w.toldOfHand(p) || !p.meetsPair() {
		return
	}
	pairs := "cut: " + strconv.Itoa(c.V.N)
	w.faults.LookAgain(p.Record.At, say.Of("garment.for-a-left-and-a-right-write", pairs),
		say.Of("garment.has-a-left-and-a-right-side", p.Name, many(c.V.N, say.Of("garment.left-one")))).Set(p.Record.At, "", pairs)
}

// toldOfHand reports whether a seam tells already that a piece is of one hand.
func (w *doubter) toldOfHand(p *Piece) bool {
	for _, f := range w.unsewn {
		for _, r := range f.Edges {
			if r.Piece == p.Name {
				return true
			}
		}
	}
	return false
}

// meetsPair reports whether a piece is sewn to one that is there as a left and a right:
// cut in pairs, or on the fold with an edge on either side of it.
func (p *Piece) meetsPair() bool {
	for k := range p.Edges {
		e := &p.Edges[k]
		if e.seam == nil || e.seam.broken {
			continue
		}
		if slices.ContainsFunc(e.seam.Sides[1-e.side].Edges, func(u EdgeUse) bool {
			return u.Piece != p && (u.Piece.Mirrored || u.Piece.OnFold && u.Edge.Times == 2)
		}) {
			return true
		}
	}
	return false
}
