package draw

import (
	"math"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// area draws a closed outline, cut off at the ends of the row.
func (d *layDrawing) area(m drawing.Meaning, r int, outline []shape.Point) {
	from, to := d.span(r)
	if ring := within(outline, from, to); len(ring) >= 3 {
		d.Draw(m).Thinned(d.frame(r), upright(ring))
	}
}

// piece draws a cut piece. One that goes on in another row has no line where
// it is broken.
func (d *layDrawing) piece(r int, q *cutting.Position) {
	from, to := d.span(r)
	if q.EndTo <= from || q.End >= to {
		return
	}
	if q.End >= from-1e-6 && q.EndTo <= to+1e-6 {
		d.area(drawing.CutLine, r, q.Outline)
		return
	}
	d.area(drawing.PieceArea, r, q.Outline)
	f := d.frame(r)
	p := d.Draw(drawing.PieceEdge)
	var last shape.Point
	begun := false
	for i, a := range q.Outline {
		b := q.Outline[(i+1)%len(q.Outline)]
		a, b, ok := between(a, b, from, to)
		if !ok {
			begun = false
			continue
		}
		if !begun || a != last {
			p.Move(f.At(shape.Point{X: a.X, Y: -a.Y}))
		}
		p.Line(f.At(shape.Point{X: b.X, Y: -b.Y}))
		last, begun = b, true
	}
}

// between is the part of a line that lies between two places along the cloth.
func between(a, b shape.Point, from, to float64) (shape.Point, shape.Point, bool) {
	at := func(x float64) shape.Point {
		t := (x - a.X) / (b.X - a.X)
		return shape.Point{X: x, Y: a.Y + float64(t*(b.Y-a.Y))}
	}
	p, q := a, b
	switch {
	case max(a.X, b.X) < from, min(a.X, b.X) > to:
		return a, b, false
	case a.X == b.X:
		return a, b, true
	}
	if p.X < from {
		p = at(from)
	} else if p.X > to {
		p = at(to)
	}
	if q.X < from {
		q = at(from)
	} else if q.X > to {
		q = at(to)
	}
	return p, q, p != q
}

// within is the part of an outline that lies between two places along the
// cloth (the method of Sutherland and Hodgman, 1974).
func within(ring []shape.Point, from, to float64) []shape.Point {
	keep := func(ring []shape.Point, inside func(shape.Point) bool, x float64) []shape.Point {
		var out []shape.Point
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if inside(a) {
				out = append(out, a)
			}
			if inside(a) != inside(b) {
				t := (x - a.X) / (b.X - a.X)
				out = append(out, shape.Point{X: x, Y: a.Y + float64(t*(b.Y-a.Y))})
			}
		}
		return out
	}
	ring = keep(ring, func(q shape.Point) bool { return q.X >= from }, from)
	return keep(ring, func(q shape.Point) bool { return q.X <= to }, to)
}

// A spot is a place for words in an outline.
type spot struct {
	at   shape.Point
	free float64 // mm to the nearest edge
}

// roomiest is the place in an outline farthest from its edges, of a grid of
// places.
func roomiest(ring []shape.Point) spot {
	least, most := shape.Ring(ring).Bounds()
	best := spot{at: shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}}
	const steps = 16
	const alike = 1e-6 // of places alike the first, on any processor
	for i := 1; i < steps; i++ {
		for k := 1; k < steps; k++ {
			q := shape.Point{X: least.X + (most.X-least.X)*float64(i)/steps, Y: least.Y + (most.Y-least.Y)*float64(k)/steps}
			if !shape.Ring(ring).Contains(q) {
				continue
			}
			if free := toEdge(ring, q, best.free+alike); free > best.free+alike {
				best = spot{q, free}
			}
		}
	}
	return best
}

// toEdge is how far a point lies from an outline; it stops below enough.
func toEdge(ring []shape.Point, q shape.Point, enough float64) float64 {
	least := math.Inf(1)
	for i, a := range ring {
		if least = min(least, fromStretch(q, a, ring[(i+1)%len(ring)])); least <= enough {
			return least
		}
	}
	return least
}

// chord is how wide an outline is at a point, along the cloth, in mm to both
// sides of it.
func chord(ring []shape.Point, q shape.Point) (before, after float64) {
	before, after = math.Inf(1), math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > q.Y) == (b.Y > q.Y) {
			continue
		}
		x := a.X + float64((q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		if x <= q.X {
			before = min(before, q.X-x)
		} else {
			after = min(after, x-q.X)
		}
	}
	return before, after
}

// words writes a piece's number, name and distances, as far as they fit, and
// its grain.
func (d *layDrawing) words(r, i int) {
	q, s := &d.l.Chalked[i], d.spots[i]
	x, y := d.frame(r).At(shape.Point{X: s.at.X, Y: -s.at.Y})
	before, after := chord(q.Outline, s.at)
	from, to := d.span(r)
	before, after = min(before, s.at.X-from), min(after, to-s.at.X)
	room := 2 * min(before, after) * d.k * 0.94
	number := strconv.Itoa(q.Number)
	name := number + " " + q.Piece
	if q.Pair {
		name += " " + pairMark
	}
	up := s.free * d.k // room above and below
	lines := 1.0
	where := d.whereWords(q, room)
	if where != "" && up > textHeight*2 {
		lines = 2
	}
	base := y - float64((lines-1)*textHeight*0.5) + textHeight*0.1
	voice := drawing.Plain
	switch {
	case letters(name)*nameWide <= room && up > nameHeight:
		voice = drawing.Name
	case letters(name)*textWide <= room:
		voice = drawing.NameLess
	default:
		name = number
	}
	write(d.Drawing, voice, drawing.Middle, x, base, name)
	if lines == 2 {
		d.small(drawing.Middle, x, base+textHeight*1.1, where)
	}
	d.grainOf(q, x, base+float64((lines-1)*textHeight*1.1)+1.8, before*d.k, after*d.k, up)
}

// whereWords are what one measures to where a piece begins, as long as there is room for:
// from the selvedge (or the fold) and from the cut end; "" where there is none.
func (d *layDrawing) whereWords(q *cutting.Position, room float64) string {
	side, end := d.length(q.Side), d.length(q.End)
	f := d.l.Plan.Folding
	for _, words := range []string{say.Of("draw.from-from", side, cutting.AcrossFrom(f), end, cutting.AlongFrom(f)), side + " · " + end} {
		if letters(words)*textWide <= room {
			return words
		}
	}
	return ""
}

// cornerLong is how long the arms of a corner are that a piece is chalked from, mm.
const cornerLong = 2.4

// corner marks the corner of the box round a piece that its distances lead to.
func (d *layDrawing) corner(r int, q *cutting.Position) {
	if from, to := d.span(r); q.End < from-1e-6 || q.End >= to-1e-6 {
		return
	}
	x, y := d.frame(r).At(shape.Point{X: q.End, Y: -q.Side})
	d.Draw(drawing.ChalkCorner).Move(x+cornerLong, y).Line(x, y).Line(x, y+cornerLong)
}

// remnant draws what is left over, with the largest rectangle that can be had from it.
func (d *layDrawing) remnant(r int, left *cutting.Remnant) {
	d.area(drawing.LeftOver, r, left.On)
	box := largestSeen(left)
	if whole := shape.Ring(left.On).Area(); box.Area() < 0.98*whole {
		d.area(drawing.LeftOver, r, []shape.Point{box.Least, {X: box.Most.X, Y: box.Least.Y}, box.Most, {X: box.Least.X, Y: box.Most.Y}})
	}
}

// largestSeen is the largest rectangle in a remnant as far as it is drawn: of folded cloth
// it may go on beyond the fold.
func largestSeen(left *cutting.Remnant) shape.Oblong {
	least, most := shape.Ring(left.On).Bounds()
	box := left.Largest
	box.Least = shape.Point{X: max(box.Least.X, least.X), Y: max(box.Least.Y, least.Y)}
	box.Most = shape.Point{X: min(box.Most.X, most.X), Y: min(box.Most.Y, most.Y)}
	return box
}

// remnantWords write a remnant's number and how large a rectangle it holds.
func (d *layDrawing) remnantWords(r, i int) {
	left := &d.l.Left[i]
	box := largestSeen(left)
	from, to := d.span(r)
	wide, high := (min(box.Most.X, to)-max(box.Least.X, from))*d.k, (box.Most.Y-box.Least.Y)*d.k
	mid := shape.Point{X: (box.Least.X + box.Most.X) / 2, Y: (box.Least.Y + box.Most.Y) / 2}
	if mid.X < from || mid.X >= to {
		return
	}
	x, y := d.frame(r).At(shape.Point{X: mid.X, Y: -mid.Y})
	size := d.length(left.Across()) + " × " + d.length(left.Along())
	if letters(size)*textWide > wide || high < 2.4*textHeight {
		size = ""
	}
	base := y + textHeight*0.35
	if size != "" {
		base -= textHeight * 0.55
		d.small(drawing.Middle, x, base+textHeight*1.1, size)
	}
	d.small(drawing.Middle, x, base, "R"+strconv.Itoa(i+1))
}

// flawWords says beside a flaw what it is, where it is large enough to be seen round the
// words.
func (d *layDrawing) flawWords(r int, ring []shape.Point) {
	s := roomiest(ring)
	if from, to := d.span(r); s.at.X < from || s.at.X >= to {
		return
	}
	least, most := shape.Ring(ring).Bounds()
	x, y := d.frame(r).At(shape.Point{X: s.at.X, Y: -s.at.Y})
	if inside := letters("flaw")*textWide < (most.X-least.X)*d.k && 2*s.free*d.k > textHeight; inside {
		d.small(drawing.Middle, x, y+textHeight*0.35, "flaw")
		return
	}
	x, y = d.frame(r).At(shape.Point{X: (least.X + most.X) / 2, Y: -most.Y})
	d.small(drawing.Middle, x, y+textHeight, "flaw")
}

// grainOf draws the arrow along a piece's grain below its words: towards its
// top on one-way cloth, both ways on other cloth.
func (d *layDrawing) grainOf(q *cutting.Position, x, y, before, after, up float64) {
	if q.Grain == "any" || up < 4 {
		return
	}
	sin, cos := math.Sincos(q.Turn * math.Pi / 180)
	half := min(min(before, after)*0.6, 9)
	if math.Abs(sin) > 0.1 {
		half = min(half, up*0.45)
		y += float64(half * math.Abs(sin))
	}
	if half < arrowLong {
		return
	}
	dx, dy := float64(cos*half), float64(sin*half)
	p := d.Draw(drawing.GrainLine).Move(x-dx, y-dy).Line(x+dx, y+dy).Arrow(x+dx, y+dy, cos, sin, arrowLong)
	if !d.oneWay() {
		p.Arrow(x-dx, y-dy, -cos, -sin, arrowLong)
	}
}

func (d *layDrawing) oneWay() bool { return d.l.Problem != nil && d.l.Problem.Lay.Cloth.OneWay }
