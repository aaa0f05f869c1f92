package figure

// A Gatherer collects figures in order, each once.
type Gatherer struct {
	list []*Figure
	seen map[string]bool
}

// NewGatherer makes a gatherer with room for so many.
func NewGatherer(n int) *Gatherer {
	return &Gatherer{list: make([]*Figure, 0, n), seen: make(map[string]bool, n)}
}

// Figures are those collected so far, as they are now.
func (g *Gatherer) Figures() []Figure {
	out := make([]Figure, len(g.list))
	for i, f := range g.list {
		out[i] = *f
	}
	return out
}

// Lineage looks through the expressions of those collected so far.
func (g *Gatherer) Lineage() *Lineage {
	l := newLineage(len(g.list))
	for _, f := range g.list {
		l.add(f)
	}
	l.link()
	return l
}

// Add collects figures that are set.
func (g *Gatherer) Add(figures ...*Figure) {
	for _, f := range figures {
		if f.ID == "" || g.seen[f.ID] {
			continue
		}
		g.seen[f.ID] = true
		g.list = append(g.list, f)
	}
}

// All collects a list of figures.
func (g *Gatherer) All(figures []Figure) {
	for i := range figures {
		g.Add(&figures[i])
	}
}
