package record

// beside checks the rows that lie beside a seam or inside a finished edge: whether their
// threads are there. Which of its pieces they may lie on the figures tell.
func (c *buildCheck) beside(list ...*RowsBeside) {
	for _, r := range list {
		c.threadAndStrip(r.Thread, Text{})
	}
}

// own are rows that a seam or finish says itself; none where they are the usual ones, which
// are looked at where they stand.
func (c *buildCheck) own(r *RowsBeside) *RowsBeside {
	if c.b.UsualRows(r) {
		return &RowsBeside{}
	}
	return r
}

// UsualRows reports whether rows are those that the build says are usual.
func (b *Build) UsualRows(r *RowsBeside) bool {
	for _, u := range []*UsualSewing{&b.Usual.Seam, &b.Usual.Hem} {
		if r.Given() && (r.At == u.Topstitch.At || r.At == u.EdgeStitch.At) {
			return true
		}
	}
	return false
}
