package garment

import "slices"

// SeamOf is the seam that seam number i of the garment put together stands for.
func (g *Garment) SeamOf(i int) *Seam {
	for _, s := range g.Seams {
		if i >= 0 && s.anchor == g.Sewn.Plan.Seams[i].Name {
			return s
		}
	}
	return nil
}

// Has reports whether an edge of a piece stands on a side of a seam.
func (s *Seam) Has(side int, piece string) bool {
	return side < len(s.Sides) && slices.ContainsFunc(s.Sides[side].Edges, func(u EdgeUse) bool { return u.Piece.Name == piece })
}
