package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// levels draws where waist, bust and the like run across.
func (d *pieceDrawing) levels() {
	p := d.Draw(drawing.LevelLine)
	for _, l := range d.p.AtLevels {
		spans := d.p.Outline.WidthsAt(l.Y)
		if d.has(Named) {
			p = d.Named(drawing.LevelLine, say.Of("draw.level", l.Level))
			spans = []shape.Span{d.acrossAll(spans)}
		}
		for _, span := range spans {
			p.Lines(d.f, []shape.Point{{X: span.From, Y: l.Y}, {X: span.To, Y: l.Y}})
		}
	}
}

// acrossAll is from the left end of the first stretch to the right end of the
// last, of the whole piece where there is none.
func (d *pieceDrawing) acrossAll(spans []shape.Span) shape.Span {
	if len(spans) == 0 {
		least, most := d.p.Outline.Bounds()
		return shape.Span{From: least.X, To: most.X}
	}
	return shape.Span{From: spans[0].From, To: spans[len(spans)-1].To}
}

// numbered is a mark's name in a file, by its number where it has none.
func numbered(word, name string, i int) string {
	if name == "" {
		name = strconv.Itoa(i + 1)
	}
	return word + " " + name
}

// darts draws the legs of each dart and a cross at its point.
func (d *pieceDrawing) darts() {
	p := d.Draw(drawing.DartLeg)
	for i, dart := range d.p.Darts {
		if d.has(Named) {
			p = d.Named(drawing.DartLeg, numbered("dart", dart.Record.Name.V, i))
		}
		p.Lines(d.f, []shape.Point{dart.Plan.Begin, dart.Plan.Point, dart.Plan.End})
		if d.has(Named) {
			continue
		}
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
	p := d.Named(drawing.GrainLine, "grain").Move(x-ux*half, y-uy*half).Line(x+ux*half, y+uy*half)
	if d.has(Named) {
		return // an arrow's head would be lines of its own
	}
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
		e := &d.p.Edges[i]
		switch {
		case !e.Fold || e.Index < 0 || e.Index >= len(d.p.Outline.Edges):
		case d.has(Named):
			p.Lines(d.f, []shape.Point{d.p.Outline.Start(e.Index), d.p.Outline.Edges[e.Index].To})
		default:
			d.fold(p, e.Index)
		}
	}
}

// foldNames says along each fold's bracket what it means.
func (d *pieceDrawing) foldNames() {
	for i := range d.p.Edges {
		if e := &d.p.Edges[i]; e.Fold && e.Index >= 0 && e.Index < len(d.p.Outline.Edges) {
			d.foldWords(e.Index)
		}
	}
}

func (d *pieceDrawing) fold(p *drawing.Path, i int) {
	h := d.hand
	ax, ay := d.f.At(d.p.Outline.Start(i))
	bx, by := d.f.At(d.p.Outline.Edges[i].To)
	length := math.Sqrt((bx-ax)*(bx-ax) + (by-ay)*(by-ay))
	if length < 4*h.arrow {
		return
	}
	inset := min(h.foldInset, length/4) // of a short fold, as of a collar's stand
	ux, uy := (bx-ax)/length, (by-ay)/length
	nx, ny := uy, -ux // inward, with y down, is to the left of the way
	at := func(along, in float64) (float64, float64) {
		return ax + ux*along*length + nx*in, ay + uy*along*length + ny*in
	}
	p.Move(at(0.18, h.foldEnd))
	p.Line(at(0.18, inset))
	p.Line(at(0.82, inset))
	p.Line(at(0.82, h.foldEnd))
	x, y := at(0.18, h.foldTip)
	p.Arrow(x, y, -nx, -ny, h.arrow)
	x, y = at(0.82, h.foldTip)
	p.Arrow(x, y, -nx, -ny, h.arrow)
}
