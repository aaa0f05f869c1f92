package garment

import (
	"hembook/internal/sewn"
	"slices"
)

// A givingSide is one side of a seam that a level crosses, and how often it
// does.
type givingSide struct {
	edge  *PieceEdge
	seam  *Seam
	side  int
	times float64
	held  string // the notion that lies in its allowance; "" where none does

	behind []*PieceEdge // what is caught in behind it, which must give as much
}

// sidesThrough lists both sides of every join that a level crosses, of one limb
// where it goes round several, or says why they cannot be told. What a zip or
// buttons join gives nothing.
func (w *letOuts) sidesThrough(girths []sewn.Girth, limbs int) (out []givingSide, why string) {
	for i := range girths {
		g := &girths[i]
		for _, end := range g.Ends {
			if !g.Closed && end.Join >= 0 && end.Beyond != "" {
				return nil, w.Join(w.seamOf(end.Join).Name, " joins ", end.Beyond, ", which does not go round with the others here")
			}
		}
		for _, id := range g.Crossed(w.g.Sewn) {
			j := &w.g.Sewn.Joins[id]
			if j.Kind != sewn.Sewn {
				continue
			}
			both := w.bothSides(id)
			for _, side := range both {
				if why := w.heldAlong(side.seam, side.edge); why != "" {
					return nil, why
				}
			}
			if other := w.likewise(g, id); other >= 0 {
				if rest := w.bothSides(other); w.givingLess(rest, both) {
					both = rest
				}
			}
			for _, side := range both {
				out = also(out, side)
			}
		}
	}
	return perLimb(out, limbs), ""
}

func perLimb(sides []givingSide, limbs int) []givingSide {
	for i := range sides {
		sides[i].times /= float64(max(limbs, 1))
	}
	return sides
}

// bothSides are the two sides of a join.
func (w *letOuts) bothSides(id sewn.JoinID) []givingSide {
	s, j := w.seamOf(id), &w.g.Sewn.Joins[id]
	a, b := w.edgeAt(j.A.Side), w.edgeAt(j.B.Side)
	first := 0
	if !s.usesOn(a, 0) || !s.usesOn(b, 1) {
		first = 1
	}
	out := []givingSide{
		{edge: a, seam: s, side: first, times: 1, held: w.liesIn(a)},
		{edge: b, seam: s, side: 1 - first, times: 1, held: w.liesIn(b)},
	}
	for i := range out {
		if j.Kind == sewn.Sewn {
			out[i].behind = s.behindEdge(out[i].side, out[i].edge)
		}
	}
	return out
}

// behindEdge lists what is caught in behind an edge of a side.
func (s *Seam) behindEdge(side int, e *PieceEdge) (out []*PieceEdge) {
	for i := range s.Plies {
		p := &s.Plies[i]
		if p.With != side || !slices.ContainsFunc(p.Along, func(v EdgeUse) bool { return v.Edge == e }) {
			continue
		}
		for _, u := range p.Edges {
			if u.Edge != e && (len(p.Edges) == 1 || u.Edge.Name == e.Name) {
				out = append(out, u.Edge)
			}
		}
	}
	return out
}

// likewise is a join that must give with one that a girth crosses, as both begin
// at the corner that it goes over; -1 where there is none.
func (w *letOuts) likewise(g *sewn.Girth, id sewn.JoinID) sewn.JoinID {
	for i := range g.Crosses {
		if g.Crosses[i].Join == id {
			return w.g.Sewn.Likewise(&g.Crosses[i])
		}
	}
	return -1
}

// givingLess reports whether sides give less than others, as they are sewn.
func (w *letOuts) givingLess(a, b []givingSide) bool {
	x, y := w.giving(a, false), w.giving(b, false)
	return x.Known() && y.Known() && x.MM() < y.MM()-1e-6
}

// leastStorey is what gives least where a level lies along a seam, as the waist
// of a dress does: the seams above it or those below it, for both become longer.
func (w *letOuts) leastStorey(l *Level, sides []givingSide) ([]givingSide, string) {
	for i := range l.cross {
		e := l.cross[i].edge
		if e == nil || e.seam == nil || e.seam.Record.Gather.Given() {
			continue
		}
		lines := [][]EdgeUse{e.opposite()}
		for k := range e.seam.Plies { // what is caught in at the line must give too
			lines = append(lines, e.seam.Plies[k].Edges)
		}
		for _, line := range lines {
			storey, why := w.storey(line)
			if why != "" {
				return nil, why
			}
			if storey = perLimb(storey, l.Limbs); w.givingLess(storey, sides) {
				sides = storey
			}
		}
	}
	return sides, ""
}

// storey lists the seams that come to the corners of edges, as those of a skirt do to
// its waist.
func (w *letOuts) storey(edges []EdgeUse) (out []givingSide, why string) {
	for _, u := range edges {
		held := w.g.Sewn.BesideEdge(u.Piece.Name, u.Edge.Name, func(id sewn.JoinID) bool { return w.seamOf(id).turns() })
		for _, h := range held {
			for k, side := range w.bothSides(h.Join) {
				j := &w.g.Sewn.Joins[h.Join]
				if (k == 0) != (j.A.Side == h.Side) {
					continue
				}
				if why := w.heldAlong(side.seam, side.edge); why != "" {
					return nil, why
				}
				out = also(out, side)
			}
		}
	}
	return out, ""
}

// also adds a side to a list, or counts it once more.
func also(list []givingSide, s givingSide) []givingSide {
	for i := range list {
		if o := &list[i]; o.edge == s.edge && o.seam == s.seam && o.side == s.side {
			o.times += s.times
			return list
		}
	}
	return append(list, s)
}

// seamOf is the seam that made a join of the garment put together.
func (w *index) seamOf(id sewn.JoinID) *Seam {
	return w.seamCalled(w.g.Sewn.Joins[id].Seam)
}

// edgeAt is the edge of which a side of a copy is one occurrence.
func (w *index) edgeAt(id sewn.SideID) *PieceEdge {
	return w.pieceOf(id).edgeCalled(w.g.Sewn.Sides[id].Edge)
}

func (s *Seam) usesOn(e *PieceEdge, side int) bool {
	for u := range s.edgesOn(side) {
		if u.Edge == e {
			return true
		}
	}
	return false
}
