package record

import (
	"slices"

	"hembook/internal/say"
)

// noes are ways to say that an edge lies at no level; what is read is none.
var noes = []string{"no", "not", "nothing", "nil", "null", "false", "off", "nowhere", say.Of("record.no-level"), "without", "-", "0"}

// noLevel tells of edges that are said to lie at no level, but in another word: they
// would lie at a level called so.
func (c *buildCheck) noLevel(p *Piece) {
	look := func(level Text) {
		if slices.Contains(noes, level.V) {
			c.faults.Wrong(level.At, say.Of("record.did-you-mean-none"), say.Of("record.would-be-a-level-of-that-name", say.Quoted(level.V))).Instead(level.V, "none")
		}
	}
	if p.Outline != nil {
		for i := range p.Outline.Edges {
			look(p.Outline.Edges[i].Level)
		}
	}
	for i := range p.Edges {
		look(p.Edges[i].V.Level)
	}
}
