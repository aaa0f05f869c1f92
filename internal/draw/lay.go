package draw

import (
	"math"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// LayStyle says how a lay is drawn. The zero value suits a page of A4 or
// Letter.
type LayStyle struct {
	Wide, High float64 // room on paper, in mm; 180 and 235 where 0
	Measure    measure.Style
	Screen     bool // beside its tables: no legend
}

// Room for rulers, selvedge names and breaks about each row.
const (
	rulerRoom  = 9.2  // above a row: names of the selvedge, numbers, ticks
	rulerLeft  = 9.6  // left of a row
	rowGap     = 3.4  // below a row
	legendLine = 3.6  // from one line of the legend to the next
	pairMark   = "×2" // a piece of folded cloth that gives two
)

// Lay draws the plan of a lay, to scale: the cloth from its cut end on the
// left, the left selvedge (or the fold) on top, in as many rows as the paper
// asks for. It is nil for a lay without a plan.
func Lay(l *cutting.Lay, style LayStyle) *drawing.Drawing {
	if l == nil || l.Plan == nil || !(l.Plan.Length > 0) || !(l.Plan.Width > 0) {
		return nil
	}
	d := newLayDrawing(l, style)
	var legend []string
	if !style.Screen { // else the table beside it says so
		legend = d.legend()
	}
	y := d.rowTop(d.rows-1) + d.wide + d.edge + rowGap + legendLine
	d.Drawing = drawing.New("lay")
	d.Box = drawing.Box{Left: -rulerLeft, Top: -rulerRoom - d.edge, Right: d.across() - rulerLeft, Bottom: y + legendLine*(float64(len(legend))+0.5)}
	d.Title, d.Desc = d.title(), d.desc()
	for r := range d.rows {
		d.row(r)
	}
	d.way(y)
	for i, line := range legend {
		d.small(drawing.Begin, -rulerLeft+margin, y+legendLine*float64(i+1), line)
	}
	return d.Drawing
}

// A layDrawing is one lay with its scale and its rows.
type layDrawing struct {
	*drawing.Drawing
	l       *cutting.Lay
	style   LayStyle
	scale   float64 // mm of cloth for one on paper
	k       float64 // mm on paper for one of cloth
	long    float64 // of the cloth as it lies
	rows    int
	rowLong float64 // mm of cloth in a row
	wide    float64 // of the layer, on paper
	edge    float64 // selvedge drawn beyond the usable width
	spots   []spot  // where the words of each piece stand
}

// layScales are the scales lays are drawn to, largest first.
var layScales = []float64{4, 5, 6, 7, 8, 9, 10, 12, 15, 18, 20, 25, 30, 40, 50, 75, 100}

// oneRow is the smallest scale to which a lay is drawn for the sake of a
// single row; a longer one is broken.
const oneRow = 20

// choose finds the largest scale that suits the paper: in one row where that
// is not too small, else in as many as it takes.
func (d *layDrawing) choose() {
	suits := func(s float64) bool {
		d.fit(s)
		below := legendLine * 6
		if d.style.Screen {
			below = legendLine * 1.5
		}
		return float64(d.rows)*(d.wide+d.edge*2+rulerRoom+rowGap) <= d.style.High-below
	}
	for _, s := range layScales {
		if s <= oneRow && suits(s) && d.rows == 1 {
			return
		}
	}
	for _, s := range layScales {
		if suits(s) {
			return
		}
	}
}

func newLayDrawing(l *cutting.Lay, style LayStyle) *layDrawing {
	if style.Wide <= 0 {
		style.Wide = 180
	}
	if style.High <= 0 {
		style.High = 235
	}
	if style.Measure.System == measure.Both {
		style.Measure.System = measure.Metric
	}
	d := &layDrawing{l: l, style: style, long: l.Plan.Length / l.Plan.Layers()}
	d.choose()
	d.spots = make([]spot, len(l.Chalked))
	for i := range l.Chalked {
		d.spots[i] = roomiest(l.Chalked[i].Outline)
	}
	return d
}

// fit divides the lay into rows at a scale: whole decimetres of cloth in each.
func (d *layDrawing) fit(scale float64) {
	d.scale, d.k = scale, 1/scale
	length := d.long
	most := (d.style.Wide - rulerLeft - 2*margin) / d.k
	d.rows, d.rowLong = 1, length
	if length > most {
		step := 100.0
		for ; step > most; step /= 2 {
		}
		whole := math.Floor(most/step) * step
		d.rows = int(math.Ceil(length/whole - 1e-9))
		d.rowLong = min(whole, math.Ceil(length/float64(d.rows)/step)*step) // rows of about one length
		d.rows = int(math.Ceil(length/d.rowLong - 1e-9))
	}
	d.wide = d.l.Plan.Width * d.k
	d.edge = 0
	if c := d.l.Cloth.Cloth; c != nil {
		d.edge = max(c.Selvedge.V.MM()*d.k, 0)
	}
}

// rowTop is where the usable cloth of a row begins.
func (d *layDrawing) rowTop(r int) float64 {
	return float64(r) * (d.wide + 2*d.edge + rulerRoom + rowGap)
}

// span is the stretch of cloth that a row shows, in mm.
func (d *layDrawing) span(r int) (from, to float64) {
	return float64(r) * d.rowLong, min(float64(r+1)*d.rowLong, d.long)
}

// frame puts the mirrored outlines that upright gives into a row.
func (d *layDrawing) frame(r int) drawing.Frame {
	from, _ := d.span(r)
	return drawing.Frame{Left: from, Top: d.rowTop(r) / d.k, K: d.k}
}

// upright is an outline with y the other way, as a frame wants it.
func upright(pts []shape.Point) shape.Ring {
	out := make(shape.Ring, len(pts))
	for i, q := range pts {
		out[i] = shape.Point{X: q.X, Y: -q.Y}
	}
	return out
}

// small says what is beside the point. On a lay no letters are smaller than 8 points: it is
// read from across the table.
func (d *layDrawing) small(a drawing.Anchor, x, y float64, words string) {
	write(d.Drawing, drawing.Plain, a, x, y, words)
}

// row draws one stretch of the cloth with everything on it.
func (d *layDrawing) row(r int) {
	from, to := d.span(r)
	top, long := d.rowTop(r), (to-from)*d.k
	d.cloth(r, top, long)
	d.rulers(r, top, from, to)
	for i := range d.l.Left {
		d.remnant(r, &d.l.Left[i])
	}
	var flaws [][]shape.Point
	if p := d.l.Problem; p != nil && !d.l.Plan.Folded() {
		for _, f := range p.Lay.Cloth.Flaws {
			ring := make([]shape.Point, len(f))
			for k, q := range f {
				ring[k] = shape.Point{X: q.X, Y: min(max(q.Y, 0), d.l.Plan.Width)}
			}
			d.area(drawing.Flaw, r, ring)
			flaws = append(flaws, ring)
		}
	}
	for i := range d.l.Chalked {
		d.piece(r, &d.l.Chalked[i])
		cuts := d.l.Chalked[i].StripCuts()
		cuts.Way.Y = -cuts.Way.Y // as frames have it
		stripCuts(d.Drawing, d.frame(r), cuts, upright(within(d.l.Chalked[i].Outline, from, to)))
	}
	stripesOnLay(d.Drawing, d.frame(r), d.l, from, to)
	for _, ring := range flaws {
		d.flawWords(r, ring)
	}
	for i := range d.l.Left {
		d.remnantWords(r, i)
	}
	for i := range d.l.Chalked {
		d.corner(r, &d.l.Chalked[i])
		if s := d.spots[i]; s.at.X >= from && (s.at.X < to || r == d.rows-1) {
			d.words(r, i)
		}
	}
}

// rulers draws a tape along the cloth and one across it.
func (d *layDrawing) rulers(r int, top, from, to float64) {
	minor, unit := 100.0, 10.0
	every := 5
	if d.style.Measure.System == measure.Imperial {
		minor, unit, every = 3*25.4, 25.4, 3
	}
	for float64(every)*minor*d.k < 12 {
		every *= 2
	}
	high := func(i int) float64 {
		if i%every == 0 {
			return tick * 1.6
		}
		return tick * 0.8
	}
	const off = 0.6
	p := d.Draw(drawing.Ruler)
	y := top - d.edge - off
	first := int(math.Ceil(from/minor - 1e-9))
	along := func(i int) float64 { return (float64(float64(i)*minor) - from) * d.k }
	across := func(i int) float64 { return float64(float64(i)*minor) * d.k }
	for i := first; float64(i)*minor <= to+1e-9; i++ {
		p.Move(along(i), y).Line(along(i), y-high(i))
	}
	for i := 0; r == 0 && across(i) <= d.wide+1e-9; i++ {
		p.Move(-off, top+across(i)).Line(-off-high(i), top+across(i))
	}
	label := func(i int) string { return strconv.Itoa(int(math.Round(float64(i) * minor / unit))) }
	for i := first; float64(i)*minor <= to+1e-9; i++ {
		if i%every == 0 {
			d.small(drawing.Middle, along(i), y-tick*1.6-0.5, label(i))
		}
	}
	for i := 0; r == 0 && across(i) <= d.wide+1e-9; i++ {
		if i%every == 0 {
			d.small(drawing.End, -off-tick*1.6-0.4, top+across(i)+0.8, label(i))
		}
	}
}
