package draw

import (
	"math"

	"hembook/internal/shape"
)

// marks draws levels, darts, the fold bracket and the grain.
func (d *pieceDrawing) marks(dst []byte) []byte {
	if len(d.p.AtLevels) > 0 {
		pen := pen{dst: append(dst, `<path class="level" d="`...)}
		for _, l := range d.p.AtLevels {
			for _, span := range d.p.Outline.WidthsAt(l.Y) {
				pen.move(d.s.at(shape.Point{X: span.From, Y: l.Y}))
				pen.line(d.s.at(shape.Point{X: span.To, Y: l.Y}))
			}
		}
		dst = append(pen.dst, `"/>`...)
	}
	if len(d.p.Darts) > 0 {
		pen := pen{dst: append(dst, `<path class="dart" d="`...)}
		for _, dart := range d.p.Darts {
			pen.dart(d.s, dart.Plan)
		}
		dst = append(pen.dst, `"/>`...)
	}
	pen := pen{dst: append(dst, `<path class="grain" d="`...)}
	d.grain(&pen)
	for i := range d.p.Edges {
		if d.p.Edges[i].Fold {
			d.fold(&pen, d.p.Edges[i].Index)
		}
	}
	return append(pen.dst, `"/>`...)
}

// dart draws the legs of a dart and a cross at its point.
func (p *pen) dart(s sheet, plan shape.DartPlan) {
	p.move(s.at(plan.Begin))
	x, y := s.at(plan.Point)
	p.line(x, y)
	p.line(s.at(plan.End))
	p.move(x-cross, y-cross)
	p.line(x+cross, y+cross)
	p.move(x-cross, y+cross)
	p.line(x+cross, y-cross)
}

// grain draws the arrow that lies along the grain of the cloth.
func (d *pieceDrawing) grain(p *pen) {
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
	half := min(max(room*0.3, arrowLong*1.2), 190)
	x, y := m.left+m.wide*grainPlace, m.y
	if ux == 1 {
		x, y = m.left+m.wide/2, m.y+textHeight
	}
	p.move(x-ux*half, y-uy*half)
	p.line(x+ux*half, y+uy*half)
	p.arrow(x+ux*half, y+uy*half, ux, uy)
	p.arrow(x-ux*half, y-uy*half, -ux, -uy)
}

// grainPlace is where on the piece's widest stretch an upright grain arrow
// stands; the words stand to the right of it.
const grainPlace = 0.36

// A stretch is the widest stretch of a piece half way up, in units.
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
	left, top := d.s.at(shape.Point{X: best.From, Y: y})
	return stretch{left, best.Width() * d.s.k, top, (most.Y - least.Y) * d.s.k}
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
		for _, span := range d.p.Outline.WidthsAt(d.s.top - row/d.s.k) {
			left, right := (span.From-d.s.left)*d.s.k, (span.To-d.s.left)*d.s.k
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
		if _, ly := d.s.at(shape.Point{Y: l.Y}); ly > y-nameHeight-4 && ly < y+nameHeight/2 {
			return false
		}
	}
	for _, dart := range d.p.Darts {
		var b box
		b.left, b.top = d.s.at(dart.Plan.Point)
		b.right, b.bottom = b.left, b.top
		b.add(d.s.at(dart.Plan.Begin))
		b.add(d.s.at(dart.Plan.End))
		if b.left-gap < x+wide && b.right+gap > x && b.top-gap < y && b.bottom+gap > y-nameHeight {
			return false
		}
	}
	return true
}

// fold draws a bracket whose arrows point to the fold.
func (d *pieceDrawing) fold(p *pen, i int) {
	if i < 0 || i >= len(d.p.Outline.Edges) {
		return
	}
	a, b := d.p.Outline.Start(i), d.p.Outline.Edges[i].To
	ax, ay := d.s.at(a)
	bx, by := d.s.at(b)
	length := math.Sqrt((bx-ax)*(bx-ax) + (by-ay)*(by-ay))
	if length < 4*foldInset {
		return
	}
	ux, uy := (bx-ax)/length, (by-ay)/length
	nx, ny := uy, -ux // inward, with y down, is to the left of the way
	at := func(along, in float64) (float64, float64) {
		return ax + ux*along*length + nx*in, ay + uy*along*length + ny*in
	}
	p.move(at(0.18, 4))
	p.line(at(0.18, foldInset))
	p.line(at(0.82, foldInset))
	p.line(at(0.82, 4))
	x, y := at(0.18, 2)
	p.arrow(x, y, -nx, -ny)
	x, y = at(0.82, 2)
	p.arrow(x, y, -nx, -ny)
}
