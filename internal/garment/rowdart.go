package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// Rows that no seam or finish has: those of darts, of pleats stitched down, of
// gathering, and of buttonholes.

// dartRows are the darts of each piece as they are sewn: each once along a leg,
// with the thread that the piece is first sewn with.
func (w *stitching) dartRows() {
	for _, p := range w.g.Pieces {
		var terms []figure.Term
		for i := range p.Darts {
			d := &p.Darts[i]
			e := p.edgeCalled(d.Record.Edge.V)
			if e == nil || !d.Plan.Fits {
				continue
			}
			terms = append(terms, w.Of("leg", &d.Leg).By(float64(e.Times*p.each())))
		}
		if len(terms) == 0 {
			continue
		}
		p.DartsSewn = w.Figure(w.Join("piece.", p.form.anchor, ".darts"), say.Of("garment.length-of-darts-sewn"), p.Name, w.Sum(terms...), measure.UnitM,
			say.Of("garment.leg-times-times-the-dart-is-there"), figure.Derived)
		w.sewsRow(Row{Kind: DartRow, Of: p.Name, Thread: w.threadName(w.threadOfPiece(p)), Stitch: lockstitch, Rows: 1, Length: &p.DartsSewn, Lasting: true,
			what: w.Join("darts of ", p.Name), do: say.Of("garment.along-one-leg-to-the-point"), plies: twoOf(p)})
	}
}

// pleatRows are the pleats and tucks that are stitched down from their edge: each
// fold once, as far as is written.
func (w *stitching) pleatRows() {
	for _, p := range w.g.Pieces {
		var terms []figure.Term
		for i := range p.form.pleats {
			spec := &p.form.pleats[i]
			n, long := 0, 0.0
			for k := range p.form.folds {
				q := &p.form.folds[k]
				e := p.edgeCalled(q.Edge)
				if q.Record == spec && q.Stitched > 0 && e != nil {
					n, long = n+max(e.Times, 1)*p.each(), q.Stitched
				}
			}
			switch {
			case n == 0:
			case spec.Stitched.V.By > 0 && spec.Stitched.V.By.MM() == long:
				terms = append(terms, w.Length(say.Of("garment.stitched-down-2"), record.Length{V: spec.Stitched.V.By, At: spec.Stitched.At}).By(float64(n)))
			default:
				w.drawnFrom(p)
				terms = append(terms, w.Found(say.Of("garment.stitched-down-2"), long, mm).By(float64(n)))
			}
		}
		if len(terms) == 0 {
			continue
		}
		p.PleatsSewn = w.Figure(w.Join("piece.", p.form.anchor, ".pleats"), say.Of("garment.length-of-pleats-stitched-down"), p.Name, w.Sum(terms...), measure.UnitM,
			say.Of("garment.how-far-each-fold-is-stitched-times"), figure.Derived)
		w.sewsRow(Row{Kind: PleatRow, Of: p.Name, Thread: w.threadName(w.threadOfPiece(p)), Stitch: lockstitch, Rows: 1, Length: &p.PleatsSewn, Lasting: true,
			what: w.Join("pleats of ", p.Name), do: say.Of("garment.from-the-edge-through-both-layers-of"), plies: twoOf(p)})
	}
}

// twoOf is a row through a piece that is folded on itself.
func twoOf(p *Piece) []ply { return []ply{{p, ""}, {p, ""}} }

// gatherRows is how many rows a seam is gathered with (common practice, no
// source).
const gatherRows = 2

// gathered is the gathering of a seam: rows along its longer side that are
// taken out when it is sewn.
func (w *stitching) gathered(s *Seam, base string) {
	if !s.Record.Gather.Given() || s.kind == nil || !s.Length.Value.Known() {
		return
	}
	side := 0
	if s.Sides[1].Length.Value.Number > s.Sides[0].Length.Value.Number {
		side = 1
	}
	long := &s.Sides[side].Length
	s.Gathered = w.Figure(w.Join(base, ".gathered"), say.Of("garment.length-gathered"), s.Name, w.Of(say.Of("garment.longer-side"), long).By(float64(s.Times)), measure.UnitM,
		say.Of("garment.longer-side-times-times"), figure.Derived)
	r := Row{Kind: GatherRow, Of: s.Name, Thread: w.threadName(s.Record.Thread.V), Stitch: lockstitch, Rows: gatherRows, Temporary: true, Length: &s.Gathered,
		what: w.Join("gathering of ", s.Name), do: say.Of("garment.along-the-longer-edge-to-draw-it")}
	if len(s.Sides[side].Edges) > 0 {
		r.plies = []ply{{s.Sides[side].Edges[0].Piece, ""}}
	}
	w.sewsRow(r)
}

// How much thread a buttonhole takes, times the length of its slit.
const (
	holeByHand    = 36 // a yard for a hole of an inch
	holeByMachine = 25 // two sides of zigzag 2.5 mm wide, its stitches 0.4 mm apart: 2 × 2 × √(2.5² + 0.2²) ÷ 0.4
	handHoles     = "common practice, no source (a yard of twist for a hole of an inch)"
	machineHoles  = "derived (two sides of zigzag 2.5 mm wide, 0.4 mm from stitch to stitch)"
)

// usualThick is how thick a button is taken to be that does not say (common
// practice, no source).
const usualThick = 3

// The stitches of a buttonhole: of the hand, and the zigzag of the machine.
const (
	holeStitchHand    = "200"
	holeStitchMachine = "304"
)

// threadOfPiece is the thread of the first seam or finish that sews the piece;
// "" where none says.
func (w *stitching) threadOfPiece(p *Piece) string {
	for _, s := range w.g.Seams {
		if s.joins(p) {
			return s.Record.Thread.V
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
