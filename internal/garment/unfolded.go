package garment

// unfoldedSide reports whether a seam does not meet because a piece that lies on a fold
// is not cut on it, of which is told once.
func (s *Seam) unfoldedSide() bool {
	found := false
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if u.Piece.unfolded != nil {
				u.Piece.notMet, found = true, true
			}
		}
	}
	return found
}

// pleatsWrong reports whether a seam does not meet because the pleats of a piece cannot be
// folded, of which is told there.
func (s *Seam) pleatsWrong() bool {
	for i := range s.Sides {
		for _, u := range s.Sides[i].Edges {
			if u.Piece.pleatsWrong {
				return true
			}
		}
	}
	return false
}

// tellUnfolded tells of edges on a fold of pieces that are not cut on it: an error,
// where seams do not meet because of it.
func (w *doubter) tellUnfolded() {
	for _, p := range w.g.Pieces {
		if p.unfolded == nil {
			continue
		}
		tell := w.faults.Warnf
		if p.notMet {
			tell = w.faults.Errorf
		}
		tell(p.unfolded.at, "write cut: 1 on fold", "%s.%s lies on a fold, but %q is not cut on fold", p.Name, p.unfolded.name, p.Name).
			Set(p.Record.At, "", "cut: 1 on fold")
	}
}
