package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// A BlockSpec is a rectangle that lies behind what is marked on a piece.
type BlockSpec struct {
	At     fault.Pos `yaml:"-"`
	Behind Text      `yaml:"behind" short:"yes" must:"yes" about:"what it lies behind: buttons and the like by their name, a pocket by its seam, or a line, as sleeve.slit" eg:"buttons"`
	Beyond Length    `yaml:"beyond" min:"0" seldom:"75" about:"how far it reaches beyond that, all round; else 10 mm" eg:"12"`
}

// A Backed is what a block lies behind; one of its fields is set.
type Backed struct {
	Notion *Notion
	Seam   *Seam // that sets a piece on another
	Piece  string
	Line   string // on that piece
}

// Behind is what a block lies behind; nothing where the record has none so called.
func (b *Build) Behind(s *BlockSpec) (out Backed) {
	if i := slices.IndexFunc(b.Notions, func(n Notion) bool { return n.Name.V == s.Behind.V }); i >= 0 {
		return Backed{Notion: &b.Notions[i]}
	}
	if i := slices.IndexFunc(b.Seams, func(q Seam) bool { return q.Name.V == s.Behind.V }); i >= 0 {
		return Backed{Seam: &b.Seams[i]}
	}
	piece, line, _ := strings.Cut(s.Behind.V, ".")
	return Backed{Piece: piece, Line: line}
}

// block checks what a block lies behind.
func (c *buildCheck) block(p *Piece) {
	s := p.Block
	if s == nil || !s.Behind.Given() {
		return
	}
	at := s.Behind.At
	switch b := c.b.Behind(s); {
	case b.Notion != nil && !b.Notion.SetOut():
		c.faults.Wrong(at, say.Of("record.say-where-they-lie-as-along-and"), say.Of("record.has-no-places-that-a-block-could", fault.Shorten(s.Behind.V)))
	case b.Seam != nil && !b.Seam.Place.Given():
		c.faults.Wrong(at, say.Of("record.name-a-seam-that-sets-a-piece"), say.Of("record.has-no-place-that-a-block-could", fault.Shorten(s.Behind.V)))
	case b.Piece == p.Name.V && b.Line != "":
		c.faults.Wrong(at, say.Of("record.name-a-line-of-another-piece"), say.Of("record.cannot-lie-behind-itself", p.Name.V))
	case b.Line != "" && c.pieces[b.Piece] != nil && !slices.Contains(c.linesOf(c.pieces[b.Piece]), b.Line):
		c.faults.Wrong(at, meant.Among(b.Line, c.linesOf(c.pieces[b.Piece]), say.Of("record.it-has")), say.Of("record.is-no-line-of", say.Quoted(fault.Shorten(b.Line)), b.Piece))
	case b.Notion == nil && b.Seam == nil && (b.Line == "" || c.pieces[b.Piece] == nil):
		known(s.Behind, listed{"place", say.Of("record.that-a-block-could-lie-behind"), c.backed()}, c.faults)
	}
}

// backed lists what blocks may lie behind.
func (c *buildCheck) backed() (out []string) {
	for i := range c.b.Notions {
		if n := &c.b.Notions[i]; n.SetOut() {
			out = append(out, n.Name.V)
		}
	}
	for i := range c.b.Seams {
		if s := &c.b.Seams[i]; s.Place.Given() {
			out = append(out, s.Name.V)
		}
	}
	for i := range c.b.Pieces {
		p := &c.b.Pieces[i]
		for _, line := range c.linesOf(p) {
			out = append(out, p.Name.V+"."+line)
		}
	}
	return out
}
