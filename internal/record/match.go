package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
)

// A Matching is one thing that must meet in the pattern of the cloth.
type Matching struct {
	At    fault.Pos
	Of    string // a seam; "" where it is a line
	Piece string // the piece of a line or an edge, and which
	Edge  string
	Way   string // along, across; "" for both
}

// settleMatch reads what must match.
func (b *Build) settleMatch() {
	b.Match = nil
	for _, t := range b.MatchOf {
		m := Matching{At: t.At, Of: t.V}
		for _, way := range []string{"along", "across"} {
			if of, ok := strings.CutSuffix(t.V, " "+way); ok {
				m.Of, m.Way = of, way
			}
		}
		if piece, edge, ok := strings.Cut(m.Of, "."); ok {
			m.Of, m.Piece, m.Edge = "", piece, edge
		}
		b.Match = append(b.Match, m)
	}
}

// checkMatch checks that what must match is there.
func (c *buildCheck) checkMatch() {
	seams := c.seamNames()
	for _, m := range c.b.Match {
		switch {
		case m.Of == "":
			c.edgeRef(EdgeRef{At: m.At, Piece: m.Piece, Edge: m.Edge})
		case c.pieces[m.Of] != nil && !slices.Contains(seams, m.Of):
			c.faults.Errorf(m.At, "name a line or an edge of it, as "+m.Of+".centre, or the seam it lies in", "match: %s is a piece", m.Of)
		case slices.ContainsFunc(c.b.Notions, func(n Notion) bool { return n.Name.V == m.Of }) && !slices.Contains(seams, m.Of):
			c.faults.Errorf(m.At, "name the edge it lies along, as front.centre", "match: %s is a notion", m.Of)
		default:
			known(Text{m.Of, m.At}, listed{"seam", "in this build", seams}, c.faults)
		}
	}
}
