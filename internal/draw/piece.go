package draw

import (
	"math"
	"strconv"
	"sync"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// Scales are the scales that pieces are drawn to, largest first: millimetres
// of the piece for one millimetre on paper.
var Scales = []float64{2, 4, 5, 8, 10, 15, 20, 25, 40, 50}

// ScaleFor is the largest scale at which pieces of that extent, in
// millimetres, fit the given width and height on paper.
func ScaleFor(wide, high, paperWide, paperHigh float64) float64 {
	for _, s := range Scales {
		if wide/s <= paperWide && high/s <= paperHigh {
			return s
		}
	}
	return Scales[len(Scales)-1]
}

// PieceStyle says how pieces of one build are drawn.
type PieceStyle struct {
	Scale   float64 // millimetres of the piece for one on paper
	Measure measure.Style
	Numbers map[measure.Quantity]string // lengths printed before; may be nil
}

var scratches = sync.Pool{New: func() any { return new(scratch) }}

// Piece adds a pattern piece to dst, to scale: its cut line, sewing line,
// darts, levels, fold, grain and the names of its edges with their allowances.
func Piece(dst []byte, p *garment.Piece, style PieceStyle) []byte {
	least, most := pieceBounds(p)
	s := sheet{least.X, most.Y, unitsPerMM / style.Scale}
	d := pieceDrawing{p: p, s: s, style: style}
	w, h := s.at(shape.Point{X: most.X, Y: least.Y})
	d.box = box{0, 0, w, h}
	d.mid = d.middleStretch()
	d.labelEdges()
	d.box.left -= margin
	d.box.top -= margin
	d.box.right += margin
	bar := d.bar(w)
	d.box.right = max(d.box.right, bar.length+letters(bar.label)*smallWide+2*gap)
	d.barY = d.box.bottom + barTop
	d.box.bottom = d.barY + smallHeight/2 + margin/2

	dst = open(dst, "piece", d.box, d.title(), d.desc())
	dst = d.lines(dst)
	dst = d.marks(dst)
	dst = d.words(dst)
	dst = bar.draw(dst, 0, d.barY)
	return append(dst, "</svg>"...)
}

// pieceBounds is the box about both lines of a piece.
func pieceBounds(p *garment.Piece) (least, most shape.Point) {
	least, most = p.Outline.Bounds()
	if len(p.Cut.Ring) > 0 {
		l, m := p.Cut.Ring.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
		most = shape.Point{X: max(most.X, m.X), Y: max(most.Y, m.Y)}
	}
	return least, most
}

type pieceDrawing struct {
	p      *garment.Piece
	s      sheet
	style  PieceStyle
	box    box
	mid    stretch
	barY   float64
	labels []edgeLabel
}

// An edgeLabel is the name of an edge beside it.
type edgeLabel struct {
	name, allowance string
	x, y            float64 // of the middle of its base line
}

// title names the drawing.
func (d *pieceDrawing) title() string {
	return d.p.Name + ", drawn 1 : " + strconv.FormatFloat(d.style.Scale, 'f', -1, 64)
}

// desc says in words what the drawing shows.
func (d *pieceDrawing) desc() string {
	var room [512]byte
	out := append(room[:0], "Cut line and sewing line. Edges in order: "...)
	for i := range d.p.Edges {
		e := &d.p.Edges[i]
		if i > 0 {
			out = append(out, "; "...)
		}
		out = append(out, e.Name...)
		if e.Length.Value.Known() {
			out = append(append(out, ' '), d.number(e.Length)...)
		}
		switch {
		case e.Fold:
			out = append(out, ", on the fold"...)
		case e.Allowance.Value.Known():
			out = append(append(out, ", allowance "...), d.number(e.Allowance)...)
		}
	}
	out = append(out, '.')
	if n := len(d.p.Darts); n > 0 {
		out = append(strconv.AppendInt(append(out, ' '), int64(n), 10), " dart"...)
		if n > 1 {
			out = append(out, 's')
		}
		out = append(out, '.')
	}
	return string(append(append(append(out, " Grain: "...), grainWords(d.p.Grain)...), '.'))
}

func grainWords(grain string) string {
	switch grain {
	case "across":
		return "across the drawing"
	case "bias":
		return "on the bias"
	case "any":
		return "any way"
	}
	return "up the drawing"
}

// number is a length as a drawing shows it: in one unit, not two.
func (d *pieceDrawing) number(f garment.Figure) string {
	q := f.Value.Quantity
	if s, ok := d.style.Numbers[q]; ok {
		return s
	}
	style := d.style.Measure
	if style.System == measure.Both {
		style.System = measure.Metric
	}
	s := style.Quantity(q)
	if n := d.style.Numbers; n != nil {
		if len(n) > mostNumbers {
			clear(n)
		}
		n[q] = s
	}
	return s
}

// mostNumbers bounds how many printed lengths are kept.
const mostNumbers = 10_000

// labelEdges finds places for the names of the edges, outside the cut line,
// and widens the box for them.
func (d *pieceDrawing) labelEdges() {
	o := d.p.Outline
	d.labels = make([]edgeLabel, 0, len(d.p.Edges))
	for i := range d.p.Edges {
		e := &d.p.Edges[i]
		if e.Index < 0 || e.Index >= len(o.Edges) || e.Fold {
			continue
		}
		at, along := middle(o, e.Index)
		nx, ny := along.Y, along.X // outward, with y down
		l := edgeLabel{name: e.Name}
		out := float64(gap)
		if e.Allowance.Value.Known() {
			if l.allowance = d.number(e.Allowance); l.allowance == "0 mm" {
				l.allowance = ""
			}
			out += e.Allowance.Value.Number * d.s.k
		}
		out += d.hollow(e.Index, at, along)
		x, y := d.s.at(at)
		d.place(&l, x+nx*out, y+ny*out, nx, ny)
		d.labels = append(d.labels, l)
	}
}

// place puts a label so that the whole of it lies beyond the point, seen from
// the edge whose outward direction is (nx, ny).
func (d *pieceDrawing) place(l *edgeLabel, x, y, nx, ny float64) {
	wide := letters(l.name) * textWide
	if l.allowance != "" {
		wide += (letters(l.allowance) + 1) * smallWide
	}
	half, high := wide/2, textHeight/2.0
	x += nx * (half*math.Abs(nx) + high*math.Abs(ny))
	y += ny * (half*math.Abs(nx) + high*math.Abs(ny))
	l.x, l.y = x, y+textHeight*0.36
	d.box.add(x-half, y-high)
	d.box.add(x+half, y+high)
}

// hollow is how deep an edge curves into the piece, in units: its label stands
// before the hollow, not in it.
func (d *pieceDrawing) hollow(first int, at, along shape.Point) float64 {
	o := d.p.Outline
	n := len(o.Edges)
	last := first
	for name := o.Edges[first].Name; (last+1)%n != first && name != "" && o.Edges[(last+1)%n].Name == name; {
		last = (last + 1) % n
	}
	a, b := o.Start(first), o.Edges[last].To
	mid := shape.Point{X: (a.X+b.X)/2 - at.X, Y: (a.Y+b.Y)/2 - at.Y}
	return max(0, mid.X*along.Y-mid.Y*along.X) * d.s.k
}

// middle is a point about half along an edge with all its parts, and the
// direction in which the edge runs there.
func middle(o shape.Outline, first int) (at, along shape.Point) {
	n := len(o.Edges)
	parts := 1
	for name := o.Edges[first].Name; parts < n && name != "" && o.Edges[(first+parts)%n].Name == name; parts++ {
	}
	i := (first + parts/2) % n
	if parts%2 == 0 {
		return curvePoint(o, i, 0)
	}
	return curvePoint(o, i, 0.5)
}

// curvePoint is the point at parameter t of edge i and the unit tangent there.
func curvePoint(o shape.Outline, i int, t float64) (at, along shape.Point) {
	a, e := o.Start(i), o.Edges[i]
	c1, c2 := e.C1, e.C2
	if !e.Curved {
		c1, c2 = a, e.To
	}
	u := 1 - t
	mix := func(a, b, c, d float64) float64 { return u*u*u*a + 3*u*u*t*b + 3*u*t*t*c + t*t*t*d }
	slope := func(a, b, c, d float64) float64 { return u*u*(b-a) + 2*u*t*(c-b) + t*t*(d-c) }
	at = shape.Point{X: mix(a.X, c1.X, c2.X, e.To.X), Y: mix(a.Y, c1.Y, c2.Y, e.To.Y)}
	along = shape.Point{X: slope(a.X, c1.X, c2.X, e.To.X), Y: slope(a.Y, c1.Y, c2.Y, e.To.Y)}
	if along == (shape.Point{}) {
		along = e.To.Sub(a)
	}
	length := math.Sqrt(along.X*along.X + along.Y*along.Y)
	if length == 0 {
		return at, shape.Point{X: 1}
	}
	return at, shape.Point{X: along.X / length, Y: along.Y / length}
}

// lines draws the cut line and the sewing line.
func (d *pieceDrawing) lines(dst []byte) []byte {
	if len(d.p.Cut.Ring) > 0 {
		sc := scratches.Get().(*scratch)
		pen := pen{dst: append(dst, `<path class="cut" d="`...)}
		pen.thin(d.p.Cut.Ring, d.s, sc)
		for _, hole := range d.p.Cut.Holes {
			pen.thin(hole, d.s, sc)
		}
		scratches.Put(sc)
		dst = append(pen.dst, `"/>`...)
	}
	o := d.p.Outline
	if len(o.Edges) == 0 {
		return dst
	}
	pen := pen{dst: append(dst, `<path class="sew" d="`...)}
	pen.move(d.s.at(o.From))
	for _, e := range o.Edges {
		x, y := d.s.at(e.To)
		if e.Curved {
			x1, y1 := d.s.at(e.C1)
			x2, y2 := d.s.at(e.C2)
			pen.curve(x1, y1, x2, y2, x, y)
			continue
		}
		pen.line(x, y)
	}
	pen.close()
	return append(pen.dst, `"/>`...)
}

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
		if x+wide <= m.left+m.wide-gap && d.clear(x, y, wide) {
			return x, y, true
		}
	}
	return 0, 0, false
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

// words writes the piece's name in its middle and the edges' names about it.
func (d *pieceDrawing) words(dst []byte) []byte {
	if x, y, ok := d.nameAt(); ok {
		dst = text(dst, "name", 0, x, y, d.p.Name)
	}
	for _, l := range d.p.AtLevels {
		spans := d.p.Outline.WidthsAt(l.Y)
		if len(spans) == 0 || spans[0].Width()*d.s.k < letters(l.Level)*smallWide+2*gap {
			continue
		}
		x, y := d.s.at(shape.Point{X: spans[0].To, Y: l.Y})
		dst = text(dst, "small", 'e', x-gap, y-5, l.Level)
	}
	for _, l := range d.labels {
		dst = edgeWords(dst, l)
	}
	return dst
}

// edgeWords writes an edge's name and, smaller, its allowance.
func edgeWords(dst []byte, l edgeLabel) []byte {
	if l.allowance == "" {
		return text(dst, "", 'm', l.x, l.y, l.name)
	}
	dst = text(dst, "", 'm', l.x, l.y, l.name)
	dst = dst[:len(dst)-len("</text>")]
	dst = append(dst, " <tspan>"...)
	dst = append(dst, l.allowance...)
	return append(dst, "</tspan></text>"...)
}
