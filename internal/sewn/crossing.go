package sewn

import "slices"

// A Crossing is where one seam runs over the end of another: both edges that the other
// joins go on there in edges of the seam, on one side of it.
type Crossing struct {
	Ends int        // the seam that ends there, into Plan.Seams
	Edge [2]SideID  // the two edges that it joins
	On   [2]SideID  // the edges of the seam that go on from them
	Over []Crossing // what ends at the same place on the other side of the seam
	Met  SideID     // what the seam sews there to the first of them
}

// sameEnd is how far from each other along a seam two that end on it may lie to end at one
// place of it, mm.
const sameEnd = 1

// Crossings are the places where a seam runs over others that end on it, in the order of
// the joins.
func (s *Surface) Crossings(seam int) (out []Crossing) {
	for id := range s.Joins {
		j := &s.Joins[id]
		if j.Seam < 0 || j.Seam == seam || j.Kind == Closing {
			continue
		}
		for _, by := range [...]int{1, -1} {
			if c, ok := s.endOn(j, by, seam); ok {
				out = append(out, c)
			}
		}
	}
	for i := range out {
		s.meetOver(&out[i], out, seam)
	}
	return out
}

// endOn is where a join ends on a seam, at the end of its first stretch (1) or at its
// beginning.
func (s *Surface) endOn(j *Join, by, seam int) (Crossing, bool) {
	if !s.atCorner(j.A, by) || !s.atCorner(j.B, -by) {
		return Crossing{}, false
	}
	a, b := s.step(j.A.Side, by), s.step(j.B.Side, -by)
	line := s.lineOf(seam, a)
	if line < 0 || line != s.lineOf(seam, b) {
		return Crossing{}, false
	}
	return Crossing{Ends: j.Seam, Edge: [2]SideID{j.A.Side, j.B.Side}, On: [2]SideID{a, b}, Met: -1}, true
}

// atCorner reports whether a stretch goes to the end of its side, or to its beginning.
func (s *Surface) atCorner(sp Span, by int) bool {
	if by > 0 {
		return sp.To >= s.Sides[sp.Side].Closed-touch
	}
	return sp.From <= touch
}

// lineOf is which line of a seam has a side: 0 or 1, then what is caught in; −1 where
// none has.
func (s *Surface) lineOf(seam int, id SideID) int {
	p := &s.Plan.Seams[seam]
	r := EdgeRef{Piece: s.piece(id).Name, Edge: s.Sides[id].Edge}
	for k, side := range p.Sides {
		if slices.Contains(side, r) {
			return k
		}
	}
	for k := range p.Plies {
		if slices.Contains(p.Plies[k].Edges, r) {
			return 2 + k
		}
	}
	return -1
}

// meetOver finds what a seam sews to a crossing, and what ends there on the far side.
func (s *Surface) meetOver(c *Crossing, all []Crossing, seam int) {
	from, at := c.On[0], 0.0
	if s.step(c.Edge[0], -1) == from { // it begins where the other ends
		at = s.Sides[from].Closed
	}
	for _, id := range s.JoinsOf(from) {
		j := &s.Joins[id]
		own, _ := j.mate(from, at)
		if j.Seam != seam || j.Kind == Closing || at < own.From-touch || at > own.To+touch {
			continue
		}
		far, place := j.across(from, at)
		c.Met = far
		for _, o := range all {
			for k, on := range o.On {
				begins := s.step(o.Edge[k], 1) == on
				if on == far && (begins && place < sameEnd || !begins && place > s.Sides[on].Closed-sameEnd) && !slices.ContainsFunc(c.Over, func(x Crossing) bool { return x.Ends == o.Ends }) {
					c.Over = append(c.Over, o)
				}
			}
		}
		return
	}
}
