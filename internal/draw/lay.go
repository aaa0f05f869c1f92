package draw

import (
	"math"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// LayStyle says how a lay is drawn. The zero value suits a page of A4 or
// Letter.
type LayStyle struct {
	Wide, High float64 // room on paper, in mm; 180 and 235 where 0
	Measure    measure.Style
}

// Room for rulers, selvedge names and breaks about each row, in units.
const (
	rulerRoom  = 92   // above a row: names of the selvedge, numbers, ticks
	rulerLeft  = 96   // left of a row
	rowGap     = 34   // below a row
	legendLine = 36   // from one line of the legend to the next
	pairMark   = "×2" // a piece of folded cloth that gives two
)

// Lay adds the plan of a lay to dst, to scale: the cloth from its cut end on
// the left, the left selvedge (or the fold) on top, in as many rows as the
// paper asks for. A lay without a plan is not drawn.
func Lay(dst []byte, l *cutting.Lay, style LayStyle) []byte {
	if l == nil || l.Plan == nil || !(l.Plan.Length > 0) || !(l.Plan.Width > 0) {
		return dst
	}
	d := newLayDrawing(l, style)
	legend := d.legend()
	y := d.rowTop(d.rows-1) + d.wide + d.edge + rowGap + legendLine
	b := box{-rulerLeft, -rulerRoom - d.edge, d.across() - rulerLeft, y + legendLine*(float64(len(legend))+0.5)}
	dst = open(dst, "lay", b, d.title(), d.desc())
	for r := range d.rows {
		dst = d.row(dst, r)
	}
	dst = d.way(dst, y)
	for i, line := range legend {
		dst = text(dst, "small", 0, -rulerLeft+margin, y+legendLine*float64(i+1), line)
	}
	return append(dst, "</svg>"...)
}

// A layDrawing is one lay with its scale and its rows.
type layDrawing struct {
	l       *cutting.Lay
	style   LayStyle
	scale   float64 // mm of cloth for one on paper
	k       float64 // units for one mm of cloth
	rows    int
	rowLong float64 // mm of cloth in a row
	wide    float64 // units: width of the layer
	edge    float64 // units: selvedge drawn beyond the usable width
	spots   []spot  // where the words of each piece stand
}

// layScales are the scales lays are drawn to, largest first.
var layScales = []float64{4, 5, 8, 10, 12, 15, 18, 20, 25, 30, 40, 50, 75, 100}

// oneRow is the smallest scale to which a lay is drawn for the sake of a
// single row; a longer one is broken.
const oneRow = 20

// choose finds the largest scale that suits the paper: in one row where that
// is not too small, else in as many as it takes.
func (d *layDrawing) choose() {
	suits := func(s float64) bool {
		d.fit(s)
		return float64(d.rows)*(d.wide+d.edge*2+rulerRoom+rowGap) <= d.style.High*unitsPerMM-legendLine*6
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
	d := &layDrawing{l: l, style: style}
	d.choose()
	d.spots = make([]spot, len(l.Chalked))
	for i := range l.Chalked {
		d.spots[i] = roomiest(l.Chalked[i].Outline)
	}
	return d
}

// fit divides the lay into rows at a scale: whole decimetres of cloth in each.
func (d *layDrawing) fit(scale float64) {
	d.scale, d.k = scale, unitsPerMM/scale
	length := d.l.Plan.Length
	most := (d.style.Wide*unitsPerMM - rulerLeft - 2*margin) / d.k
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

// rowTop is where the usable cloth of a row begins, in units.
func (d *layDrawing) rowTop(r int) float64 {
	return float64(r) * (d.wide + 2*d.edge + rulerRoom + rowGap)
}

// span is the stretch of cloth that a row shows, in mm.
func (d *layDrawing) span(r int) (from, to float64) {
	return float64(r) * d.rowLong, min(float64(r+1)*d.rowLong, d.l.Plan.Length)
}

// sheetOf turns the mirrored outlines that ring gives into units of a row.
func (d *layDrawing) sheetOf(r int) sheet {
	from, _ := d.span(r)
	return sheet{from, d.rowTop(r) / d.k, d.k}
}

// upright is an outline with y the other way, as a sheet wants it.
func upright(pts []shape.Point) shape.Ring {
	out := make(shape.Ring, len(pts))
	for i, q := range pts {
		out[i] = shape.Point{X: q.X, Y: -q.Y}
	}
	return out
}

// row draws one stretch of the cloth with everything on it.
func (d *layDrawing) row(dst []byte, r int) []byte {
	from, to := d.span(r)
	top, long := d.rowTop(r), (to-from)*d.k
	dst = d.cloth(dst, r, top, long)
	dst = d.rulers(dst, r, top, from, to)
	sc := scratches.Get().(*scratch)
	defer scratches.Put(sc)
	for i := range d.l.Left {
		dst = d.area(dst, `left level`, r, d.l.Left[i].On, sc)
	}
	if p := d.l.Problem; p != nil && !d.l.Plan.Folded {
		for _, f := range p.Lay.Cloth.Flaws {
			ring := make([]shape.Point, len(f))
			for k, q := range f {
				ring[k] = shape.Point{X: q.X, Y: min(max(q.Y, 0), d.l.Plan.Width)}
			}
			dst = d.area(dst, `flaw strip`, r, ring, sc)
		}
	}
	for i := range d.l.Chalked {
		dst = d.piece(dst, r, &d.l.Chalked[i], sc)
	}
	for i := range d.l.Chalked {
		if s := d.spots[i]; s.at.X >= from && (s.at.X < to || r == d.rows-1) {
			dst = d.words(dst, r, i)
		}
	}
	return dst
}

// cloth draws the edges of the cloth: ends, selvedges, fold, breaks.
func (d *layDrawing) cloth(dst []byte, r int, top, long float64) []byte {
	p := pen{dst: append(dst, `<path class="selvedge bar" d="`...)}
	line := func(x1, y1, x2, y2 float64) { p.move(x1, y1); p.line(x2, y2) }
	if !d.l.Plan.Folded {
		line(0, top-d.edge, long, top-d.edge)
	}
	line(0, top+d.wide+d.edge, long, top+d.wide+d.edge)
	if r == 0 {
		line(0, top-d.edge, 0, top+d.wide+d.edge)
	}
	p = pen{dst: append(p.dst, `"/><path class="cloth grain" d="`...)}
	if d.edge > 0 {
		if !d.l.Plan.Folded {
			line(0, top, long, top)
		}
		line(0, top+d.wide, long, top+d.wide)
	}
	if r == d.rows-1 {
		line(long, top-d.edge, long, top+d.wide+d.edge)
	}
	p = pen{dst: append(p.dst, `"/><path class="fold level" d="`...)}
	if d.l.Plan.Folded {
		line(0, top, long, top)
	}
	if r > 0 {
		line(0, top, 0, top+d.wide)
	}
	if r < d.rows-1 {
		line(long, top, long, top+d.wide)
	}
	dst = append(p.dst, `"/>`...)
	upper, lower := "left selvedge", "right selvedge"
	if d.l.Plan.Folded {
		upper, lower = "fold", "both selvedges"
	}
	dst = text(dst, "small", 'e', long, top-d.edge-62, upper)
	return text(dst, "small", 'e', long, top+d.wide+d.edge+28, lower)
}

// rulers draws a tape along the cloth and one across it.
func (d *layDrawing) rulers(dst []byte, r int, top, from, to float64) []byte {
	minor, unit := 100.0, 10.0
	every := 5
	if d.style.Measure.System == measure.Imperial {
		minor, unit, every = 3*25.4, 25.4, 3
	}
	for float64(every)*minor*d.k < 120 {
		every *= 2
	}
	high := func(i int) float64 {
		if i%every == 0 {
			return tick * 1.6
		}
		return tick * 0.8
	}
	p := pen{dst: append(dst, `<path class="ruler grain" d="`...)}
	y := top - d.edge - 6
	for i := int(math.Ceil(from/minor - 1e-9)); float64(i)*minor <= to+1e-9; i++ {
		x := (float64(float64(i)*minor) - from) * d.k
		p.move(x, y)
		p.line(x, y-high(i))
	}
	for i := 0; r == 0 && float64(i)*minor*d.k <= d.wide+1e-9; i++ {
		at := top + float64(float64(i)*minor*d.k)
		p.move(-6, at)
		p.line(-6-high(i), at)
	}
	dst = append(p.dst, `"/>`...)
	label := func(i int) string { return strconv.Itoa(int(math.Round(float64(i) * minor / unit))) }
	for i := int(math.Ceil(from/minor - 1e-9)); float64(i)*minor <= to+1e-9; i++ {
		if i%every == 0 {
			dst = text(dst, "small", 'm', (float64(float64(i)*minor)-from)*d.k, y-tick*1.6-5, label(i))
		}
	}
	for i := 0; r == 0 && float64(i)*minor*d.k <= d.wide+1e-9; i++ {
		if i%every == 0 {
			dst = text(dst, "small", 'e', -6-tick*1.6-4, top+float64(float64(i)*minor*d.k)+8, label(i))
		}
	}
	return dst
}
