package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// gathers checks what is said of an edge that is gathered.
func (c *buildCheck) gathers(g *GatherSpec, p *Piece) {
	switch {
	case !g.At.Given():
	case g.Ratio.Given() && g.Into.Given():
		c.faults.Wrong(g.Into.At, say.Of("record.keep-one-of-them"), say.Of("record.is-gathered-by-a-ratio-and-into", p.Name.V, g.Edge.V)).Without(g.Into.At)
	case !g.Ratio.Given() && !g.Into.Given() && !g.Elastic.V && !g.unread:
		c.faults.Wrong(g.At, say.Of("record.add-ratio-1-5-or-into-and"), say.Of("record.the-gathers-of-do-not-say-how", p.Name.V, g.Edge.V))
	}
	if slices.ContainsFunc(p.Pleats, func(q PleatSpec) bool { return q.Edge.V == g.Edge.V }) {
		c.faults.Wrong(g.At, say.Of("record.keep-one-of-them"), say.Of("record.has-pleats-and-is-gathered-too", p.Name.V, g.Edge.V))
	}
	for i := range c.b.Seams {
		s := &c.b.Seams[i]
		for _, side := range s.Join {
			for _, e := range side {
				if s.Gather.Given() && e.Piece == p.Name.V && e.Edge == g.Edge.V {
					c.faults.Wrong(g.At, say.Of("record.keep-gather-of-the-seam-or-gathers"), say.Of("record.is-gathered-here-and-by-the-seam", p.Name.V, g.Edge.V, fault.Shorten(s.Name.V)))
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
			names = append(names, say.Of("record.gathers", g.Edge.V))
		}
		hint := say.Of("record.say-under-gathers-of-the-piece-how")
		if len(names) > 0 {
			hint = meant.Among(name, names, say.Of("record.there-are"))
		}
		c.faults.Wrong(ch.Gather.At, hint, say.Of("record.has-no-gathers-on", p.Name.V, fault.Shorten(edge))).
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
			c.faults.Wrong(own[0].At, say.Of("record.a-fitting-changes-gathers-by-their-edge"), say.Of("record.belongs-to-gathers", own[0].V))
		}
		return len(own) > 0
	}
	for _, w := range slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords()) {
		c.faults.Wrong(w.At, say.Of("record.of-gathers-ratio-into-and-rows-can"), say.Of("record.does-not-belong-to-gathers", w.V))
		return true
	}
	if ch.Ratio.Given() && ch.Into.Given() {
		c.faults.Wrong(ch.Into.At, say.Of("record.keep-one-of-them"), say.Of("record.gathers-change-by-a-ratio-and-into")).Without(ch.Into.At)
	}
	if len(own) == 0 && !ch.Note.Given() {
		c.faults.LookAgain(ch.At, say.Of("record.add-ratio-into-or-rows-or-note"), say.Of("record.this-change-does-not-say-what-is"))
	}
	return true
}
