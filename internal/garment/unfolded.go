package garment

import "hembook/internal/say"

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
		tell := w.faults.LookAgain
		if p.notMet {
			tell = w.faults.Wrong
		}
		tell(p.unfolded.at, say.Of("garment.write-cut-1-on-fold"), say.Of("garment.lies-on-a-fold-but-is-not", p.Name, p.unfolded.name, say.Quoted(p.Name))).
			Set(p.Record.At, "", "cut: 1 on fold")
	}
}
