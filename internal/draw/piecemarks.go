package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// levels draws where waist, bust and the like run across.
func (d *pieceDrawing) levels() {
	p := d.Draw(drawing.LevelLine)
	for _, l := range d.p.AtLevels {
		for _, span := range d.p.Outline.WidthsAt(l.Y) {
			p.Lines(d.f, []shape.Point{{X: span.From, Y: l.Y}, {X: span.To, Y: l.Y}})
		}
	}
}

// darts draws the legs of each dart and a cross at its point.
func (d *pieceDrawing) darts() {
	p := d.Draw(drawing.DartLeg)
	for _, dart := range d.p.Darts {
		p.Lines(d.f, []shape.Point{dart.Plan.Begin, dart.Plan.Point, dart.Plan.End})
		x, y := d.f.At(dart.Plan.Point)
		p.Cross(x, y, d.hand.cross, d.hand.cross)
	}
}

// grain draws the arrow that lies along the grain of the cloth.
func (d *pieceDrawing) grain() {
	m, h := &d.mid, d.hand
	ux, uy, room := 0.0, -1.0, m.high
	x, y := m.left+m.wide*h.grainAt, m.y
	if d.lying() {
		x = m.left + m.wide*0.3
	}
	switch d.p.Grain {
	case "any":
		return
	case "across":
		ux, uy, room = 1, 0, m.wide
		x, y = m.left+m.wide/2, m.y+max(textHeight, h.grainDrop*m.high)
	case "bias":
		ux, uy, room = math.Sqrt2/2, -math.Sqrt2/2, min(m.wide*h.grainAt*2.4, m.high)
		x = m.left + (x-m.left)*0.8
	}
	half := min(max(room*0.3, h.grainLeast), h.grainMost)
	p := d.Draw(drawing.GrainLine).Move(x-ux*half, y-uy*half).Line(x+ux*half, y+uy*half)
	p.Arrow(x+ux*half, y+uy*half, ux, uy, h.arrow).Arrow(x-ux*half, y-uy*half, -ux, -uy, h.arrow)
}

// A stretch is the widest stretch of a piece half way up, in the drawing.
type stretch struct{ left, wide, y, high float64 }

func (d *pieceDrawing) middleStretch() stretch {
	least, most := d.p.Outline.Bounds()
	best, y := shape.Span{From: least.X, To: least.X}, (least.Y+most.Y)/2
	for i, part := range d.hand.heights {
		at := least.Y + (most.Y-least.Y)*part
		for _, s := range d.p.Outline.WidthsAt(at) {
			if s.Width() > best.Width() && (i == 0 || s.Width() > best.Width()*1.15) {
				best, y = s, at
			}
		}
	}
	left, top := d.f.At(shape.Point{X: best.From, Y: y})
	return stretch{left, best.Width() * d.f.K, top, (most.Y - least.Y) * d.f.K}
}

// folds draws a bracket whose arrows point to each fold.
func (d *pieceDrawing) folds() {
	p := d.Draw(drawing.FoldMark)
	for i := range d.p.Edges {
		if e := &d.p.Edges[i]; e.Fold && e.Index >= 0 && e.Index < len(d.p.Outline.Edges) {
			d.fold(p, e.Index)
		}
	}
	for i := range d.p.Edges {
		if e := &d.p.Edges[i]; e.Fold && d.style.Parts&FoldWords != 0 && e.Index >= 0 && e.Index < len(d.p.Outline.Edges) {
			d.foldWords(e.Index)
		}
	}
}

func (d *pieceDrawing) fold(p *drawing.Path, i int) {
	h := d.hand
	ax, ay := d.f.At(d.p.Outline.Start(i))
	bx, by := d.f.At(d.p.Outline.Edges[i].To)
	length := math.Sqrt((bx-ax)*(bx-ax) + (by-ay)*(by-ay))
	if length < 4*h.foldInset {
		return
	}
	ux, uy := (bx-ax)/length, (by-ay)/length
	nx, ny := uy, -ux // inward, with y down, is to the left of the way
	at := func(along, in float64) (float64, float64) {
		return ax + ux*along*length + nx*in, ay + uy*along*length + ny*in
	}
	p.Move(at(0.18, h.foldEnd))
	p.Line(at(0.18, h.foldInset))
	p.Line(at(0.82, h.foldInset))
	p.Line(at(0.82, h.foldEnd))
	x, y := at(0.18, h.foldTip)
	p.Arrow(x, y, -nx, -ny, h.arrow)
	x, y = at(0.82, h.foldTip)
	p.Arrow(x, y, -nx, -ny, h.arrow)
}
