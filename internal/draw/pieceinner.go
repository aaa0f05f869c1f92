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
		if l.Laid {
			continue
		}
		if d.has(Named) {
			d.Named(lineMeaning(l), spelt(l)).Lines(d.f, l.Points)
			continue
		}
		d.Draw(lineMeaning(l)).Lines(d.f, l.Points)
		if l.Slit {
			d.slitEnds(l.Points)
		}
		if d.has(InnerWords) && !d.has(Label) { // else once all lines are there
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
	d.wordsAlong(l.Points, l.Name, 0.62)
}

// wordsAlong says words part of the way along a line, where it is long enough for them.
func (d *pieceDrawing) wordsAlong(l shape.Line, words string, part float64) {
	label := drawing.Label{Words: words, Voice: drawing.Small}
	if l.Length()*d.f.K >= d.wide(label)*1.1 {
		d.Say(d.alongLine(label, l, part, besideLine))
	}
}

// innerNames says along each line, at full size, what it is and how long; less where there is
// room for less.
func (d *pieceDrawing) innerNames() {
	for i := range d.p.Lines {
		if l := &d.p.Lines[i]; !l.Laid {
			d.nameAlong(l.Points, d.innerSaid(l))
		}
	}
}

// nameAlong says along a line the first of what can be said of it for which there is room,
// the most first.
func (d *pieceDrawing) nameAlong(l shape.Line, said []string) {
	c := choice{bad: math.MaxInt}
	for _, words := range said {
		if d.innerPlace(&c, l, words) {
			break
		}
	}
	if c.bad < wordsWorse { // words on words are read by nobody
		d.sayAll(c.labels...)
	}
}

// innerSaid is what can be said of a line, the most first. How far it is round something
// tells nobody anything.
func (d *pieceDrawing) innerSaid(l *garment.PieceLine) []string {
	whole, what := l.Name, l.Says()
	if !closed(l.Points) {
		whole += " · " + d.number(l.Length)
	}
	if what == "" {
		return []string{whole, l.Name}
	}
	return []string{whole + " · " + what, l.Name + " · " + what, l.Name}
}

// closed reports whether a line ends where it begins.
func closed(l shape.Line) bool { return l[0].Apart(l[len(l)-1]) < 1e-6 }

// innerPlace looks for a place for words along a line that nothing meets.
func (d *pieceDrawing) innerPlace(c *choice, l shape.Line, words string) (clear bool) {
	label := drawing.Label{Words: words, Voice: drawing.Small}
	wide, long := d.wide(label), l.Length()*d.f.K
	if wide*1.1 > long {
		return false
	}
	for _, off := range []float64{besideLine, -besideLine, 3 * besideLine, -3 * besideLine, 7 * besideLine, -7 * besideLine} {
		for _, part := range []float64{0.62, 0.5, 0.38, 0.75, 0.25, 0.88, 0.12} {
			if room := long * min(part, 1-part); room < wide/2 {
				continue
			}
			if d.try(c, d.alongLine(label, l, part, off)) {
				return true
			}
		}
	}
	return false
}

const besideLine = 1 // mm, between a line and the words along it

// alongLine has a label stand along a line, part of the way along it, so far beside it: on
// the upper side of its letters, or below them where that is less than nothing.
func (d *pieceDrawing) alongLine(label drawing.Label, l shape.Line, part, off float64) drawing.Label {
	at, way := l.At(l.Length() * part)
	ux, uy := way.X, -way.Y // y runs down in drawings
	if ux < -1e-9 || math.Abs(ux) < 1e-9 && uy > 0 {
		ux, uy = -ux, -uy // read from below, or from the right
	}
	if off < 0 {
		off -= d.size(label) * lettersUp
	}
	x, y := d.f.At(at)
	label.X, label.Y, label.Anchor = x+uy*off, y-ux*off, drawing.Middle
	label.Turn = -math.Atan2(uy, ux) * 180 / math.Pi
	return label
}
