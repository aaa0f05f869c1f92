package record

import (
	"hembook/internal/fault"
	"hembook/internal/say"
)

// A TurnSpec says that a piece is rolled over together with what lies under it, for which
// its outer ply needs more than the inner: turn of cloth.
type TurnSpec struct {
	At     fault.Pos  `yaml:"-"`
	Angle  Number     `yaml:"angle" must:"yes" short:"yes" min:"10" max:"360" about:"how far it is rolled over, in degrees: 180 where it lies back on itself, as a collar over its stand, 360 where it goes round, as a cuff" eg:"180"`
	Over   Text       `yaml:"over" about:"the piece that lies under it there; else its own inner ply, or the piece that it is sewn to and turned out with" eg:"under collar"`
	Across Val[Slash] `yaml:"across" about:"from where to where it is measured over the roll, on this piece and on that under it; else along the edge on the fold" eg:"neck at middle to outer at middle"`
	More   Length     `yaml:"more" min:"0" max:"60" about:"how much more it needs, as you found by rolling two samples; else by how thick the cloths are" eg:"4"`
}

// turnOfCloth checks what is rolled over, over what, and where that is measured.
func (c *buildCheck) turnOfCloth(p *Piece) {
	t := p.Turn
	if t == nil || !t.At.Given() {
		return
	}
	if t.Over.Given() && c.isPiece(t.Over, "") && t.Over.V == p.Name.V {
		c.faults.Wrong(t.Over.At, say.Of("record.name-the-piece-under-it-or-leave"), say.Of("record.cannot-lie-under-itself", p.Name.V))
	}
	if !t.Across.Given() {
		return
	}
	for _, s := range t.Across.V {
		c.edgeIn(Text{s.Edge, t.Across.At}, p)
		c.where(s.Edge, Where{V: s.Where, At: t.Across.At}, p)
	}
}
