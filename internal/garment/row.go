package garment

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/sewn"
)

// Rows of stitching that no seam or finish has: those of darts, and of
// gathering.

// dartRows are the darts of each piece as they are sewn: each once along a leg,
// with the thread that the piece is first sewn with.
func (w *derivation) dartRows() {
	for _, p := range w.g.Pieces {
		var terms []figure.Term
		for i := range p.Darts {
			d := &p.Darts[i]
			e := p.edgeCalled(d.Record.Edge.V)
			if e == nil || !d.Plan.Fits {
				continue
			}
			terms = append(terms, w.Of("leg", &d.Leg).By(float64(e.Times*p.sets())))
		}
		if len(terms) == 0 {
			continue
		}
		p.DartsSewn = w.Figure(w.Join("piece.", p.form.anchor, ".darts"), "length of darts sewn", p.Name, w.Sum(terms...), measure.UnitM,
			"Σ leg × times the dart is there", figure.Derived)
		w.sewsRow(threadUse{thread: w.threadName(w.threadOfPiece(p)), what: w.Join("darts of ", p.Name), stitch: lockstitch, rows: 1, total: &p.DartsSewn})
	}
}

// gatherRows is how many rows a seam is gathered with (common practice, no
// source).
const gatherRows = 2

// gathered is the gathering of a seam: rows along its longer side that are
// taken out when it is sewn.
func (w *derivation) gathered(s *Seam, base string) {
	if !s.Record.Gather.Given() || s.kind == nil || !s.Length.Value.Known() {
		return
	}
	long := &s.Sides[0].Length
	if s.Sides[1].Length.Value.Number > long.Value.Number {
		long = &s.Sides[1].Length
	}
	s.Gathered = w.Figure(w.Join(base, ".gathered"), "length gathered", s.Name, w.Of("longer side", long).By(float64(s.Times)), measure.UnitM,
		"longer side × times", figure.Derived)
	w.sewsRow(threadUse{thread: w.threadName(s.Record.Thread.V), what: w.Join("gathering of ", s.Name), stitch: lockstitch, rows: gatherRows, temporary: true, total: &s.Gathered})
}

func (w *derivation) sewsRow(u threadUse) {
	w.ratio(&u)
	w.uses = append(w.uses, u)
}

// threadOfPiece is the thread of the first seam or finish that sews the piece;
// "" where none says.
func (w *derivation) threadOfPiece(p *Piece) string {
	for _, s := range w.g.Seams {
		for side := range s.Sides {
			for _, u := range s.Sides[side].Edges {
				if u.Piece == p {
					return s.Record.Thread.V
				}
			}
		}
	}
	for _, f := range w.g.Finishes {
		for _, u := range f.Edges {
			if u.Piece == p {
				return f.Record.Thread.V
			}
		}
	}
	return ""
}

// openFor is how much of a seam stays open for a zip in it: as much as the zip is
// long, all of one that is shorter, and what a zip goes on into it for that is longer
// than its own edge.
func (w *derivation) openFor(s *Seam) (open figure.Term, zip bool) {
	if !s.Length.Value.Known() {
		return open, false
	}
	for i := range w.b.Notions {
		n := &w.b.Notions[i]
		if !n.Edge.Given() || !n.Length.Given() || n.Every.Given() || !isZip(n.What.V) {
			continue
		}
		if use, ok := w.use(n.Edge.V); !ok || !s.uses(use.Edge) {
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
			if use, ok := w.use(n.Edge.V); !ok || use.Edge != edge || n.Length.V.MM() != c.Length || !isZip(n.What.V) {
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
