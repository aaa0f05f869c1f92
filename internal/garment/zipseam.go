package garment

import (
	"cmp"
	"math"

	"hembook/internal/figure"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// openFor is how much of a seam stays open for a zip in it: as much as the zip is
// long, all of one that is shorter or where its length is not written, and what a zip
// goes on into it for that is longer than its own edge. Of several seams of one name
// one opens.
func (w *derivation) openFor(s *Seam) (open figure.Term, zip bool) {
	if !s.Length.Value.Known() || s.kind != nil && s.kind.Opens() { // its rows are those of the zip
		return open, false
	}
	for i := range w.b.Notions {
		n := &w.b.Notions[i]
		if !n.Along.Given() || n.SetOut() || !isZip(n) {
			continue
		}
		if use, ok := w.use(n.Along.V); !ok || !s.uses(use.Edge) || w.closesElsewhere(n.Name.V, s) {
			continue
		}
		switch {
		case !n.Length.Given():
			return w.Of("length", &s.Length), true
		case n.Length.V.MM() >= s.Length.Value.Number:
			w.Note(w.Length("zip", n.Length))
			return w.Of("length", &s.Length), true
		}
		return w.Length("zip", n.Length), true
	}
	return w.carriedOpen(s)
}

// closesElsewhere reports whether a closure closes what is no part of a seam, although
// its edge is: a front edge is sewn to its facing and zipped to the other front. Of a
// seam that nothing says how to lay, nobody can tell.
func (w *derivation) closesElsewhere(closure string, s *Seam) bool {
	some, laid := false, false
	for i := range w.g.Sewn.Joins {
		j := &w.g.Sewn.Joins[i]
		own := j.Seam >= 0 && w.seamCalled(j.Seam) == s
		laid = laid || own
		if j.Kind != sewn.Closing || w.g.Sewn.Plan.Closures[j.By].Name != closure {
			continue
		}
		if own {
			return false
		}
		some = true
	}
	return some && laid
}

// tellZips warns of seams of a zip's type of which one opens and others of that name
// are sewn shut: those of a skirt of like gores.
func (w *derivation) tellZips() {
	for i := range w.g.Sewn.Plan.Seams {
		s := w.seamCalled(i)
		if s.kind == nil || !s.kind.Opens() {
			continue
		}
		shut, open := w.shutBeside(i)
		if open == 0 || shut == 0 {
			continue
		}
		e := s.Sides[0].Edges[0].Edge
		w.faults.LookAgain(s.Record.At, say.Of("garment.sew-the-edges-whole-in-one-seam", w.tape().Exact(math.Round(e.sewn)), e.piece.Name, cmp.Or(e.note.whole, e.Name)),
			say.Of("garment.is-there-times-and-a-zip-opens", say.Quoted(s.Name), shut+open))
	}
}

// shutBeside counts how often a seam is there without a zip and with one. What is left of
// an edge below its zip is no other seam.
func (w *derivation) shutBeside(seam int) (shut, open int) {
	opened := map[sewn.SideID]bool{}
	for _, kind := range [...]sewn.Kind{sewn.Closing, sewn.Sewn} {
		for k := range w.g.Sewn.Joins {
			j := &w.g.Sewn.Joins[k]
			switch {
			case j.Seam != seam || j.Kind != kind:
			case kind == sewn.Closing:
				open++
				opened[j.A.Side], opened[j.B.Side] = true, true
			case !opened[j.A.Side]:
				shut++
			}
		}
	}
	return shut, open
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
			return w.Found(say.Of("garment.what-the-zip-takes-of-it"), j.A.Length(), mm), true
		}
	}
	return open, false
}
