package sewn

import "slices"

// A Held is a side and a join that it is sewn in.
type Held struct {
	Side SideID
	Join JoinID
}

// BesideEdge lists the sewn joins that come to both corners of an edge, on each
// of its copies: where the edge is to become longer, they must give. Those that
// shut says of are left out, as are folds and what a zip or buttons shut.
func (s *Surface) BesideEdge(piece, edge string, shut func(JoinID) bool) []Held {
	var out []Held
	for id := range s.Sides {
		e := &s.Sides[id]
		if e.Edge != edge || s.Copies[e.Copy].Name != piece {
			continue
		}
		before, after := s.step(SideID(id), -1), s.step(SideID(id), 1)
		for _, p := range [...]Place{{before, s.Sides[before].Closed}, {after, 0}} {
			if j := s.sewnAt(p, func(j JoinID) bool { return !shut(j) }); j >= 0 {
				out = append(out, Held{p.Side, j})
			}
		}
	}
	return out
}

// Likewise is the other seam between the same two copies where a girth goes over
// the very corner at which both begin, as a gore's upper and lower seam do; -1
// where there is none. Both must give there.
func (s *Surface) Likewise(c *Crosses) JoinID {
	met := s.Sides[c.At[1].Side].Copy
	for _, next := range [...]int{-1, 1} {
		if p, ok := s.roundCorner(c.At[0], next); ok {
			if j := s.sewnAt(p, func(j JoinID) bool { return j != c.Join && s.between(j, s.Sides[p.Side].Copy, met) }); j >= 0 {
				return j
			}
		}
	}
	return -1
}

// roundCorner is the same corner on the next side, where a place is one.
func (s *Surface) roundCorner(p Place, next int) (Place, bool) {
	other := s.step(p.Side, next)
	switch {
	case next > 0 && p.At >= s.Sides[p.Side].Closed-touch:
		return Place{other, 0}, true
	case next < 0 && p.At <= touch:
		return Place{other, s.Sides[other].Closed}, true
	}
	return Place{}, false
}

// sewnAt is the sewn join at a place that is asked for; -1 where there is none.
func (s *Surface) sewnAt(p Place, want func(JoinID) bool) JoinID {
	for _, t := range s.taken(p.Side, nil) {
		if p.At >= t.From-touch && p.At <= t.To+touch && s.Joins[t.join].Kind == Sewn && want(t.join) {
			return t.join
		}
	}
	return -1
}

// between reports whether a join is one of two copies.
func (s *Surface) between(id JoinID, a, b CopyID) bool {
	j := &s.Joins[id]
	both := []CopyID{s.Sides[j.A.Side].Copy, s.Sides[j.B.Side].Copy}
	return slices.Contains(both, a) && slices.Contains(both, b)
}
