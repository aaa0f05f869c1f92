package garment

import (
	"strconv"

	"hembook/internal/shape"
)

// CutWords says how often and in what a piece is cut.
func (p *Piece) CutWords() string {
	s := "cut " + strconv.Itoa(p.Count)
	switch {
	case p.OnFold:
		s += " on the fold"
	case p.Mirrored:
		s += ", mirrored"
	}
	for i, of := range p.Of {
		switch {
		case i == 0:
			s += " in " + of
		case i == len(p.Of)-1:
			s += " and " + of
		default:
			s += ", " + of
		}
	}
	return s
}

// Bounds is the box about both lines of a piece.
func (p *Piece) Bounds() (least, most shape.Point) {
	least, most = p.Outline.Bounds()
	if len(p.Cut.Ring) > 0 {
		l, m := p.Cut.Ring.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
		most = shape.Point{X: max(most.X, m.X), Y: max(most.Y, m.Y)}
	}
	return least, most
}
