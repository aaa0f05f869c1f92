package sewn

import (
	"slices"

	"hembook/internal/shape"
)

// ShowsSeam reports whether a join stands for its seam in a net: where it is sewn, and
// where a zip or buttons close all of it.
func (s *Surface) ShowsSeam(j *Join) bool {
	return j.Seam >= 0 && (j.Kind != Closing || !slices.ContainsFunc(s.Joins, func(o Join) bool { return o.Seam == j.Seam && o.Kind != Closing }))
}

// AtFold reports whether a side is the inner edge of a folded band: what the band goes
// round opens at its fold.
func (s *Surface) AtFold(id SideID) bool { return s.known(id).AtFold }

// TakenBy is the seam that sews a side with its other edge, as a folded band's inner
// one, by its number in the plan; −1 where none does.
func (s *Surface) TakenBy(id SideID) int {
	name := s.known(id).TakenBy
	if name == "" {
		return -1
	}
	return slices.IndexFunc(s.Plan.Seams, func(m Seam) bool { return m.Name == name })
}

// FoldLine is where the band is folded of which a side is the inner edge: halfway from
// there to its outer edge, from end to end.
func (n *Net) FoldLine(s *Surface, id SideID) []shape.Point {
	inner, outer := n.Line(s, s.whole(id)), n.Line(s, s.whole(s.step(s.step(id, 1), 1)))
	if len(inner) < 2 || len(outer) < 2 {
		return nil
	}
	mid := func(a, b shape.Point) shape.Point { return shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2} }
	return []shape.Point{mid(inner[0], outer[len(outer)-1]), mid(inner[len(inner)-1], outer[0])}
}
