package garment

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// Two rows of gathering lie 1/4 in apart ("Technique: Straight Ruffle", Utah State
// University Extension); shirring is three rows or more (CITS Dress Making, Trade
// Practical vol. 2, National Instructional Media Institute, page 210).
const (
	rowsApart = 25.4 / 4
	shirRows  = 3
	shirApart = 10.0     // mm (own choice, no source)
	shirRatio = 2        // elastic thread draws the cloth to about half (common practice, no source)
	rowBeside = 25.4 / 8 // how far beside the seam the first row lies, mm (common practice, no source)
)

// A Gathering is an edge of a piece that rows of stitching draw up.
type Gathering struct {
	Edge    string
	Elastic bool            // sewn with elastic thread: the rows stay
	Of      string          // the seam that says so; "" where the piece does
	Lines   [][]shape.Point // where the rows lie on the piece
	Rows    int
	Full    figure.Figure // length before ÷ after; not set where the seam tells it
	Sewn    figure.Figure // length gathered, all copies; not set where the seam tells it
	Thread  figure.Figure // of elastic thread; not set where it is none
}

// gathersOn is what the record says of gathers on an edge; nil where nothing.
func (f *form) gathersOn(e *PieceEdge) *record.GatherSpec {
	for i := range f.gathers {
		if g := &f.gathers[i]; f.is(e, g.Edge.V) && (g.Ratio.Given() || g.Into.Given() || g.Elastic.V) {
			return g
		}
	}
	return nil
}

// gathersEdge reports whether an edge of a seam is gathered by what its piece says.
func (s *Seam) gathersEdge() bool {
	for _, side := range s.Sides {
		if slices.ContainsFunc(side.Edges, func(u EdgeUse) bool { return u.Piece.form.gathersOn(u.Edge) != nil }) {
			return true
		}
	}
	return false
}

// gatherTerm is what gathers take in on an edge: its length less what it becomes.
func (w *derivation) gatherTerm(p *Piece, e *PieceEdge, g *record.GatherSpec) figure.Term {
	length := w.Of("length", &e.Length)
	if !g.Into.Given() {
		return length.Minus(length.Over(w.gatherRatio(g)))
	}
	into := w.Length("into", g.Into)
	overFold := p.OnFold && e.meetsFold() // the edge of the whole piece is both halves of it
	if overFold {
		into = into.Part(2)
	}
	if into.MM() >= length.MM() && p.own(len(p.Record.Gathers) > 0) {
		whole := e.Length.Value.Number
		if overFold {
			whole *= 2
		}
		w.faults.Wrong(g.Into.At, say.Of("garment.let-it-be-less-or-lengthen-the"), say.Of("garment.is-long-in-the-whole-piece-and", e.ref, w.tape().About(whole), w.tape().Exact(g.Into.V.MM())))
		into = into.Unless(say.Of("garment.it-is-gathered-into-more-than-there"))
	}
	return length.Minus(into)
}

func (w *derivation) gatherRatio(g *record.GatherSpec) figure.Term {
	if g.Ratio.Given() {
		return w.Written("fullness", float64(g.Ratio.V), measure.UnitRatio, g.Ratio.At)
	}
	return w.Usual(say.Of("garment.fullness-of-elastic-thread"), shirRatio, measure.UnitRatio)
}

// intakeRule says how what an edge loses is found.
func (f *form) intakeRule(e *PieceEdge) string {
	if f.gathersOn(e) != nil {
		return say.Of("garment.length-what-it-is-gathered-into-with")
	}
	return say.Of("garment.widths-of-the-darts-2-times-depth")
}

// gatherRowsOfPieces adds what draws up the edges of pieces: rows, fullness and elastic
// thread, and where the rows lie; those of seams lie along their longer side.
func (w *stitching) gatherRowsOfPieces() {
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			if g := p.form.gathersOn(&p.Edges[k]); g != nil && p.Edges[k].Sewn.Value.Known() {
				w.gathering(p, &p.Edges[k], g)
			}
		}
	}
	for _, s := range w.g.Seams {
		if s.broken || !s.Record.Gather.Given() || !s.Length.Value.Known() {
			continue
		}
		for _, u := range s.Sides[s.longer()].Edges {
			u.Piece.Gathered = append(u.Piece.Gathered, &Gathering{Edge: u.Edge.Name, Of: s.Name, Rows: gatherRows, Lines: w.rowsAlong(u.Piece, u.Edge, gatherRows, rowsApart, -rowBeside)})
		}
	}
}

// longer is which side of a seam is the longer one, that is gathered.
func (s *Seam) longer() int {
	if s.Sides[1].Length.Value.Number > s.Sides[0].Length.Value.Number {
		return 1
	}
	return 0
}

func (w *stitching) gathering(p *Piece, e *PieceEdge, g *record.GatherSpec) {
	base := w.Join(e.base, ".gathers")
	rows, apart := gatherRows, rowsApart
	if g.Elastic.V {
		rows, apart = shirRows, shirApart
	}
	if g.Rows.Given() {
		rows = g.Rows.V
	}
	if g.Apart.Given() {
		apart = g.Apart.V.MM()
	}
	inside := g.Inside.V.MM()
	if !g.Inside.Given() && e.seam != nil && !g.Elastic.V {
		inside = -rowBeside
	}
	out := &Gathering{Edge: e.Name, Elastic: g.Elastic.V, Rows: rows, Lines: w.rowsAlong(p, e, rows, apart, inside)}
	if len(out.Lines) < rows && p.own(len(p.Record.Gathers) > 0) {
		w.faults.Wrong(g.At, say.Of("garment.sew-fewer-rows-or-let-them-lie"), say.Of("garment.rows-of-gathering-apart-do-not-fit", rows, w.written(apart), p.Name))
	}
	out.Full = w.Figure(w.Join(base, ".full"), "fullness", e.ref, w.Of("length", &e.Length).Over(w.Of("sewn", &e.Sewn)), measure.UnitRatio, say.Of("garment.length-before-by-length-after"), figure.Derived)
	times := float64(max(e.Times, 1) * p.each())
	out.Sewn = w.Figure(w.Join(base, ".sewn"), say.Of("garment.length-gathered"), e.ref, w.Of("length", &e.Length).By(times), measure.UnitM, say.Of("garment.length-times-times-the-edge-is-there"), figure.Derived)
	row := Row{Kind: GatherRow, Of: p.Name, Thread: w.threadName(w.threadOfPiece(p)), Stitch: lockstitch, Rows: rows, Temporary: !g.Elastic.V, Length: &out.Sewn,
		what: w.Join("gathering of ", e.ref), do: say.Of("garment.along-the-edge-to-draw-it-up"), plies: []ply{{p, ""}}}
	if g.Elastic.V {
		out.Thread = w.Figure(w.Join(base, ".elastic"), say.Of("garment.elastic-thread"), e.ref, w.Of("sewn", &e.Sewn).By(times*float64(rows)), measure.UnitM,
			say.Of("garment.length-after-times-rows-times-times-the"), figure.Practice)
		row.do, row.ratios, row.source = say.Of("garment.with-elastic-thread-in-the-bobbin"), [2]float64{elasticNeedle, 0}, elasticSource
	}
	p.Gathered = append(p.Gathered, out)
	w.sewsRow(row)
}

// elasticNeedle is the thread above of a row whose thread below is elastic: as of stitch 301.
const (
	elasticNeedle = 1.25
	elasticSource = trade.Source("half of the ratio of stitch 301, the thread above; below runs elastic thread")
)

// rowsAlong are lines along an edge, so far inside it; outside, in its allowance, where
// negative. A row that would lie off the piece as it is cut is left out.
func (w *stitching) rowsAlong(p *Piece, e *PieceEdge, rows int, apart, inside float64) (out [][]shape.Point) {
	length, ok := p.Outline.LengthOf(e.Name)
	if !ok || length <= 0 {
		return nil
	}
	const step = 2 // mm, along the edge
	for k := range rows {
		in := inside + apart*float64(k)
		if inside < 0 {
			if in = inside - apart*float64(k); -in > e.allow-0.5 { // the allowance is too narrow: the next row inside the seam
				in = rowBeside + apart*float64(k-1)
			}
		}
		if line := insideLine(p, e.Name, length, in, max(int(length/step), 2)); len(line) > 1 {
			out = append(out, line)
		}
	}
	return out
}

// insideLine is the line so far inside an edge, as far as it lies on the piece.
func insideLine(p *Piece, edge string, length, in float64, steps int) []shape.Point {
	ring, _ := p.Outline.Flatten(0.05)
	if in < 0 {
		ring = p.Cut.Ring
	}
	distances := make([]float64, steps+1)
	for k := range distances {
		distances[k] = length * float64(k) / float64(steps)
	}
	var line []shape.Point
	on := 0
	for k, s := range distances {
		at, way, _ := p.Outline.PointOn(edge, s)
		q := shape.Point{X: at.X - float64(way.Y*in), Y: at.Y + float64(way.X*in)}
		if between := k > 0 && k < steps; !between || in == 0 || ring.Contains(q) {
			line = append(line, q)
			if between {
				on++
			}
		}
	}
	if on == 0 {
		return nil
	}
	return straightened(line)
}

// straightened leaves out the points that lie on a straight line between others.
func straightened(line []shape.Point) []shape.Point {
	if len(line) < 3 {
		return line
	}
	out := line[:1:1]
	for k := 1; k+1 < len(line); k++ {
		a, b, c := out[len(out)-1], line[k], line[k+1]
		if off := (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X); math.Abs(off) > 1e-6*far(a, c) {
			out = append(out, b)
		}
	}
	return append(out, line[len(line)-1])
}

// alterGather changes the gathers of an edge.
func alterGather(f *form, a Alteration) bool {
	c := a.Change
	on := func(g *record.GatherSpec) bool { return f.called(g.Edge.V) == f.called(a.gather) }
	return alterEach(f, &f.gathers, a, on, func(g *record.GatherSpec) {
		if c.Ratio.Given() {
			g.Ratio, g.Into = c.Ratio, record.Length{}
		}
		if c.Into.Given() {
			g.Into, g.Ratio = c.Into, record.Turns{}
		}
		if c.Rows.Given() {
			g.Rows = c.Rows
		}
	})
}

// gatherBecomes says what a change of gathers does.
func gatherBecomes(c *record.Change, style measure.Style) string {
	out := c.Gather.V
	if ref, ok := c.Part(); ok {
		out = ref.Edge
	}
	out += " gathers"
	if c.Ratio.Given() {
		out += say.Of("garment.times-as-full", strconv.FormatFloat(float64(c.Ratio.V), 'g', 4, 64))
	}
	if c.Into.Given() {
		out += say.Of("garment.into", style.Length(c.Into.V))
	}
	if c.Rows.Given() {
		out += say.Of("garment.rows", countWord(c.Rows.V))
	}
	return out
}
