package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
)

// A Matching is one thing that must meet in the pattern of the cloth.
type Matching struct {
	At    fault.Pos
	Of    string // a seam, or a notion that lies along a line; "" where it is a line
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

// NotionOf is the notion of a name; nil where there is none.
func (b *Build) NotionOf(name string) *Notion {
	if i := slices.IndexFunc(b.Notions, func(n Notion) bool { return n.Name.V == name }); i >= 0 {
		return &b.Notions[i]
	}
	return nil
}

// checkMatch checks that what must match is there.
func (c *buildCheck) checkMatch() {
	if len(c.b.Match) > 0 {
		c.hasPattern(c.b.Match[0].At)
	}
	seams := c.seamNames()
	for _, m := range c.b.Match {
		switch {
		case m.Of == "":
			c.edgeRef(EdgeRef{At: m.At, Piece: m.Piece, Edge: m.Edge})
		case c.pieces[m.Of] != nil && !slices.Contains(seams, m.Of):
			c.faults.Errorf(m.At, "name a line or an edge of it, as "+m.Of+".centre, or the seam it lies in", "match: %s is a piece", m.Of)
		case c.b.NotionOf(m.Of) != nil && !slices.Contains(seams, m.Of):
			if n := c.b.NotionOf(m.Of); n.Along.V.Edge == "" {
				c.faults.Errorf(m.At, "name an edge or a line, as front.centre; or give that line, as "+m.Of+": {along: 18 inside front.front}", "match: no line is given for %s", m.Of)
			}
		default:
			known(Text{m.Of, m.At}, listed{"seam", "in this garment", seams}, c.faults)
		}
	}
}

// hasPattern tells where no cloth of a build has a pattern to match.
func (c *buildCheck) hasPattern(at fault.Pos) {
	plain := ""
	for _, use := range c.b.Cloth {
		cloth, _ := c.r.Cloth(use.V.Use.V)
		if cloth == nil || cloth.Repeat.Along.Given() || cloth.Repeat.Across.Given() {
			return
		}
		if plain == "" {
			plain = cloth.Slug
		}
	}
	if plain != "" {
		c.faults.Errorf(at, "add the repeat to its file, as repeat: {across: 91}", "match: %s has no repeat", plain)
	}
}

// checkPattern checks what a cloth says of its stripe or check.
func (c *Cloth) checkPattern(faults *fault.Faults) {
	if c.Repeat.Line.Given() && !c.Repeat.Across.Given() {
		faults.Errorf(c.Repeat.Line.At, "add across:, after how far the stripes come again", "line: tells of stripes along the cloth, and it has none")
	}
	if c.Uneven.V && !c.Repeat.Along.Given() && !c.Repeat.Across.Given() {
		faults.Errorf(c.Uneven.At, "add repeat:, or write one-way: true for a nap", "uneven: tells of a repeat, and the cloth has none")
	}
}
