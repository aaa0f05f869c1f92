package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A PleatFold is one fold of a pleat, as it lies on the piece laid open.
type PleatFold struct {
	Record   *record.PleatSpec
	Nth      int // which of the pleats of its record it belongs to, from 1
	Edge     string
	Depth    float64 // mm
	Taper    shape.Taper
	Lines    shape.PleatLines
	Stitched float64 // mm from the edge on that the fold is stitched to its place; 0 where it is not
	Whole    bool    // stitched all its length, a tuck
	Soft     bool    // not pressed
}

// Kind is what the pleat is called.
func (q *PleatFold) Kind() string { return q.Record.Kind.Or("knife") }

// softMark is how far the lines of pleats that are not pressed are drawn, mm (own
// choice, no source).
const softMark = 40

// Drawn is how much of a line of the fold is drawn, from the edge on.
func (q *PleatFold) Drawn(line shape.Line) shape.Line {
	if !q.Soft {
		return line
	}
	return q.upTo(line, max(q.Stitched, softMark))
}

// Sewn is the part of a line of the fold that is stitched.
func (q *PleatFold) Sewn(line shape.Line) shape.Line { return q.upTo(line, q.Stitched) }

// upTo is a line of the fold up to as far inside the edge as is said, along the place it is
// laid on: folds that taper slant, and end level with it.
func (q *PleatFold) upTo(line shape.Line, far float64) shape.Line {
	_, way := q.Lines.Place.At(0)
	inside := func(p shape.Point) float64 {
		d := p.Sub(line[0])
		return float64(d.X*way.X) + float64(d.Y*way.Y)
	}
	for k := 1; k < len(line); k++ {
		a, b := inside(line[k-1]), inside(line[k])
		if b > far && b > a {
			part := (far - a) / (b - a)
			end := shape.Point{X: line[k-1].X + float64(part*(line[k].X-line[k-1].X)), Y: line[k-1].Y + float64(part*(line[k].Y-line[k-1].Y))}
			return append(slices.Clone(line[:k]), end)
		}
	}
	return line
}

// PleatCount is how many pleats a piece has, as it is drawn.
func (p *Piece) PleatCount() int {
	n := 0
	for i := range p.PleatFolds {
		if q := &p.PleatFolds[i]; i == 0 || p.PleatFolds[i-1].Record != q.Record || p.PleatFolds[i-1].Nth != q.Nth {
			n++
		}
	}
	return n
}

// PleatWords says of each edge how its pleats are laid, as "waist: 2 box pleats 40 mm
// deep, stitched down 180 mm".
func (p *Piece) PleatWords(style measure.Style) (out []string) {
	for i := range p.PleatFolds {
		q := &p.PleatFolds[i]
		if i > 0 && p.PleatFolds[i-1].Record == q.Record || slices.ContainsFunc(p.PleatFolds[:i], func(b PleatFold) bool { return b.Record == q.Record }) {
			continue
		}
		n, folds := 0, 0
		for k := range p.PleatFolds {
			if b := &p.PleatFolds[k]; b.Record == q.Record {
				n, folds = max(n, b.Nth), folds+1
			}
		}
		what := q.Kind()
		if !strings.HasSuffix(what, "tuck") {
			what += " pleat"
		}
		if n > 1 {
			what += "s"
		}
		said := say.Of("garment.deep", q.Edge, strconv.Itoa(n), what, style.Length(measure.MM(q.Depth)))
		switch {
		case q.Taper.RunsOut():
			said += say.Of("garment.running-out-inside-the-edge", style.Length(measure.MM(q.Taper.Until)))
		case q.Taper != (shape.Taper{}):
			said += say.Of("garment.tapering-to-at", style.Length(measure.MM(q.Taper.Depth)), q.taperedAt())
		}
		switch {
		case q.Whole:
			said += say.Of("garment.stitched-all-the-way")
		case q.Stitched > 0:
			said += say.Of("garment.stitched-down", style.Length(measure.MM(q.Stitched)))
		}
		if q.Soft {
			said += say.Of("garment.left-soft")
		}
		if folds < n*q.Record.Folds() {
			said += say.Of("garment.half-of-it-lies-beyond-the-fold")
		}
		if q.Record.Kind.V == "growth tuck" { // geometry, exact
			said += say.Of("garment.let-out-each-adds", style.Length(measure.MM(2*q.Depth)))
		}
		out = append(out, said)
	}
	return out
}

// taperedAt is the level from which on a fold goes its other depth under, or how far that
// lies inside the edge.
func (q *PleatFold) taperedAt() string {
	if q.Record.Level.Given() {
		return q.Record.Level.V
	}
	return say.Of("garment.the-bend")
}

// foldedAway lists what folds take of an edge: from and to along it, as the outline
// runs. Of tucks the edge at which they leave the piece has them too.
func (f *form) foldedAway(edge string) (out []foldedPart) {
	for i := range f.folds {
		q := &f.folds[i]
		if q.Edge == edge {
			out = append(out, foldedPart{q, q.Lines.Mouth})
		}
		if q.Whole && q.Lines.Far == edge {
			out = append(out, foldedPart{q, q.Lines.FarMouth})
		}
	}
	return out
}

// A foldedPart is a part of an edge that a fold takes.
type foldedPart struct {
	fold *PleatFold
	at   [2]float64
}

// pleatTerms are what pleats take in on an edge, those of one record together.
func (w *desk) pleatTerms(p *Piece, e *PieceEdge) (terms []figure.Term, at fault.Pos) {
	parts := p.form.foldedAway(e.Name)
	for len(parts) > 0 {
		spec, n, sum := parts[0].fold.Record, 0, 0.0
		var rest []foldedPart
		for _, part := range parts {
			if part.fold.Record != spec {
				rest = append(rest, part)
				continue
			}
			n, sum = n+1, sum+part.at[1]-part.at[0]
		}
		depth := parts[0].fold.Depth
		t := w.Found(say.Of("garment.folded-away-by-pleats"), sum, mm)
		if math.Abs(sum-float64(2*depth*float64(n))) < 1e-6 {
			deep := w.Length(say.Of("garment.depth-of-the-pleats"), spec.Depth)
			if !spec.Depth.Given() {
				w.Remark(figure.Written, "into", w.written(spec.Into.V.MM()), spec.Into.At, "")
				deep = w.Found(say.Of("garment.depth-of-the-pleats"), depth, mm)
			}
			t = w.Number(float64(n)).By(2).Times(deep)
		}
		terms, at, parts = append(terms, t), spec.At, rest
	}
	return terms, at
}

// alterPleat changes the pleats of an edge.
func alterPleat(f *form, a Alteration) bool {
	c := a.Change
	on := func(q *record.PleatSpec) bool { return f.called(q.Edge.V) == f.called(a.pleat) }
	return alterEach(f, &f.pleats, a, on, func(q *record.PleatSpec) {
		if c.Depth.Given() {
			q.Depth = c.Depth
		}
		if c.Count.Given() {
			q.Count = c.Count
		}
		if c.Stitched.Given() {
			q.Stitched = c.Stitched
		}
		if c.Runs.Given() {
			q.Runs, q.Then, q.Until = c.Runs, record.Length{}, record.Length{}
		}
	})
}

// pleatsBecome says what a change of pleats does.
func pleatsBecome(c *record.Change, style measure.Style) (out string) {
	if c.Depth.Given() {
		out += say.Of("garment.deep-2", style.Length(c.Depth.V))
	}
	if c.Count.Given() {
		out += say.Of("garment.of-them", countWord(c.Count.V))
	}
	switch runs := c.Runs; {
	case !runs.Given():
	case runs.V.Level != "":
		out += say.Of("garment.running-out-at-the", runs.V.Level)
	default:
		out += say.Of("garment.running-out-inside-the-edge", style.Length(runs.V.By))
	}
	switch down := c.Stitched; {
	case !down.Given():
	case down.V.All:
		out += say.Of("garment.stitched-all-the-way")
	case down.V.Level != "":
		out += say.Of("garment.stitched-down-to-the", down.V.Level)
	default:
		out += say.Of("garment.stitched-down", style.Length(down.V.By))
	}
	return out
}
