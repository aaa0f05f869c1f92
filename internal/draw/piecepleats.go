package draw

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// arrowsAt is where along a pleat's lines its arrow stands.
const arrowsAt = 0.25

// pleats draws of every fold the line it is folded at, the line behind, and the place it
// is laid on, with an arrow from the fold to its place; and how far it is stitched.
func (d *pieceDrawing) pleats() {
	if d.has(Named) {
		d.namedPleats()
		return
	}
	for i := range d.p.PleatFolds {
		q := &d.p.PleatFolds[i]
		place, outer, inner := q.Drawn(q.Lines.Place), q.Drawn(q.Lines.Outer), q.Drawn(q.Lines.Inner)
		if !d.samePlace(i) {
			d.Draw(drawing.PleatPlace).Lines(d.f, place)
		}
		fold := d.Draw(drawing.PleatFold).Lines(d.f, outer)
		fold.Lines(d.f, inner)
		d.laid(fold, outer, place)
		if q.Stitched > 0 {
			d.stitchedDown(q)
		}
	}
}

// samePlace reports whether the fold before is laid on the same line, as those of an
// inverted pleat are.
func (d *pieceDrawing) samePlace(i int) bool {
	return i > 0 && d.p.PleatFolds[i-1].Lines.Place[0].Apart(d.p.PleatFolds[i].Lines.Place[0]) < 1e-6
}

// laid is the arrow from a fold to the place it is laid on.
func (d *pieceDrawing) laid(p *drawing.Path, outer, place shape.Line) {
	ax, ay := d.f.At(pointOf(outer, arrowsAt))
	bx, by := d.f.At(pointOf(place, arrowsAt))
	long := math.Hypot(bx-ax, by-ay)
	if long < 1e-9 {
		return
	}
	ux, uy := (bx-ax)/long, (by-ay)/long
	p.Move(ax, ay).Line(bx, by).Arrow(bx, by, ux, uy, min(d.hand.arrow, long/2))
}

// stitchedDown draws the row that holds a fold to its place, on both lines, and a stroke
// from one to the other where it ends.
func (d *pieceDrawing) stitchedDown(q *garment.PleatFold) {
	place, outer := q.Sewn(q.Lines.Place), q.Sewn(q.Lines.Outer)
	d.Draw(drawing.PleatSewn).Lines(d.f, place).Lines(d.f, outer)
	if !q.Whole {
		d.Draw(drawing.PleatFold).Lines(d.f, []shape.Point{place[len(place)-1], outer[len(outer)-1]})
	}
}

// pleatNames says along both lines of each fold what is done there; once where two folds
// are laid on one line.
func (d *pieceDrawing) pleatNames() {
	var places []shape.Point
	for i := range d.p.PleatFolds {
		q := &d.p.PleatFolds[i]
		d.pleatWords(q.Drawn(q.Lines.Outer), say.Of("draw.fold"))
		at := q.Lines.Place[0]
		if slices.ContainsFunc(places, func(p shape.Point) bool { return p.Apart(at) < 1 }) {
			continue
		}
		places = append(places, at)
		d.pleatWords(q.Drawn(q.Lines.Place), say.Of("draw.to-here"))
	}
}

// pleatWords says along a line of a fold what is done there, where it is long enough.
func (d *pieceDrawing) pleatWords(l shape.Line, words string) {
	const least = 40
	if l.Length()*d.f.K < least {
		return
	}
	var c choice
	for _, part := range []float64{0.4, 0.5, 0.6, 0.3, 0.7, 0.2, 0.8} {
		for _, off := range []float64{besideLine, -besideLine} {
			if d.try(&c, d.alongLine(drawing.Label{Words: words, Voice: drawing.Small}, l, part, off)) {
				d.sayAll(c.labels...)
				return
			}
		}
	}
	d.sayAll(c.labels...)
}

// pointOf is a point part of the way along a line.
func pointOf(l shape.Line, part float64) shape.Point {
	at, _ := l.At(part * l.Length())
	return at
}

func backward(l shape.Line) shape.Line {
	out := slices.Clone(l)
	slices.Reverse(out)
	return out
}

// namedPleats draws each fold as one line that a file can hold and be read from: from
// the edge along its place, over to its fold, and back to the edge.
func (d *pieceDrawing) namedPleats() {
	n := 0 // both folds of one pleat have one name
	for i := range d.p.PleatFolds {
		q := &d.p.PleatFolds[i]
		if last := i - 1; last < 0 || d.p.PleatFolds[last].Record != q.Record || d.p.PleatFolds[last].Nth != q.Nth {
			n++
		}
		back := backward(q.Lines.Outer)
		if q.Taper.RunsOut() {
			back = back[1:] // both end in one point
		}
		d.Named(drawing.PleatFold, say.Of("draw.pleat", strconv.Itoa(n))).Lines(d.f, slices.Concat(q.Lines.Place, back))
	}
}
