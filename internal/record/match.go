package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
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
			c.faults.Wrong(m.At, say.Of("record.name-a-line-or-an-edge-of", m.Of), say.Of("record.match-is-a-piece", m.Of))
		case c.b.NotionOf(m.Of) != nil && !slices.Contains(seams, m.Of):
			if n := c.b.NotionOf(m.Of); n.Along.V.Edge == "" {
				c.faults.Wrong(m.At, say.Of("record.name-an-edge-or-a-line-as", m.Of), say.Of("record.match-no-line-is-given-for", m.Of))
			}
		default:
			known(Text{m.Of, m.At}, listed{"seam", say.Of("record.in-this-garment"), seams}, c.faults)
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
		c.faults.Wrong(at, say.Of("record.add-the-repeat-to-its-file-as"), say.Of("record.match-has-no-repeat", plain))
	}
}

// checkPattern checks what a cloth says of its stripe or check.
func (c *Cloth) checkPattern(faults *fault.Faults) {
	if c.Repeat.Line.Given() && !c.Repeat.Across.Given() {
		faults.Wrong(c.Repeat.Line.At, say.Of("record.add-across-after-how-far-the-stripes"), say.Of("record.line-tells-of-stripes-along-the-cloth"))
	}
	if c.Uneven.V && !c.Repeat.Along.Given() && !c.Repeat.Across.Given() {
		faults.Wrong(c.Uneven.At, say.Of("record.add-repeat-or-write-one-way-true"), say.Of("record.uneven-tells-of-a-repeat-and-the"))
	}
}
