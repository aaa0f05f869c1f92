package garment

import (
	"slices"
	"strconv"

	"hembook/internal/say"
	"hembook/internal/shape"
)

// CutWords says how often and in what a piece is cut.
func (p *Piece) CutWords() string {
	s := say.Of("garment.cut-2", strconv.Itoa(p.Count))
	switch {
	case p.OnFold:
		s += say.Of("garment.on-the-fold")
	case p.Mirrored:
		s += say.Of("garment.mirrored")
	}
	if p.CountsParts() {
		return s + p.pliesWords()
	}
	for i, of := range p.Of {
		switch {
		case i == 0:
			s += " in " + of
		case i == len(p.Of)-1:
			s += say.Of("garment.and-2", of)
		default:
			s += ", " + of
		}
	}
	return s
}

// CountsParts reports whether it must be said of each part how many of a piece are cut
// in it: there are several in one, or more in one than in another.
func (p *Piece) CountsParts() bool {
	return len(p.Of) > 1 && p.PliesIn(p.Of[0]) > 1 || slices.ContainsFunc(p.Of, func(part string) bool { return p.PliesIn(part) != p.PliesIn(p.Of[0]) })
}

// pliesWords says in what a piece is cut of which there are more plies in one part than
// in another, or two in one: ": 2 in shell, 1 in fusing".
func (p *Piece) pliesWords() string {
	s := ""
	for i, part := range p.Of {
		if slices.Contains(p.Of[:i], part) {
			continue
		}
		if s == "" {
			s = ": "
		} else {
			s += ", "
		}
		s += strconv.Itoa(p.CutIn(part)) + " in " + part
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
