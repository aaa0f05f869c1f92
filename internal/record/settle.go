package record

// settle fills in what the order of a record says, and what a group says once for
// all that stand in it.
func (b *Build) settle() {
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
