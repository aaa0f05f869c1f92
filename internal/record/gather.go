package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
)

// gathers checks what is said of an edge that is gathered.
func (c *buildCheck) gathers(g *GatherSpec, p *Piece) {
	switch {
	case !g.At.Given():
	case g.Ratio.Given() && g.Into.Given():
		c.faults.Errorf(g.Into.At, "keep one of them", "%s.%s is gathered by a ratio and into a length too", p.Name.V, g.Edge.V).Without(g.Into.At)
	case !g.Ratio.Given() && !g.Into.Given() && !g.Elastic.V && !g.unread:
		c.faults.Errorf(g.At, "add ratio: 1.5, or into: and how long it becomes", "the gathers of %s.%s do not say how full they are", p.Name.V, g.Edge.V)
	}
	if slices.ContainsFunc(p.Pleats, func(q PleatSpec) bool { return q.Edge.V == g.Edge.V }) {
		c.faults.Errorf(g.At, "keep one of them", "%s.%s has pleats and is gathered too", p.Name.V, g.Edge.V)
	}
	for i := range c.b.Seams {
		s := &c.b.Seams[i]
		for _, side := range s.Join {
			for _, e := range side {
				if s.Gather.Given() && e.Piece == p.Name.V && e.Edge == g.Edge.V {
					c.faults.Errorf(g.At, "keep gather: of the seam, or gathers: of the piece", "%s.%s is gathered here and by the seam %s", p.Name.V, g.Edge.V, fault.Shorten(s.Name.V))
				}
			}
		}
	}
}

// ofGather finds out whether a change is of gathers: "wrist gathers", where no edge is
// called so.
func (c *buildCheck) ofGather(ch *Change, name string, p *Piece) {
	edge, ok := strings.CutSuffix(name, " gathers")
	if !ok || !ch.Edge.Given() || slices.Contains(c.renamed(p), name) {
		return
	}
	whole := strings.TrimSuffix(ch.Edge.V, name)
	ch.Gather, ch.Edge = Text{whole + edge, ch.Edge.At}, Text{}
	c.edgeIn(Text{edge, ch.Gather.At}, p)
	if from := takenOver(c, p, gathersOf); !slices.ContainsFunc(from, func(g GatherSpec) bool { return g.Edge.V == edge }) {
		var names []string
		for _, g := range from {
			names = append(names, g.Edge.V+" gathers")
		}
		hint := "say under gathers: of the piece how full they are"
		if len(names) > 0 {
			hint = meant.Among(name, names, "there are: ")
		}
		c.faults.Errorf(ch.Gather.At, hint, "%s has no gathers on %s", p.Name.V, fault.Shorten(edge)).
			Instead(name, meant.Nearest(name, names))
	}
}

// gatherWords are the words of a change that only gathers have.
func (c *Change) gatherWords() []Text {
	return givenWords([]Text{{"ratio", c.Ratio.At}, {"into", c.Into.At}, {"rows", c.Rows.At}})
}

// changesGather checks a change of gathers, and tells of its words where another thing is
// changed; false where the rest is to be looked at.
func (c *buildCheck) changesGather(ch *Change) bool {
	own := ch.gatherWords()
	if !ch.Gather.Given() {
		if len(own) > 0 {
			c.faults.Errorf(own[0].At, "a fitting changes gathers by their edge, as sleeve.wrist gathers: {into: 210}", "%s: belongs to gathers", own[0].V)
		}
		return len(own) > 0
	}
	for _, w := range slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords()) {
		c.faults.Errorf(w.At, "of gathers ratio:, into: and rows: can change", "%s: does not belong to gathers", w.V)
		return true
	}
	if ch.Ratio.Given() && ch.Into.Given() {
		c.faults.Errorf(ch.Into.At, "keep one of them", "gathers change by a ratio and into a length too").Without(ch.Into.At)
	}
	if len(own) == 0 && !ch.Note.Given() {
		c.faults.Warnf(ch.At, "add ratio:, into: or rows:, or note:", "this change does not say what is altered")
	}
	return true
}
