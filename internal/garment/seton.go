package garment

import "slices"

// setOnLine reports whether one side of a seam is a line on a piece.
func (s *Seam) setOnLine() bool {
	for u := range s.all() {
		if u.Edge.line != nil {
			return true
		}
	}
	return false
}

// setTimes counts how often a seam on the face of a piece is sewn: as often as what is
// set on is there. Fewer places than that are told.
func (w *derivation) setTimes(s *Seam) (why string) {
	var often [2]int
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if n := u.Edge.Times; often[i] == 0 || n < often[i] {
				often[i] = n
			}
		}
	}
	a, b := s.Sides[0].Edges[0].Edge, s.Sides[1].Edges[0].Edge
	switch {
	case a.line != nil && b.line == nil:
		a, b, often[0], often[1] = b, a, often[1], often[0]
	case a.line != nil && often[1] < often[0]:
		often[0] = often[1]
	}
	s.Times = often[0]
	if often[0] > often[1] {
		w.faults.Errorf(s.Record.At, "cut fewer of them, or draw a line for the others too", "%s: %s is there %s, %s %s", s.Name, a.ref, times(often[0]), b.ref, times(often[1]))
		return a.ref + " is there more often than the line it is sewn to"
	}
	return ""
}

// apartUnset are the pieces that no seam has, those that are set on others left out.
func (w *index) apartUnset(list []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(name string) bool {
		return slices.ContainsFunc(w.g.Seams, func(s *Seam) bool { return s.set && s.joins(w.named[name]) })
	})
}

// setBy is what closes an edge that is sewn on the face of another piece; "" of others.
func (e *PieceEdge) setBy() string {
	if e.seam != nil && e.seam.set {
		return e.seam.Name
	}
	return ""
}
