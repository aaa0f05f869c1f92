package record

// beside checks the rows that lie beside a seam or inside a finished edge: whether their
// threads are there. Which of its pieces they may lie on the figures tell.
func (c *buildCheck) beside(list ...*RowsBeside) {
	for _, r := range list {
		c.threadAndStrip(r.Thread, Text{})
	}
}
