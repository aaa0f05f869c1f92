package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// lineMeaning is how a line on a piece is drawn.
func lineMeaning(l *garment.PieceLine) drawing.Meaning {
	switch {
	case l.Slit:
		return drawing.SlitLine
	case l.Fold:
		return drawing.CreaseLine
	}
	return drawing.InnerLine
}

// inner draws the lines on a piece, each with its name along it.
func (d *pieceDrawing) inner() {
	for i := range d.p.Lines {
		l := &d.p.Lines[i]
		if d.has(Named) {
			d.Named(lineMeaning(l), spelt(l)).Lines(d.f, l.Points)
			continue
		}
		d.Draw(lineMeaning(l)).Lines(d.f, l.Points)
		if l.Slit {
			d.slitEnds(l.Points)
		}
		if d.has(InnerWords) {
			d.innerWords(l)
		}
	}
}

// spelt is the name by which a file has a line, so that it is read again as what it is.
func spelt(l *garment.PieceLine) string {
	of := trace.InnerLine
	switch {
	case l.Slit:
		of = trace.SlitLine
	case l.Fold:
		of = trace.Crease
	}
	return trace.SpellLine(l.Name, of)
}

// slitEnds draws a stroke across each end of a slit that lies within the piece: it is cut
// so far and no farther.
func (d *pieceDrawing) slitEnds(l shape.Line) {
	long := l.Length()
	for _, s := range [...]float64{0, long} {
		at, way := l.At(s)
		if d.onOutline(at) {
			continue
		}
		x, y := d.f.At(at)
		h := d.hand.cross
		d.Draw(drawing.SlitLine).Move(x-way.Y*h, y-way.X*h).Line(x+way.Y*h, y+way.X*h)
	}
}

func (d *pieceDrawing) onOutline(p shape.Point) bool {
	for _, s := range d.p.Outline.Sides() {
		if _, ok := d.p.Outline.MetBy(s.Name, shape.Line{p, p}); ok {
			return true
		}
	}
	return false
}

// innerWords says along a line what it is, where it is long enough for that.
func (d *pieceDrawing) innerWords(l *garment.PieceLine) {
	words := l.Name
	if d.has(Label) { // at full size
		words += " · " + d.number(l.Length)
		if what := l.Says(); what != "" {
			words += " · " + what
		}
	}
	label := drawing.Label{Words: words, Voice: drawing.Small, Anchor: drawing.Middle}
	long := l.Points.Length()
	wide := letters(words) * smallWide
	if d.style.Wide != nil {
		wide = d.style.Wide(label)
	}
	if long*d.f.K < wide*1.1 {
		return
	}
	at, way := l.Points.At(long * 0.62)
	ux, uy := way.X, -way.Y // y runs down in drawings
	if ux < -1e-9 || math.Abs(ux) < 1e-9 && uy > 0 {
		ux, uy = -ux, -uy // read from below, or from the right
	}
	x, y := d.f.At(at)
	const off = 1 // mm off the line
	label.X, label.Y = x+uy*off, y-ux*off
	label.Turn = -math.Atan2(uy, ux) * 180 / math.Pi
	d.Say(label)
}
