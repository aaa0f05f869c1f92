package garment

// SeamOf is the seam that seam number i of the garment put together stands for.
func (g *Garment) SeamOf(i int) *Seam {
	for _, s := range g.Seams {
		if i >= 0 && s.anchor == g.Sewn.Plan.Seams[i].Name {
			return s
		}
	}
	return nil
}
