// Package pattern draws the pieces of a garment as one cuts them from paper:
// at full size over as many sheets as they need, or to a scale.
//
// It promises true measures: a drawing's millimetre is a millimetre of the
// piece, divided by the scale. Every piece has its cut line and sewing line,
// darts, levels, notches where darts and levels meet its edge, grain, fold,
// name, and how often it is cut. What is not known of a piece is said, never
// guessed; no notch stands where the record gives no reason for one.
//
// It derives no figures and writes no files.
package pattern

import (
	"math"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/paper"
	"hembook/internal/shape"
)

// Style says how pieces are drawn.
type Style struct {
	Scale   float64 // millimetres of the piece for one on paper; 0 for 1
	Measure measure.Style
	Build   string // the garment's name, written on each piece; may be empty
}

// Lines, in millimetres on paper, and letters, in points. The notebook's
// drawings have the same lines.
const (
	cutWeight   = 0.4
	sewWeight   = 0.26
	markWeight  = 0.2
	levelWeight = 0.16
	rim         = 1.0 // free about a drawing, so that no line is cut in half
	notchLong   = 6.0
	arrowLong   = 3.5
	crossHalf   = 1.6
	foldInset   = 9.0
	edgeText    = 8.0
	nameText    = 16.0
	smallText   = 9.0
	leastText   = 5.0
	labelEvery  = 320.0 // an edge is named again after so much, so that each sheet knows it
)

var (
	sewDash   = []float64{2.4, 1.4}
	levelDash = []float64{4, 1.2, 0.6, 1.2}
)

// Known reports whether a piece can be drawn, and why not.
func Known(p *garment.Piece) (why string, ok bool) {
	if len(p.Outline.Edges) > 0 {
		return "", true
	}
	why = p.Height.Value.Why
	if why == "" {
		why = "it has no outline"
	}
	return why, false
}

// Draw is a piece as it is cut: one half of it where it is cut on the fold.
// Area is the outline of what is cut, in the drawing.
func Draw(p *garment.Piece, style Style) (d paper.Drawing, area []paper.Point) {
	if style.Scale <= 0 {
		style.Scale = 1
	}
	w := &work{p: p, style: style, k: 1 / style.Scale}
	least, most := p.Bounds()
	w.left, w.top = least.X, most.Y
	w.d = paper.Drawing{Wide: (most.X-least.X)*w.k + 2*rim, High: (most.Y-least.Y)*w.k + 2*rim, Alt: altOf(p)}
	if len(p.Outline.Edges) == 0 {
		return w.d, nil
	}
	w.lines()
	w.levels()
	w.darts()
	w.notches()
	w.folds()
	w.grainAndName()
	w.edgeNames()
	return w.d, w.area()
}

// A work is one piece being drawn.
type work struct {
	p         *garment.Piece
	style     Style
	k         float64 // paper for one millimetre of the piece
	left, top float64
	d         paper.Drawing
	flat      shape.Ring // the sewing line in straight stretches
	flatOf    []int      // and the edge of each
}

// at is a place of the piece in the drawing; y runs down there.
func (w *work) at(q shape.Point) (x, y float64) {
	return (q.X-w.left)*w.k + rim, (w.top-q.Y)*w.k + rim
}

func (w *work) draw(p paper.Path, pen paper.Pen) {
	if len(p.Steps) > 0 {
		p.Pen = pen
		w.d.Marks = append(w.d.Marks, p)
	}
}

func (w *work) say(l paper.Label) {
	if l.Text != "" && l.Size >= leastText {
		w.d.Marks = append(w.d.Marks, l)
	}
}

// ring adds a closed line.
func (w *work) ring(to *paper.Path, r shape.Ring) {
	for i, q := range r {
		x, y := w.at(q)
		if i == 0 {
			to.Move(x, y)
		} else {
			to.Line(x, y)
		}
	}
	if len(r) > 0 {
		to.Close()
	}
}

// lines draws the line that is cut and the line that is sewn.
func (w *work) lines() {
	var cut, sew paper.Path
	w.ring(&cut, w.p.Cut.Ring)
	for _, hole := range w.p.Cut.Holes {
		w.ring(&cut, hole)
	}
	w.draw(cut, paper.Pen{Weight: cutWeight, Ink: paper.Dark})
	o := w.p.Outline
	x, y := w.at(o.From)
	sew.Move(x, y)
	for _, e := range o.Edges {
		x, y := w.at(e.To)
		if e.Curved {
			x1, y1 := w.at(e.C1)
			x2, y2 := w.at(e.C2)
			sew.Curve(x1, y1, x2, y2, x, y)
		} else {
			sew.Line(x, y)
		}
	}
	sew.Close()
	w.draw(sew, paper.Pen{Weight: sewWeight, Ink: paper.Thread, Dash: sewDash})
}

// area is what is cut, in the drawing.
func (w *work) area() []paper.Point {
	ring := w.p.Cut.Ring
	if len(ring) < 3 {
		ring, _ = w.p.Outline.Flatten(0.1)
	}
	out := make([]paper.Point, len(ring))
	for i, q := range ring {
		out[i].X, out[i].Y = w.at(q)
	}
	return out
}

// widest is the widest stretch of a piece near half its height, and how high
// the piece is there.
func (w *work) widest() (span shape.Span, y, high float64) {
	least, most := w.p.Outline.Bounds()
	for _, part := range []float64{0.5, 0.42, 0.58, 0.34, 0.66} {
		at := least.Y + (most.Y-least.Y)*part
		for _, s := range w.p.Outline.WidthsAt(at) {
			if s.Width() > span.Width()*1.15 {
				span, y = s, at
			}
		}
	}
	if span.Width() <= 0 {
		span, y = shape.Span{From: least.X, To: most.X}, (least.Y+most.Y)/2
	}
	return span, y, most.Y - least.Y
}

// unit is a vector's direction.
func unit(v shape.Point) shape.Point {
	far := math.Sqrt(float64(v.X*v.X) + float64(v.Y*v.Y))
	if far == 0 {
		return shape.Point{X: 1}
	}
	return shape.Point{X: v.X / far, Y: v.Y / far}
}

// outward is square to the way an outline runs, away from the piece: the
// inside lies to the left.
func outward(along shape.Point) shape.Point { return shape.Point{X: along.Y, Y: -along.X} }

func plus(a, b shape.Point, k float64) shape.Point {
	return shape.Point{X: a.X + float64(b.X*k), Y: a.Y + float64(b.Y*k)}
}
