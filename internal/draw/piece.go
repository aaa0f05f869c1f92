package draw

import (
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
	least, most := p.Bounds()
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

type pieceDrawing struct {
	p      *garment.Piece
	s      sheet
	style  PieceStyle
	box    box
	mid    stretch
	barY   float64
	labels []edgeLabel
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
	pen.outline(d.s, o)
	return append(pen.dst, `"/>`...)
}

// outline draws a whole outline.
func (p *pen) outline(s sheet, o shape.Outline) {
	p.move(s.at(o.From))
	for _, e := range o.Edges {
		x, y := s.at(e.To)
		if e.Curved {
			x1, y1 := s.at(e.C1)
			x2, y2 := s.at(e.C2)
			p.curve(x1, y1, x2, y2, x, y)
			continue
		}
		p.line(x, y)
	}
	p.close()
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
