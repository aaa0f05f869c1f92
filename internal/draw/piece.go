package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/figure"
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

// Piece draws a pattern piece, to scale: its cut line, sewing line, darts,
// levels, fold, grain and the names of its edges with their allowances.
func Piece(p *garment.Piece, style PieceStyle) *drawing.Drawing {
	least, most := p.Bounds()
	d := newPiece(p, least, most, style)
	d.Title, d.Desc = d.title(), d.desc()
	bar := barFor(d.Box.Right, d.f.K, style.Measure)
	d.labelEdges()
	d.Box.Left -= margin
	d.Box.Top -= margin
	d.Box.Right = max(d.Box.Right+margin, bar.wide())
	barY := d.Box.Bottom + barTop
	d.Box.Bottom = barY + smallHeight/2 + margin/2

	pieceLines(d.Drawing, d.f, p)
	d.marks()
	d.words()
	bar.draw(d.Drawing, 0, barY)
	return d.Drawing
}

// A pieceDrawing is one piece being drawn.
type pieceDrawing struct {
	*drawing.Drawing
	p      *garment.Piece
	f      drawing.Frame
	style  PieceStyle
	mid    stretch
	labels []edgeLabel
}

// newPiece begins a drawing of a piece that lies between two corners.
func newPiece(p *garment.Piece, least, most shape.Point, style PieceStyle) *pieceDrawing {
	d := &pieceDrawing{Drawing: drawing.New("piece"), p: p, style: style, f: drawing.Frame{Left: least.X, Top: most.Y, K: 1 / style.Scale}}
	d.Box.Right, d.Box.Bottom = d.f.At(shape.Point{X: most.X, Y: least.Y})
	d.mid = d.middleStretch()
	return d
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
func (d *pieceDrawing) number(f figure.Figure) string {
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

// pieceLines draws the cut line and the sewing line.
func pieceLines(d *drawing.Drawing, f drawing.Frame, p *garment.Piece) {
	if len(p.Cut.Ring) > 0 {
		cut := d.Draw(drawing.CutLine).Thinned(f, p.Cut.Ring)
		for _, hole := range p.Cut.Holes {
			cut.Thinned(f, hole)
		}
	}
	if len(p.Outline.Edges) > 0 {
		d.Draw(drawing.SewLine).Outline(f, p.Outline)
	}
}

// words writes the piece's name in its middle and the edges' names about it.
func (d *pieceDrawing) words() {
	d.name()
	for _, l := range d.p.AtLevels {
		spans := d.p.Outline.WidthsAt(l.Y)
		if len(spans) == 0 || spans[0].Width()*d.f.K < letters(l.Level)*smallWide+2*gap {
			continue
		}
		x, y := d.f.At(shape.Point{X: spans[0].To, Y: l.Y})
		say(d.Drawing, drawing.Small, drawing.End, x-gap, y-0.5, l.Level)
	}
	for _, l := range d.labels {
		d.Say(drawing.Label{X: l.x, Y: l.y, Words: l.name, Aside: l.allowance, Anchor: drawing.Middle})
	}
}
