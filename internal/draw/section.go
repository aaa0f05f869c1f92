package draw

import (
	"math"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// The sizes of cross-sections, in units.
const (
	sectionWide  = 1020 // what a cross-section is fitted into
	sectionHigh  = 620
	mostEnlarged = 80 // units for each millimetre, 8 : 1
	plyShare     = 0.6
	fray         = 13
	dimOff       = 10 // between the end of a measured distance and its extension line
)

// SectionWords name a cross-section.
type SectionWords struct {
	Title   string
	Desc    string // the passes and measures in words
	Measure measure.Style
}

// Section adds the cross-section of a seam or finish to dst: its layers, the
// rows of stitching by number, and its measures.
func Section(dst []byte, t trade.Section, words SectionWords) []byte {
	d := newSection(t, words.Measure)
	dst = open(dst, "section", d.box, words.Title, words.Desc)
	for i := range t.Layers {
		dst = d.layer(dst, &t.Layers[i])
	}
	dst = d.ends(dst)
	dst = d.stitches(dst)
	dst = d.measures(dst)
	dst = d.labels(dst)
	return append(dst, "</svg>"...)
}

type section struct {
	t     trade.Section
	k     float64
	box   box
	ply   float64 // how thick a layer is drawn
	style measure.Style
	rows  []place // where the numbers of rows stand
	dims  []place
	names []named // where the names of layers stand
}

type place struct{ x, y float64 }

type named struct {
	place
	anchor byte
	words  string
}

func newSection(t trade.Section, style measure.Style) *section {
	d := &section{t: t, style: style}
	wide, high := t.Max.X-t.Min.X, t.Max.Y-t.Min.Y
	d.k = min(sectionWide/max(wide, 1), sectionHigh/max(high, 1), mostEnlarged)
	d.ply = max(t.Ply*d.k*plyShare, 10)
	x0, y0 := d.at(t.Min)
	x1, y1 := d.at(t.Max)
	d.box = box{x0, y1, x1, y0}
	d.box.add(x0-d.ply, y0+d.ply)
	d.box.add(x1+d.ply, y1-d.ply)
	d.placeRows()
	d.placeDims()
	d.placeNames()
	d.box.left -= margin
	d.box.right += margin
	d.box.top -= margin
	d.box.bottom += margin
	return d
}

func (d *section) at(p trade.Pt) (x, y float64) { return p.X * d.k, -p.Y * d.k }

func (d *section) grow(x, y, wide float64, anchor byte) {
	switch anchor {
	case 'm':
		x -= wide / 2
	case 'e':
		x -= wide
	}
	d.box.add(x, y-textHeight)
	d.box.add(x+wide, y+textHeight*0.35)
}

// placeRows puts each row's number beyond the end of its first stitch.
func (d *section) placeRows() {
	d.rows = make([]place, len(d.t.Stitches))
	for i, st := range d.t.Stitches {
		if i > 0 && d.t.Stitches[i-1].Row == st.Row {
			d.rows[i] = place{math.NaN(), 0}
			continue
		}
		x, y := d.at(st.From)
		x2, y2 := d.at(st.To)
		dx, dy := x-x2, y-y2
		if l := math.Sqrt(dx*dx + dy*dy); l > 0 {
			dx, dy = dx/l, dy/l
		}
		d.rows[i] = place{x + dx*textHeight*0.8, y + dy*textHeight*0.8 + textHeight*0.35}
		if math.Abs(dx) > math.Abs(dy) { // a thread that lies level: its number above the layer
			d.rows[i] = place{(x + x2) / 2, min(y, y2) - d.ply - 4}
		}
		d.grow(d.rows[i].x, d.rows[i].y, textWide, 'm')
	}
}

// placeDims finds the places of the words of measured distances.
func (d *section) placeDims() {
	d.dims = make([]place, len(d.t.Dims))
	for i, m := range d.t.Dims {
		x, y := d.at(m.From)
		x2, y2 := d.at(m.To)
		d.box.add(x, y+tick)
		d.box.add(x2, y2-tick)
		d.dims[i] = place{(x + x2) / 2, (y+y2)/2 - tick - 6}
		if x == x2 { // upright
			d.dims[i] = place{x + gap, (y + y2) / 2}
			d.grow(d.dims[i].x, d.dims[i].y, letters(d.dimWords(m))*textWide, 0)
			continue
		}
		if m.From.Y <= (d.t.Min.Y+d.t.Max.Y)/2 { // below the layers: words below too
			d.dims[i].y += 2*(tick+6) + textHeight*0.72
		}
		d.grow(d.dims[i].x, d.dims[i].y, letters(d.dimWords(m))*textWide, 'm')
	}
}

// placeNames names each sort of layer once, at the end where it goes on.
func (d *section) placeNames() {
	seen := map[trade.Role]bool{}
	for _, l := range d.t.Layers {
		if seen[l.Role] || len(l.Path) < 2 {
			continue
		}
		seen[l.Role] = true
		end, before := l.Path[0], l.Path[1]
		if l.Start != trade.GoesOn && l.End == trade.GoesOn {
			end, before = l.Path[len(l.Path)-1], l.Path[len(l.Path)-2]
		}
		x, y := d.at(end)
		n := named{place{x + gap, y - d.ply/2 - gap}, 0, roleWords(l.Role)}
		if end.X > before.X {
			n.x, n.anchor = x-gap, 'e'
		}
		if l.Start != trade.GoesOn && l.End != trade.GoesOn {
			d.beside(&n, l.Path)
		}
		d.names = append(d.names, n)
		d.grow(n.x, n.y, letters(n.words)*smallWide, n.anchor)
	}
	for _, l := range d.t.Labels {
		x, y := d.at(l.At)
		d.grow(x, y, letters(l.Text)*smallWide, 0)
	}
}

// beside puts the name of a layer that lies within the seam, as a strip does,
// to the left or the right of all of it, where nothing else lies there.
func (d *section) beside(n *named, path []trade.Pt) {
	left, right := path[0], path[0]
	for _, q := range path {
		if q.X < left.X {
			left = q
		}
		if q.X > right.X {
			right = q
		}
	}
	wide := letters(n.words) * smallWide
	x, y := d.at(left)
	x -= d.ply/2 + gap
	if d.free(x-wide, x, y) {
		n.place, n.anchor = place{x, y + textHeight*0.3}, 'e'
		return
	}
	x, y = d.at(right)
	x += d.ply/2 + gap
	if d.free(x, x+wide, y) {
		n.place, n.anchor = place{x, y + textHeight*0.3}, 0
	}
}

// free reports whether no layer comes near a word about the height y.
func (d *section) free(from, to, y float64) bool {
	near := d.ply/2 + textHeight/2
	for _, l := range d.t.Layers {
		for i := 1; i < len(l.Path); i++ {
			ax, ay := d.at(l.Path[i-1])
			bx, by := d.at(l.Path[i])
			if max(ax, bx) > from && min(ax, bx) < to && max(ay, by) > y-near && min(ay, by) < y+near {
				return false
			}
		}
	}
	return true
}

func roleWords(r trade.Role) string {
	switch r {
	case trade.ClothA:
		return "first piece"
	case trade.ClothB:
		return "second piece"
	case trade.Tape:
		return "strip"
	case trade.Facing:
		return "facing"
	}
	return string(r)
}

func roleClass(r trade.Role) string {
	switch r {
	case trade.ClothA:
		return "one"
	case trade.ClothB:
		return "two"
	case trade.Cord:
		return "cord"
	case trade.Braid:
		return "cord"
	}
	return "strip"
}

// layer draws a ply as a ribbon: its edge, and inside it its body.
func (d *section) layer(dst []byte, l *trade.Layer) []byte {
	if len(l.Path) == 0 {
		return dst
	}
	p := pen{}
	for i, q := range d.thinned(l.Path) {
		if i == 0 {
			p.move(d.at(q))
		} else {
			p.line(d.at(q))
		}
	}
	if l.End == trade.Closed {
		p.close()
	}
	for _, part := range []struct {
		class string
		wide  float64
	}{{"ply edge", d.ply}, {"ply " + roleClass(l.Role), d.ply - 6}} {
		dst = append(append(dst, `<path class="`...), part.class...)
		dst = appendInt(append(dst, `" stroke-width="`...), whole(part.wide))
		dst = append(append(dst, `" d="`...), p.dst...)
		dst = append(dst, `"/>`...)
	}
	return dst
}

// thinned leaves out points that do not change the line.
func (d *section) thinned(path []trade.Pt) []trade.Pt {
	ring := make(shape.Ring, len(path))
	for i, q := range path {
		ring[i] = shape.Point{X: q.X, Y: q.Y}
	}
	keep := make([]bool, len(path))
	keep[0], keep[len(path)-1] = true, true
	limit := straighten / d.k
	spans := [][2]int{{0, len(path) - 1}}
	for len(spans) > 0 {
		last := spans[len(spans)-1]
		spans = spans[:len(spans)-1]
		if worst := bulge(ring, last[0], last[1], limit*limit); worst > 0 {
			keep[worst] = true
			spans = append(spans, [2]int{last[0], worst}, [2]int{worst, last[1]})
		}
	}
	out := path[:0:0]
	for i, k := range keep {
		if k {
			out = append(out, path[i])
		}
	}
	return out
}

// ends draws how each layer ends: cut, pinked, woven, or going on.
func (d *section) ends(dst []byte) []byte {
	p := pen{dst: append(dst, `<path class="ends" d="`...)}
	for _, l := range d.t.Layers {
		n := len(l.Path)
		if n < 2 || l.End == trade.Closed {
			continue
		}
		d.end(&p, l.Path[0], l.Path[1], l.Start)
		d.end(&p, l.Path[n-1], l.Path[n-2], l.End)
	}
	return append(p.dst, `"/>`...)
}

// end draws one end of a layer that comes from the point before.
func (d *section) end(p *pen, end, before trade.Pt, how trade.End) {
	x, y := d.at(end)
	bx, by := d.at(before)
	ux, uy := x-bx, y-by
	l := math.Sqrt(ux*ux + uy*uy)
	if l == 0 {
		return
	}
	ux, uy = ux/l, uy/l
	at := func(along, aside float64) (float64, float64) { return x + ux*along - uy*aside, y + uy*along + ux*aside }
	half := d.ply / 2
	switch how {
	case trade.GoesOn: // a wave across: the cloth goes on
		p.move(at(0, -half-8))
		x1, y1 := at(12, -half*0.4)
		x2, y2 := at(-12, half*0.4)
		x3, y3 := at(0, half+8)
		p.curve(x1, y1, x2, y2, x3, y3)
	case trade.RawEdge: // threads stand out
		for _, aside := range []float64{-0.7, 0, 0.7} {
			p.move(at(0, aside*half))
			p.line(at(fray, aside*half))
		}
	case trade.Pinked:
		p.move(at(0, -half))
		p.line(at(fray, -half/2))
		p.line(at(0, 0))
		p.line(at(fray, half/2))
		p.line(at(0, half))
	case trade.Selvedge:
		p.move(at(0, -half))
		p.line(at(0, half))
		p.move(at(6, -half))
		p.line(at(6, half))
	}
}

// stitches draws the threads and the numbers of their rows.
func (d *section) stitches(dst []byte) []byte {
	for i, st := range d.t.Stitches {
		class := "thread"
		if st.Temporary {
			class = "thread basting"
		}
		p := pen{dst: append(append(append(dst, `<path class="`...), class...), `" d="`...)}
		if len(st.Round) > 0 {
			p.move(d.at(st.Round[0]))
			for _, q := range st.Round[1:] {
				p.line(d.at(q))
			}
		} else {
			p.move(d.at(st.From))
			p.line(d.at(st.To))
		}
		dst = append(p.dst, `"/>`...)
		if r := d.rows[i]; !math.IsNaN(r.x) {
			dst = text(dst, "row", 'm', r.x, r.y, strconv.Itoa(st.Row))
		}
	}
	return dst
}

// measures draws the measured distances.
func (d *section) measures(dst []byte) []byte {
	if len(d.t.Dims) == 0 {
		return dst
	}
	p := pen{dst: append(dst, `<path class="grain" d="`...)}
	for _, m := range d.t.Dims {
		x, y := d.at(m.From)
		x2, y2 := d.at(m.To)
		ux, uy := x2-x, y2-y
		l := math.Sqrt(ux*ux + uy*uy)
		if l == 0 {
			continue
		}
		ux, uy = ux/l, uy/l
		p.move(x-uy*tick, y+ux*tick)
		p.line(x+uy*tick, y-ux*tick)
		p.move(x2-uy*tick, y2+ux*tick)
		p.line(x2+uy*tick, y2-ux*tick)
		p.move(x, y)
		p.line(x2, y2)
		if l > 3*arrowLong {
			p.arrow(x, y, -ux, -uy)
			p.arrow(x2, y2, ux, uy)
		}
	}
	dst = append(p.dst, `"/>`...)
	for i, m := range d.t.Dims {
		anchor := byte('m')
		if m.From.X == m.To.X {
			anchor = 0
		}
		dst = text(dst, "", anchor, d.dims[i].x, d.dims[i].y, d.dimWords(m))
	}
	return dst
}

// dimWords is the name of a measured distance with its value.
func (d *section) dimWords(m trade.Dim) string {
	v := d.style.Length(measure.MM(m.Value))
	if m.Name == "" {
		return v
	}
	return m.Name + " " + v
}

func (d *section) labels(dst []byte) []byte {
	for _, n := range d.names {
		dst = text(dst, "small", n.anchor, n.x, n.y, n.words)
	}
	for _, l := range d.t.Labels {
		x, y := d.at(l.At)
		dst = text(dst, "small", 0, x, y, l.Text)
	}
	return dst
}
