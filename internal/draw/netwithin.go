package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// Of what is drawn within the pieces of a net, mm on paper.
const (
	shutIn     = 1.0 // how far from its edge the bar over what is folded away lies
	gatherIn   = 1.2 // and the middle of the wave along what is gathered
	gatherOff  = 0.5 // of the wave to either side
	gatherOn   = 0.9 // from one of its turns to the next
	pleatLeast = 1.1 // how far a fold must lie from its place to be drawn as a line of its own
	netArrow   = 1.5 // of an arrow head
	rowIn      = 1.1 // how far from its edge the first row beside it is drawn, however near it lies
	rowOn      = 0.6 // and each row after it from the one before
)

// An inner is a line within a piece of the net, on paper.
type inner struct {
	means drawing.Meaning
	row   garment.RowKind // what sews it; "" where nothing does
	line  []drawing.Point
}

// within are the lines within a copy that numbers and names keep clear of: its darts,
// what is gathered, what pleats fold away, and its slits.
func (d *netDrawing) within(i int) []inner {
	l := &d.n.Laid[i]
	p := &d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece]
	var out []inner
	for k := range p.Darts {
		dart := &p.Darts[k]
		out = append(out, inner{drawing.DartLeg, garment.DartRow, d.onPaper(l, []shape.Point{dart.Begin, dart.Point, dart.End})})
	}
	for k := range p.Edges {
		for _, f := range p.Edges[k].Folds {
			out = append(out, inner{means: drawing.NetShut, line: d.beside(l, p.Edges[k].Name, f, shutIn)})
		}
	}
	for _, side := range d.s.Copies[l.Copy].Sides {
		if d.s.AtFold(side) {
			out = append(out, inner{means: drawing.NetOpen, line: d.lineOnPaper(d.n.FoldLine(d.s, side))})
		}
	}
	g := d.pieceOf(l)
	if g == nil {
		return out
	}
	for _, edge := range gathered(g) {
		out = append(out, inner{drawing.NetGather, garment.GatherRow, d.wave(l, edge)})
	}
	rows := map[string]int{}
	for k := range g.Beside {
		edge := g.Beside[k].Edge
		if whole, ok := p.Outline.LengthOf(edge); ok {
			out = append(out, inner{means: drawing.RowLine, line: d.beside(l, edge, sewn.Stretch{To: whole}, rowIn+rowOn*float64(rows[edge]))})
			rows[edge]++
		}
	}
	for k := range g.Lines {
		if line := &g.Lines[k]; (line.Slit || d.setAt(line) > 0) && d.worn(l, line.Hand) {
			out = append(out, inner{means: lineMeaning(line), line: d.onPaper(l, line.Points)})
		}
	}
	return out
}

// setAt is the number of the seam that sews another piece on along a line; 0 for none.
func (d *netDrawing) setAt(l *garment.PieceLine) int {
	if d.style.Set == nil || l.Slit || l.Edge == nil {
		return 0
	}
	return d.style.Set(l.Edge.SewnBy)
}

// pieceOf is what is known of the piece of a copy; nil where nothing is.
func (d *netDrawing) pieceOf(l *sewn.Laid) *garment.Piece {
	if d.style.Piece == nil {
		return nil
	}
	return d.style.Piece(d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece].Name)
}

// worn reports whether a copy is that of a hand of which something is said.
func (d *netDrawing) worn(l *sewn.Laid, hand string) bool {
	switch hand {
	case "left":
		return l.Side == sewn.LeftSide
	case "right":
		return l.Side == sewn.RightSide
	}
	return true
}

// gathered are the names of a piece's edges that rows draw up, each once.
func gathered(p *garment.Piece) (out []string) {
	seen := map[string]bool{}
	for _, g := range p.Gathered {
		if !seen[g.Edge] {
			out = append(out, g.Edge)
		}
		seen[g.Edge] = true
	}
	return out
}

// piece draws what is within a copy as it is sewn, and its notches.
func (d *netDrawing) piece(i int) {
	for _, in := range d.within(i) {
		d.Draw(in.means).Polyline(in.line)
		for k := 1; k < len(in.line); k++ {
			d.full.marks = append(d.full.marks, stroke{a: in.line[k-1], b: in.line[k]})
		}
	}
	l := &d.n.Laid[i]
	p := &d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece]
	for i := range p.Edges {
		e := &p.Edges[i]
		for _, notch := range e.Notches {
			if at, way, ok := p.Outline.PointOn(e.Name, notch.Along); ok {
				in := notchIn / d.f.K
				d.Draw(drawing.Notch).Lines(d.f, []shape.Point{l.At(at), l.At(shape.Point{X: at.X - way.Y*in, Y: at.Y + way.X*in})})
			}
		}
	}
}

// setOn draws the number of each seam that sews a piece onto the face of another: beside
// its place there, and beside the longest edge that it sews.
func (d *netDrawing) setOn() {
	for i := range d.n.Laid {
		l := &d.n.Laid[i]
		p := d.pieceOf(l)
		if p == nil {
			continue
		}
		for k := range p.Lines {
			if line := &p.Lines[k]; d.setAt(line) > 0 && d.worn(l, line.Hand) {
				d.besideLine(strconv.Itoa(d.setAt(line)), d.onPaper(l, line.Points))
			}
		}
		if e := d.setEdge(p); e != nil {
			d.besideLine(strconv.Itoa(d.style.Set(e.SewnBy)), d.beside(l, e.Name, sewn.Stretch{To: e.Length.Value.Number}, 0))
		}
	}
}

// setEdge is the longest edge of a piece that is sewn onto the face of another; nil where
// none is.
func (d *netDrawing) setEdge(p *garment.Piece) (out *garment.PieceEdge) {
	for k := range p.Edges {
		if e := &p.Edges[k]; d.style.Set != nil && d.style.Set(e.SewnBy) > 0 && (out == nil || e.Length.Value.Number > out.Length.Value.Number) {
			out = e
		}
	}
	return out
}

// beside is a stretch of an edge, drawn so many millimetres within its piece.
func (d *netDrawing) beside(l *sewn.Laid, edge string, part sewn.Stretch, in float64) []drawing.Point {
	p := &d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece]
	parts := max(6, int((part.To-part.From)*d.f.K/2)) // one every other millimetre
	out := make([]drawing.Point, 0, parts+1)
	for i := range parts + 1 {
		along := part.From + float64((part.To-part.From)*float64(i)/float64(parts))
		if at, way, ok := p.Outline.PointOn(edge, along); ok {
			x, y := d.f.At(l.At(shape.Point{X: at.X - way.Y*in/d.f.K, Y: at.Y + way.X*in/d.f.K}))
			out = append(out, drawing.Point{X: x, Y: y})
		}
	}
	return drawing.ThinnedLine(out, drawing.Eye)
}

// wave is a line that winds along an edge, within its piece.
func (d *netDrawing) wave(l *sewn.Laid, edge string) []drawing.Point {
	p := &d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece]
	long, ok := p.Outline.LengthOf(edge)
	if !ok {
		return nil
	}
	n := max(2*int(math.Round(long*d.f.K/gatherOn/2)), 2)
	out := make([]drawing.Point, 0, n+1)
	for i := range n + 1 {
		at, way, _ := p.Outline.PointOn(edge, float64(long*float64(i)/float64(n)))
		in := gatherIn + gatherOff*float64(1-2*(i%2))
		x, y := d.f.At(l.At(shape.Point{X: at.X - way.Y*in/d.f.K, Y: at.Y + way.X*in/d.f.K}))
		out = append(out, drawing.Point{X: x, Y: y})
	}
	return out
}

// pleats draws of every fold of a copy the line it is folded at and the place it is laid
// on, an arrow from the one to the other, and how far it is stitched.
func (d *netDrawing) pleats(i int) {
	l := &d.n.Laid[i]
	p := d.pieceOf(l)
	if p == nil {
		return
	}
	for k := range p.PleatFolds {
		q := &p.PleatFolds[k]
		place, outer := d.onPaper(l, q.Drawn(q.Lines.Place)), d.onPaper(l, q.Drawn(q.Lines.Outer))
		d.broken(d.Draw(drawing.PleatPlace), place)
		if d.paces[0].of(outer).at(0).Apart(place[0]) >= pleatLeast {
			fold := d.Draw(drawing.PleatFold)
			d.broken(fold, outer)
			d.laidOn(fold, outer, place)
		}
		if q.Stitched > 0 {
			row := d.Draw(drawing.PleatSewn)
			d.broken(row, d.onPaper(l, q.Sewn(q.Lines.Place)))
		}
	}
}

// laidOn is the arrow from a fold to the place it is laid on, where there is room for it.
func (d *netDrawing) laidOn(p *drawing.Path, outer, place []drawing.Point) {
	from, to := d.paces[0].of(outer), d.paces[1].of(place)
	for _, part := range [...]float64{0.3, 0.42, 0.54, 0.66, 0.18, 0.78} {
		a, b := from.at(part), to.at(part)
		ux, uy, long := toward2(a, b)
		box := drawing.Box{Left: min(a.X, b.X) - 0.6, Top: min(a.Y, b.Y) - 0.8, Right: max(a.X, b.X) + 0.6, Bottom: max(a.Y, b.Y) + 0.8}
		if long > 1e-9 && d.full.clearBox(box, true) {
			p.Move(a.X, a.Y).Line(b.X, b.Y).Arrow(b.X, b.Y, ux, uy, min(netArrow, long/2))
			return
		}
	}
}
