package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// marks draws levels, darts, the fold bracket and the grain.
func (d *pieceDrawing) marks() {
	p := d.Draw(drawing.LevelLine)
	for _, l := range d.p.AtLevels {
		for _, span := range d.p.Outline.WidthsAt(l.Y) {
			p.Lines(d.f, []shape.Point{{X: span.From, Y: l.Y}, {X: span.To, Y: l.Y}})
		}
	}
	p = d.Draw(drawing.DartLeg)
	for _, dart := range d.p.Darts {
		p.Lines(d.f, []shape.Point{dart.Plan.Begin, dart.Plan.Point, dart.Plan.End})
		x, y := d.f.At(dart.Plan.Point)
		p.Cross(x, y, cross, cross)
	}
	d.grain()
	p = d.Draw(drawing.FoldMark)
	for i := range d.p.Edges {
		if d.p.Edges[i].Fold {
			d.fold(p, d.p.Edges[i].Index)
		}
	}
}

// grain draws the arrow that lies along the grain of the cloth.
func (d *pieceDrawing) grain() {
	if d.p.Grain == "any" {
		return
	}
	ux, uy := 0.0, -1.0
	switch d.p.Grain {
	case "across":
		ux, uy = 1, 0
	case "bias":
		ux, uy = math.Sqrt2/2, -math.Sqrt2/2
	}
	m := &d.mid
	room := m.high
	if ux != 0 {
		room = min(m.wide, m.high)
	}
	if ux == 1 {
		room = m.wide
	}
	half := min(max(room*0.3, arrowLong*1.2), 19)
	x, y := m.left+m.wide*grainPlace, m.y
	if ux == 1 {
		x, y = m.left+m.wide/2, m.y+textHeight
	}
	p := d.Draw(drawing.GrainLine).Move(x-ux*half, y-uy*half).Line(x+ux*half, y+uy*half)
	p.Arrow(x+ux*half, y+uy*half, ux, uy, arrowLong).Arrow(x-ux*half, y-uy*half, -ux, -uy, arrowLong)
}

// grainPlace is where on the piece's widest stretch an upright grain arrow
// stands; the words stand to the right of it.
const grainPlace = 0.36

// A stretch is the widest stretch of a piece half way up, in the drawing.
type stretch struct{ left, wide, y, high float64 }

func (d *pieceDrawing) middleStretch() stretch {
	least, most := d.p.Outline.Bounds()
	y := (least.Y + most.Y) / 2
	best := shape.Span{From: least.X, To: least.X}
	for _, s := range d.p.Outline.WidthsAt(y) {
		if s.Width() > best.Width() {
			best = s
		}
	}
	left, top := d.f.At(shape.Point{X: best.From, Y: y})
	return stretch{left, best.Width() * d.f.K, top, (most.Y - least.Y) * d.f.K}
}

// name writes the piece's name where it has room.
func (d *pieceDrawing) name() {
	if x, y, ok := d.nameAt(); ok {
		say(d.Drawing, drawing.Name, drawing.Begin, x, y, d.p.Name)
	}
}

// nameAt is where the piece's name begins, clear of levels and darts; false
// where it has no room.
func (d *pieceDrawing) nameAt() (x, y float64, ok bool) {
	m := d.mid
	wide := letters(d.p.Name) * nameWide
	x = m.left + m.wide*grainPlace + gap
	if d.p.Grain == "across" || d.p.Grain == "any" {
		x = m.left + (m.wide-wide)/2
	}
	for _, part := range []float64{0, -0.1, 0.1, -0.2, 0.2, 0.28} {
		y = m.y + part*m.high
		if d.inside(x, y, wide) && d.clear(x, y, wide) {
			return x, y, true
		}
	}
	return 0, 0, false
}

// inside reports whether words at (x, y) stay within the sewing line.
func (d *pieceDrawing) inside(x, y, wide float64) bool {
	for _, row := range [...]float64{y - nameHeight, y} {
		holds := false
		for _, span := range d.p.Outline.WidthsAt(d.f.Top - row/d.f.K) {
			left, right := (span.From-d.f.Left)*d.f.K, (span.To-d.f.Left)*d.f.K
			holds = holds || x >= left+gap/2 && x+wide <= right-gap
		}
		if !holds {
			return false
		}
	}
	return true
}

// clear reports whether words at (x, y) stay off level lines and darts.
func (d *pieceDrawing) clear(x, y, wide float64) bool {
	for _, l := range d.p.AtLevels {
		if _, ly := d.f.At(shape.Point{Y: l.Y}); ly > y-nameHeight-0.4 && ly < y+nameHeight/2 {
			return false
		}
	}
	for _, dart := range d.p.Darts {
		px, py := d.f.At(dart.Plan.Point)
		b := drawing.Box{Left: px, Top: py, Right: px, Bottom: py}
		b.Add(d.f.At(dart.Plan.Begin))
		b.Add(d.f.At(dart.Plan.End))
		if b.Left-gap < x+wide && b.Right+gap > x && b.Top-gap < y && b.Bottom+gap > y-nameHeight {
			return false
		}
	}
	return true
}

// fold draws a bracket whose arrows point to the fold.
func (d *pieceDrawing) fold(p *drawing.Path, i int) {
	if i < 0 || i >= len(d.p.Outline.Edges) {
		return
	}
	a, b := d.p.Outline.Start(i), d.p.Outline.Edges[i].To
	ax, ay := d.f.At(a)
	bx, by := d.f.At(b)
	length := math.Sqrt((bx-ax)*(bx-ax) + (by-ay)*(by-ay))
	if length < 4*foldInset {
		return
	}
	ux, uy := (bx-ax)/length, (by-ay)/length
	nx, ny := uy, -ux // inward, with y down, is to the left of the way
	at := func(along, in float64) (float64, float64) {
		return ax + ux*along*length + nx*in, ay + uy*along*length + ny*in
	}
	p.Move(at(0.18, 0.4))
	p.Line(at(0.18, foldInset))
	p.Line(at(0.82, foldInset))
	p.Line(at(0.82, 0.4))
	x, y := at(0.18, 0.2)
	p.Arrow(x, y, -nx, -ny, arrowLong)
	x, y = at(0.82, 0.2)
	p.Arrow(x, y, -nx, -ny, arrowLong)
}
