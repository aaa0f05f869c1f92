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
		if d.has(PleatWords) {
			d.pleatWords(outer, place)
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

// pleatWords says along both lines of a fold what is done there.
func (d *pieceDrawing) pleatWords(outer, place shape.Line) {
	for _, one := range []struct {
		line  shape.Line
		words string
	}{{outer, "fold"}, {place, say.Of("draw.to-here")}} {
		ax, ay := d.f.At(one.line[0])
		bx, by := d.f.At(one.line[len(one.line)-1])
		long := math.Hypot(bx-ax, by-ay)
		if long < 40 {
			return
		}
		if bx < ax-1e-9 || math.Abs(bx-ax) < 1e-9 && by > ay { // read from below, or from the right
			ax, ay, bx, by = bx, by, ax, ay
		}
		part := 0.4
		x, y := ax+float64((bx-ax)*part), ay+float64((by-ay)*part)
		turn := -math.Atan2(by-ay, bx-ax) * 180 / math.Pi
		ux, uy := (bx-ax)/long, (by-ay)/long
		d.Say(drawing.Label{X: x + uy*1, Y: y - ux*1, Words: one.words, Voice: drawing.Small, Anchor: drawing.Middle, Turn: turn})
	}
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
