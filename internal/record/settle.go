package record

// settle fills in what the order of a record says, what a group says once for all
// that stand in it, and what is usual where nothing is said.
func (b *Build) settle() {
	b.settleBorders()
	b.liken()
	b.spreadSets()
	b.settleRounds()
	b.settleSewing()
	for i := range b.Pieces {
		b.Pieces[i].settlePlaces()
	}
	b.settleLines()
	b.settleMatch()
	b.settleWork()
}

// settleRounds numbers the rounds of fitting and hands what a round says on to
// its changes.
func (b *Build) settleRounds() {
	for i := range b.Fittings {
		f := &b.Fittings[i]
		f.Round = Count{i + 1, f.At}
		for j := range f.Change {
			c := &f.Change[j]
			c.settleAt()
			if c.Along = along(c.Place); !c.Agreed.Given() {
				c.Agreed = f.Agreed
			}
		}
		if f.Note.Given() {
			f.Change = append(f.Change, Change{At: f.Note.At, Note: f.Note, Agreed: f.Agreed})
		}
	}
}

// settleSewing says of seams and finishes without a type what is usual; of a
// seam where nothing is, that it is plain.
func (b *Build) settleSewing() {
	for i := range b.Seams {
		s := &b.Seams[i]
		s.Ease, s.Gather, s.Stretches = s.Eased.Whole, s.Gathered.Whole, append(s.Eased.Parts, s.Gathered.Parts...)
		s.Thread = s.Thread.otherwise(b.Usual.Thread)
		if s.Place.Given() && !s.Type.Given() {
			s.Type = Text{setOnType, s.At}
		}
		if !s.likened {
			b.Usual.Seam.rows(s.Type, &s.Topstitch, &s.EdgeStitch)
		}
		if b.Usual.Seam.fill(&s.Type, &s.Stitch, &s.Strip, &s.With); !s.Type.Given() {
			s.Type = Text{"plain", s.At}
		}
	}
	for i := range b.Finishes {
		f := &b.Finishes[i]
		f.Thread = f.Thread.otherwise(b.Usual.Thread)
		b.Usual.Hem.rows(f.Type, &f.Topstitch, &f.EdgeStitch)
		b.Usual.Hem.fill(&f.Type, &f.Stitch, &f.Strip, &f.With)
	}
}

// fill says all that is usual of a seam or finish that says no type.
func (u *UsualSewing) fill(kind, stitch, strip *Text, with *Dict[Length]) {
	if kind.Given() || !u.Type.Given() {
		return
	}
	*kind, *stitch, *strip = u.Type, stitch.otherwise(u.Stitch), strip.otherwise(u.Strip)
	for _, w := range u.With {
		if _, own := with.Get(w.Name.V); !own {
			*with = append(*with, w)
		}
	}
}

// rows says which rows are usual beside a seam or finish that says no type and none of its own.
func (u *UsualSewing) rows(kind Text, top, edge *RowsBeside) {
	if kind.Given() || top.Given() || edge.Given() {
		return
	}
	*top, *edge = u.Topstitch, u.EdgeStitch
}

// settlePlaces says how far along their edges darts and notches are that are
// measured from where the edge begins.
func (p *Piece) settlePlaces() {
	for i := range p.Darts {
		p.Darts[i].Along = along(p.Darts[i].Place)
	}
	for i := range p.Pleats {
		p.Pleats[i].settleInto()
	}
	for i := range p.Change {
		p.Change[i].settleAt()
		p.Change[i].Along = along(p.Change[i].Place)
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
