package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/trade"
)

// A crossReckoner counts what lies on each other where a seam runs over others.
type crossReckoner struct{ *index }

var (
	crossRule = say.Of("garment.plies-of-each-piece-in-this-seam")
	noStacks  = say.Of("garment.its-type-has-no-drawing-to-count")
)

// crossings counts the plies of every seam where it runs over others that end on it.
func (w *crossReckoner) crossings() {
	for i := range w.g.Sewn.Plan.Seams {
		s := w.seamCalled(i)
		if s.broken || s.set || s.kind == nil {
			continue
		}
		list := w.g.Sewn.Crossings(i)
		var deepest figure.Term
		over := ""
		for k := range list {
			c := &list[k]
			line, ok := w.lineOf(s, c.On[0])
			if !ok || line > 1 {
				continue
			}
			t := w.pile(s, c, line, list)
			if !deepest.Given() || t.Known() && (!deepest.Known() || t.In(measure.UnitCount) > deepest.In(measure.UnitCount)) {
				deepest, over = t, w.seamCalled(c.Ends).Name
			}
		}
		if deepest.Given() {
			s.Over = over
			w.inPanels(s)
			s.Crossed = w.Figure(w.Join("seam.", s.anchor, ".crossing"), say.Of("garment.plies-where-it-crosses"), w.Join(s.Name, " over ", over), deepest, measure.UnitCount, crossRule, figure.Derived)
		}
	}
}

// inPanels notes in how many panels the skirts of a seam are cut: where they end, it runs
// over their seams.
func (w *crossReckoner) inPanels(s *Seam) {
	for k := range s.Sides {
		for _, u := range s.Sides[k].Edges {
			if ring := u.Piece.form.ring; ring != nil && ring.Panels.Given() {
				w.Remark(figure.Written, "panels", figure.AsItStands, ring.Panels.At, "")
			}
		}
	}
}

// lineOf is which line of a seam a side lies in: 0 or 1, then what is caught in.
func (w *index) lineOf(s *Seam, id sewn.SideID) (int, bool) {
	side := &w.g.Sewn.Sides[id]
	name := w.g.Sewn.Copies[side.Copy].Name
	has := func(list []EdgeUse) bool {
		for _, u := range list {
			if u.Piece.Name == name && u.Edge.Name == side.Edge {
				return true
			}
		}
		return false
	}
	for k := range s.Sides {
		if has(s.Sides[k].Edges) {
			return k, true
		}
	}
	for k := range s.Plies {
		if has(s.Plies[k].Edges) {
			return 2 + k, true
		}
	}
	return 0, false
}

// pile counts the plies of a seam at one crossing, on a line of it.
func (w *crossReckoner) pile(s *Seam, c *sewn.Crossing, line int, all []sewn.Crossing) figure.Term {
	var lines [2]figure.Term
	lines[line] = w.deep(w.seamCalled(c.Ends), c)
	far := s.Sides[1-line].Edges[0].Piece
	if c.Met >= 0 {
		far = w.pieceOf(c.Met)
	}
	lines[1-line] = w.backed(far)
	if len(c.Over) > 0 {
		lines[1-line] = w.deep(w.seamCalled(c.Over[0].Ends), &c.Over[0])
	}
	plies := make([]figure.Term, len(s.Plies))
	for k := range plies {
		plies[k] = w.backed(s.Plies[k].Edges[0].Piece)
		for o := range all { // its own seam, which ends where those of what it lies behind do
			if at, ok := w.lineOf(s, all[o].On[0]); ok && at == 2+k {
				plies[k] = w.deep(w.seamCalled(all[o].Ends), &all[o])
				break
			}
		}
	}
	return w.deepest(s, lines, plies)
}

// deep counts the plies of a seam that ends at a crossing.
func (w *crossReckoner) deep(s *Seam, c *sewn.Crossing) figure.Term {
	var lines [2]figure.Term
	for _, id := range c.Edge {
		if k, ok := w.lineOf(s, id); ok && k < 2 {
			lines[k] = w.backed(w.pieceOf(id))
		}
	}
	for k := range lines {
		if !lines[k].Given() {
			lines[k] = w.backed(s.Sides[k].Edges[0].Piece)
		}
	}
	plies := make([]figure.Term, len(s.Plies))
	for k := range plies {
		plies[k] = w.backed(s.Plies[k].Edges[0].Piece)
	}
	return w.deepest(s, lines, plies)
}

// backed is how many plies a piece is by itself: one, and what backs it.
func (w *crossReckoner) backed(p *Piece) figure.Term {
	return w.Found(p.Name, float64(max(len(p.together()), 1)), measure.UnitCount)
}

// deepest is the deepest place of a seam, each of whose lines and plies has so many.
func (w *crossReckoner) deepest(s *Seam, lines [2]figure.Term, plies []figure.Term) figure.Term {
	if s.kind == nil {
		return w.Unknown(say.Of("garment.the-seam-type-is-not-known"))
	}
	var out figure.Term
	for _, stack := range s.kind.stacks() {
		for _, turned := range s.maybeTurned() {
			var terms []figure.Term
			for role, n := range stack.Roles() {
				terms = append(terms, w.ofRole(s, turnedRole(role, turned), n, lines, plies)...)
			}
			t := w.SumOr(noStacks, terms)
			if !out.Given() || t.In(measure.UnitCount) > out.In(measure.UnitCount) {
				out = t
			}
		}
	}
	if !out.Given() {
		return w.Unknown(noStacks)
	}
	return out
}

// maybeTurned is how its allowances may lie: as its type draws them, or the other way
// round. Where they may be pressed to either side, rows beside the seam say to which.
func (s *Seam) maybeTurned() []bool {
	if s.kind.MayTurn() && len(s.besides) == 0 {
		return []bool{false, true}
	}
	return []bool{s.Type.IsTurned()}
}

// turnedRole is a role with the two sides exchanged.
func turnedRole(role trade.Role, turned bool) trade.Role {
	switch {
	case turned && role == trade.ClothA:
		return trade.ClothB
	case turned && role == trade.ClothB:
		return trade.ClothA
	}
	return role
}

// ofRole is what lies of one role at a place of a seam: so many plies of a side and of
// what is caught in behind it; a strip is one.
func (w *crossReckoner) ofRole(s *Seam, role trade.Role, n int, lines [2]figure.Term, plies []figure.Term) (out []figure.Term) {
	count := func(of figure.Term) {
		if n > 1 {
			of = w.Found(w.Join("plies in ", s.Name), float64(n), measure.UnitCount).Times(of)
		}
		out = append(out, of)
	}
	third := s.kind.Sides() == 3
	switch {
	case role == trade.ClothA || role == trade.ClothB:
		side := 0
		if role == trade.ClothB {
			side = 1
		}
		count(lines[side])
		for k := range plies {
			if s.Plies[k].With == side && !(third && side == 1) {
				count(plies[k])
			}
		}
	case role == trade.ClothC:
		for k := range plies {
			if s.Plies[k].With == 1 {
				count(plies[k])
			}
		}
	default:
		count(w.Found(string(role), 1, measure.UnitCount))
	}
	return out
}
