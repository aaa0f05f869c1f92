package garment

import (
	"math"

	"hembook/internal/figure"
)

const letOutRule = "Σ (what the seam keeps of the allowance − what must stay to sew it so again) × times, over every sewn edge that runs through the level or from its ends"

// letOut is how much a level can be let out.
func (w *work) letOut(l *Level, base string) {
	id := w.Join(base, ".let-out")
	const title = "let-out"
	if len(l.cross) == 0 {
		l.LetOut = w.Figure(id, title, l.Name, w.Unknown("no outline marks this level"), mm, letOutRule, figure.Practice)
		return
	}
	var through []*PieceEdge
	for i := range l.cross {
		through = appendThrough(through, &l.cross[i])
	}
	terms := make([]figure.Term, len(through))
	for i, e := range through {
		terms[i] = w.spare(e).By(float64(e.Times))
	}
	t := w.Found("no sewn edge runs through it", 0, mm)
	if len(terms) > 0 {
		t = w.Sum(terms...)
	}
	t = t.Unless(w.letOutUnsure(l, through))
	l.LetOut = w.Figure(id, title, l.Name, t, mm, letOutRule, figure.Practice)
}

// appendThrough adds the sewn edges that run through a crossing.
func appendThrough(list []*PieceEdge, c *crossing) []*PieceEdge {
	for k := range c.piece.Edges {
		if e := &c.piece.Edges[k]; e.seam != nil && !e.Fold && runsThrough(c, k) {
			list = append(list, e)
		}
	}
	return list
}

// runsThrough reports whether an edge of the crossing's piece leaves the ends
// of the edge that lies at the level, or passes the level's height.
func runsThrough(c *crossing, k int) bool {
	p := c.piece
	if c.edge == nil {
		return p.passes(k, c.y.V.MM())
	}
	n := len(p.Edges)
	return c.edge == &p.Edges[(k+1)%n] || c.edge == &p.Edges[(k+n-1)%n]
}

// passes reports whether an edge runs from below a height to above it.
func (p *Piece) passes(k int, y float64) bool {
	e := &p.Edges[k]
	next := p.Edges[(k+1)%len(p.Edges)].Index
	a, b := p.Outline.Start(e.Index).Y, p.Outline.Start(next).Y
	return math.Min(a, b) <= y && y <= math.Max(a, b)
}
