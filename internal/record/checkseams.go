package record

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/say"
)

func (c *buildCheck) checkSeams() {
	var names []Text
	for i := range c.b.Seams {
		s := &c.b.Seams[i]
		names = append(names, s.Name)
		if len(s.Join) > 0 && len(s.Like) > 0 {
			c.faults.Wrong(s.At, say.Of("record.keep-one-of-them"), say.Of("record.has-its-edges-from-join-and-from", say.Quoted(s.Name.V)))
		}
		if len(s.Join) > mostInSeam {
			c.faults.Wrong(s.At, say.Of("record.edges-sewn-in-a-row-are-a"), say.Of("record.edges-lie-on-each-other-in-this", s.Name.V, len(s.Join), mostInSeam))
		}
		c.layTwice(s)
		if s.Name.Given() && s.At.Given() && len(s.Join) == 1 {
			c.faults.Wrong(s.At, say.Of("record.as-join-front-side-back-side-edges"), say.Of("record.a-seam-joins-two-edges-this-one", s.Name.V, len(s.Join)))
		}
		c.checkSetOn(s)
		for _, side := range s.Join {
			for _, e := range side {
				if !s.Place.Given() {
					c.edgeRef(e)
				}
			}
		}
		if s.Ease.Given() && s.Gather.Given() {
			c.faults.Wrong(s.Gather.At, say.Of("record.keep-one-of-them"), say.Of("record.is-both-eased-and-gathered", say.Quoted(s.Name.V)))
		}
		c.technique(s.Technique)
		c.threadAndStrip(s.Thread, s.Strip)
		c.beside(c.own(&s.Topstitch), c.own(&s.EdgeStitch))
	}
	for i := range c.b.Finishes {
		f := &c.b.Finishes[i]
		names = append(names, f.Name)
		if f.At.Given() && !f.Type.Given() {
			c.faults.Wrong(f.At, say.Of("record.say-how-it-is-finished-as-type"), say.Of("record.is-missing", say.Quoted("type")))
		}
		for _, e := range f.Of {
			c.edgeRef(e)
		}
		c.technique(f.Technique)
		c.threadAndStrip(f.Thread, f.Strip)
		c.beside(c.own(&f.Topstitch), c.own(&f.EdgeStitch))
	}
	twice(names, say.Of("record.seam-or-finish"), c.faults)
	for i := range c.b.Lengths {
		for _, e := range c.b.Lengths[i].Along {
			c.wholeEdge(e)
		}
	}
}

// mostInSeam bounds how many edges lie on each other in one seam (common practice, no
// source): a collar between two fronts with their facings, and a loop.
const mostInSeam = 6

// layTwice faults an edge that is named twice in a seam of three edges and more: of two,
// a right and a left are sewn to each other.
func (c *buildCheck) layTwice(s *Seam) {
	if len(s.Join) < 3 {
		return
	}
	seen := map[string]bool{}
	for _, side := range s.Join {
		for _, e := range side {
			if name := e.String(); e.At.Given() && seen[name] {
				c.faults.Wrong(e.At, say.Of("record.give-the-other-edge-its-own-name"), say.Of("record.is-named-twice", s.Name.V, fault.Shorten(name)))
			} else {
				seen[name] = true
			}
		}
	}
}

func (c *buildCheck) threadAndStrip(thread, strip Text) {
	if thread.Given() {
		known(thread, listed{"thread", say.Of("record.in-this-garments-thread"), c.b.Thread.Names()}, c.faults)
	}
	if strip.Given() {
		known(strip, c.cloths, c.faults)
	}
}

// sewn lists the names of seams and finishes.
func (b *Build) sewn() []string {
	var out []string
	for i := range b.Seams {
		out = append(out, b.Seams[i].Name.V)
	}
	for i := range b.Finishes {
		out = append(out, b.Finishes[i].Name.V)
	}
	return out
}

// shared tells of a name that a seam or finish has and a notion too: steps,
// changes and what lies along a thing name all of them alike.
func (c *buildCheck) shared() {
	for i := range c.b.Notions {
		n := c.b.Notions[i].Name
		if n.Given() && slices.Contains(c.sewn.names, n.V) {
			c.faults.Wrong(n.At, say.Of("record.give-one-of-them-another-name-so"), say.Of("record.is-a-notion-and-a-seam-or", say.Quoted(fault.Shorten(n.V))))
		}
	}
}
