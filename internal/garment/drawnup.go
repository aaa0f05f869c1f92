package garment

import (
	"slices"

	"hembook/internal/figure"
	"hembook/internal/say"
)

// drawnUp are the lines at a level that a seam gathers into what is shorter: each as
// long as what it is gathered into. rest are the other crossings.
func (w *girthWalk) drawnUp(cross []crossing) (terms []figure.Term, rest []crossing) {
	rest = cross
	for _, s := range w.g.Seams {
		if s.broken || !s.Record.Gather.Given() || !s.Meets || !s.Length.Value.Known() {
			continue
		}
		long := 0
		if s.Sides[1].Length.Value.Number > s.Sides[0].Length.Value.Number {
			long = 1
		}
		of := func(c crossing) bool {
			return c.edge != nil && slices.ContainsFunc(s.Sides[long].Edges, func(u EdgeUse) bool { return u.Edge == c.edge })
		}
		n := 0
		for _, c := range rest {
			if of(c) {
				n++
			}
		}
		if n < len(s.Sides[long].Edges) {
			continue
		}
		t := w.Of(say.Of("garment.what-it-is-gathered-into"), &s.Sides[1-long].Length)
		if lap := s.closure(); lap.Given() && long != s.lapSide() {
			t = t.Minus(w.Length("overlap", lap))
		}
		terms = append(terms, t.By(float64(s.Times/max(s.layers, 1))))
		rest = slices.DeleteFunc(slices.Clone(rest), of)
	}
	return terms, rest
}
