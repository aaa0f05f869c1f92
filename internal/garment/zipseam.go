package garment

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/sewn"
)

// openFor is how much of a seam stays open for a zip in it: as much as the zip is
// long, all of one that is shorter, and what a zip goes on into it for that is longer
// than its own edge.
func (w *derivation) openFor(s *Seam) (open figure.Term, zip bool) {
	if !s.Length.Value.Known() || s.kind != nil && s.kind.Opens() { // its rows are those of the zip
		return open, false
	}
	for i := range w.b.Notions {
		n := &w.b.Notions[i]
		if !n.Along.Given() || !n.Length.Given() || spread(n) || !isZip(n) {
			continue
		}
		if use, ok := w.use(n.Along.V); !ok || !s.uses(use.Edge) {
			continue
		}
		if n.Length.V.MM() >= s.Length.Value.Number {
			w.Note(w.Length("zip", n.Length))
			return w.Of("length", &s.Length), true
		}
		return w.Length("zip", n.Length), true
	}
	return w.carriedOpen(s)
}

// carriedOpen is how much of a seam stays open for a zip that comes into it over the
// corner.
func (w *derivation) carriedOpen(s *Seam) (open figure.Term, zip bool) {
	for i := range w.g.Sewn.Joins {
		j := &w.g.Sewn.Joins[i]
		if j.Kind != sewn.Closing || j.Seam < 0 || w.seamCalled(j.Seam) != s {
			continue
		}
		c := &w.g.Sewn.Plan.Closures[j.By]
		edge := w.named[c.Edge.Piece].edgeCalled(c.Edge.Edge)
		for k := range w.b.Notions {
			n := &w.b.Notions[k]
			if use, ok := w.use(n.Along.V); !ok || use.Edge != edge || n.Length.V.MM() != c.Length || !isZip(n) {
				continue
			}
			if rest := c.Length - edge.sewn; rest > 0 && math.Abs(rest-j.A.Length()) < 0.01 {
				return w.Length("zip", n.Length).Minus(w.sewn(edge)), true
			}
			w.Note(w.Length("zip", n.Length))
			return w.Found("what the zip takes of it", j.A.Length(), mm), true
		}
	}
	return open, false
}
