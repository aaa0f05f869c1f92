package garment

import (
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/words"
)

// liningsSlip warns of pieces called after a cloth that no piece is cut in, and of
// linings that reach below what they line.
func (w *doubter) liningsSlip() {
	var told []fault.Pos
	once := func(at fault.Pos) bool {
		met := slices.Contains(told, at)
		told = append(told, at)
		return !met
	}
	for _, p := range w.g.Pieces {
		if part := w.clothUnused(p); part != "" && once(p.Record.At) {
			w.faults.LookAgain(p.Record.At, say.Of("garment.write-of", part), say.Of("garment.is-cut-in-and-nothing-is-cut", p.Name, p.Of[0], say.Quoted(part))).
				Set(p.Record.At, "", "of: "+part)
		}
		if below := w.hangsBelow(p); below > 0 && once(p.Record.Change[0].At) {
			w.faults.LookAgain(p.Record.Change[0].At, say.Of("garment.a-change-above-0-goes-outwards-shorter", w.written(below)),
				say.Of("garment.reaches-below-and-will-show", p.Name, w.tape().About(below), p.Record.Like.V))
		}
	}
}

// clothUnused is the cloth that a piece is called after and not cut in, where it does
// not say in which it is and no piece is cut in that; "" for others.
func (w *doubter) clothUnused(p *Piece) string {
	if len(p.Record.Of) > 0 || len(p.Of) == 0 {
		return ""
	}
	for i := range w.uses {
		part := w.uses[i].Name.V
		used := slices.ContainsFunc(w.g.Pieces, func(o *Piece) bool { return cutIn(o, part) })
		if !used && sewnApart(part) && words.AnyOf(p.Name, []string{part}) {
			return part
		}
	}
	return ""
}

// belowLeast is from which on a lining that is longer than its shell is told, mm (common
// practice, no source).
const belowLeast = 2

// hangsBelow is by how much a lining with a free lower edge reaches below what it is
// like because it was changed; 0 where it does not.
func (w *doubter) hangsBelow(p *Piece) float64 {
	shell := w.named[p.coverOf()]
	if !p.changed() || shell == nil || !p.sound() || !shell.sound() || !cutIn(p, "lining") && !words.AnyOf(p.Name, []string{"lining"}) {
		return 0
	}
	own, _ := p.Outline.Bounds()
	its, _ := shell.Outline.Bounds()
	hem := p.lowest()
	if below := its.Y - own.Y; hem != nil && hem.seam == nil && below >= belowLeast {
		return below
	}
	return 0
}

// lowest is the edge with the lowest middle.
func (p *Piece) lowest() (out *PieceEdge) {
	least := math.Inf(1)
	for k := range p.Edges {
		e := &p.Edges[k]
		if y := (e.corner(false).Y + e.corner(true).Y) / 2; y < least {
			out, least = e, y
		}
	}
	return out
}
