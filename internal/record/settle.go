package record

// settle fills in what the order of a record says, what a group says once for all
// that stand in it, and what is usual where nothing is said.
func (b *Build) settle() {
	b.settleRounds()
	b.settleSewing()
	for i := range b.Pieces {
		b.Pieces[i].settlePlaces()
	}
	b.settleWork()
}

// settleRounds numbers the rounds of fitting and hands what a round says on to
// its changes.
func (b *Build) settleRounds() {
	for i := range b.Fittings {
		f := &b.Fittings[i]
		f.Round = Count{i + 1, f.At}
		for j := range f.Change {
			if c := &f.Change[j]; !c.Agreed.Given() {
				c.Agreed = f.Agreed
			}
		}
		if f.Note.Given() {
			f.Change = append(f.Change, Change{At: f.Note.At, Note: f.Note, Agreed: f.Agreed})
		}
	}
}

// settleSewing says of seams and finishes what is usual: of a seam without a type
// all of the usual seam, or else that it is plain.
func (b *Build) settleSewing() {
	usual := &b.Usual.Seam
	for i := range b.Seams {
		s := &b.Seams[i]
		s.Thread = s.Thread.otherwise(b.Usual.Thread)
		switch {
		case s.Type.Given():
		case usual.Type.Given():
			s.Type, s.Stitch, s.Strip = usual.Type, s.Stitch.otherwise(usual.Stitch), s.Strip.otherwise(usual.Strip)
			for _, w := range usual.With {
				if _, own := s.With.Get(w.Name.V); !own {
					s.With = append(s.With, w)
				}
			}
		default:
			s.Type = Text{"plain", s.At}
		}
	}
	for i := range b.Finishes {
		f := &b.Finishes[i]
		f.Thread = f.Thread.otherwise(b.Usual.Thread)
	}
}

// settlePlaces says how far along their edges darts and notches are that are
// measured from where the edge begins.
func (p *Piece) settlePlaces() {
	for i := range p.Darts {
		p.Darts[i].Along = along(p.Darts[i].Place)
	}
	for i := range p.Notches {
		p.Notches[i].Along = along(p.Notches[i].Place)
	}
}

// along is a place that is measured from where its edge begins; not given for
// others.
func along(w Where) Length {
	if w.Given() && w.V.Plain() {
		return Length{w.V.By, w.At}
	}
	return Length{}
}
