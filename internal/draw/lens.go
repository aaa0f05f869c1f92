package draw

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/fitting"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// Where the lines of a piece part through its rounds of fitting, a lens shows the place
// larger, with how far they are apart. A letter says which place of the piece it is: so
// lenses stand in a drawing of their own, beside the piece or below it, as there is room.

const (
	lensTimes  = 5  // how much larger than the piece
	lensRadius = 20 // mm on paper
	mostLenses = 3
	lensRoom   = 2*lensRadius + textHeight + 2*gap
	leastApart = 1   // mm of cloth: what is less nobody sews
	lensAlike  = 0.2 // mm of cloth: places that part as far as each other, for the eye
	lensSteps  = 16  // points of each edge that are looked at
)

// A parting is where the lines of two states lie farthest from each other.
type parting struct {
	now, before shape.Point
	apart       float64 // mm
	edge        string  // that moved
}

func (p parting) middle() shape.Point {
	return shape.Point{X: (p.now.X + p.before.X) / 2, Y: (p.now.Y + p.before.Y) / 2}
}

// aside reports whether a line, here from a to b, moved to its side: one that only grew longer
// parts from nothing.
func (p parting) aside(a, b shape.Point) bool {
	dx, dy := p.now.X-p.before.X, p.now.Y-p.before.Y
	ux, uy, long := b.X-a.X, b.Y-a.Y, gapOf(a, b)
	return math.Abs(float64(dx*uy)-float64(dy*ux)) > p.apart*long/2
}

// partings are the places that a lens is worth, from above: the widest of each round, then
// the widest of all, each on an edge of its own,
// far from each other and not so wide that a lens would not hold them.
func partings(states []fitting.PieceState, within float64) (out []parting) {
	add := func(all []parting) {
		best := parting{}
		for _, p := range all {
			clear := p.apart >= leastApart && p.apart < 1.6*within
			for _, o := range out {
				clear = clear && p.edge != o.edge && gapOf(p.middle(), o.middle()) > 2.5*within
			}
			if clear && p.apart > best.apart+lensAlike {
				best = p
			}
		}
		if best.apart > 0 && len(out) < mostLenses {
			out = append(out, best)
		}
	}
	var every []parting
	for k := 1; k < len(states); k++ {
		of := partingsOf(states[k-1].Piece.Outline, states[k].Piece.Outline)
		add(of)
		every = append(every, of...)
	}
	for n := -1; n < len(out); {
		n = len(out)
		add(every)
	}
	slices.SortStableFunc(out, func(a, b parting) int { return cmp.Compare(b.now.Y, a.now.Y) })
	return out
}

// partingsOf are how far the points of edges that moved lie from the lines before, each
// edge from its middle outwards: where it moved alike all along, its middle is shown.
func partingsOf(before, now shape.Outline) (out []parting) {
	was := edgeLines(before)
	for i, line := range edgeLines(now) {
		if hasEdge(before, now, i) || grew(before, now, i) {
			continue
		}
		for k := range line {
			at := len(line)/2 + (k+1)/2*(1-2*(k%2))
			if p := nearestOn(was, line[at]); p.aside(line[max(at-1, 0)], line[min(at+1, len(line)-1)]) {
				p.edge = now.Edges[i].Name
				out = append(out, p)
			}
		}
	}
	return out
}

// edgeLines are the edges of an outline as points along them.
func edgeLines(o shape.Outline) [][]shape.Point {
	out := make([][]shape.Point, len(o.Edges))
	for i, e := range o.Edges {
		from := o.Start(i)
		for k := range lensSteps + 1 {
			t := float64(k) / lensSteps
			if !e.Curved {
				out[i] = append(out[i], along(from, e.To, t))
				continue
			}
			a, b, c := along(from, e.C1, t), along(e.C1, e.C2, t), along(e.C2, e.To, t)
			out[i] = append(out[i], along(along(a, b, t), along(b, c, t), t))
		}
	}
	return out
}

func along(a, b shape.Point, t float64) shape.Point {
	return shape.Point{X: a.X + float64((b.X-a.X)*t), Y: a.Y + float64((b.Y-a.Y)*t)}
}

func gapOf(a, b shape.Point) float64 {
	return math.Sqrt(float64((a.X-b.X)*(a.X-b.X)) + float64((a.Y-b.Y)*(a.Y-b.Y)))
}

// nearestOn is how far lines are from a point, and where they are nearest to it.
func nearestOn(lines [][]shape.Point, q shape.Point) parting {
	best := parting{now: q, apart: math.Inf(1)}
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			long := float64((b.X-a.X)*(b.X-a.X)) + float64((b.Y-a.Y)*(b.Y-a.Y))
			t := 0.0
			if long > 0 {
				t = min(max((float64((q.X-a.X)*(b.X-a.X))+float64((q.Y-a.Y)*(b.Y-a.Y)))/long, 0), 1)
			}
			if p := along(a, b, t); gapOf(p, q) < best.apart {
				best.before, best.apart = p, gapOf(p, q)
			}
		}
	}
	return best
}

// withinLens is how far around a place of a piece a lens shows, mm of cloth.
func withinLens(k float64) float64 { return lensRadius / (lensTimes * k) }

// lensLetter is what a lens and its place are called.
func lensLetter(i int) string { return string(rune('A' + i)) }

// lensPlaces rings on the piece what lenses show, each with its letter.
func (d *pieceDrawing) lensPlaces(list []parting) {
	for i, p := range list {
		x, y := d.f.At(p.middle())
		d.Draw(drawing.NetTie).Circle(x, y, lensRadius/lensTimes)
		d.lettered(i, x+lensRadius/lensTimes*rimAt, y-lensRadius/lensTimes*rimAt)
	}
}

// lensBox is the box of a drawing with room for what rings show.
func (d *pieceDrawing) lensBox(list []parting) {
	const r = lensRadius/lensTimes*rimAt + discRim
	for _, p := range list {
		x, y := d.f.At(p.middle())
		d.Box = drawing.Box{Left: min(d.Box.Left, x-r), Top: min(d.Box.Top, y-r), Right: max(d.Box.Right, x+r), Bottom: max(d.Box.Bottom, y+r)}
	}
}

// rimAt is where on the rim of a ring its letter stands, as a part of its radius to the
// side and up.
const rimAt = 0.71

// lettered puts the letter of a lens in a ring at a place.
func (d *pieceDrawing) lettered(i int, x, y float64) {
	d.Draw(drawing.NetRing).Disc(x, y, discRim)
	write(d.Drawing, drawing.RingNumber, drawing.Middle, x, y+discSize*0.36, lensLetter(i))
}

// Lenses draws the places where the lines of a piece's rounds part farthest, five times as
// large as [Rounds] draws them; nil where none part so far that one would see it.
func Lenses(states []fitting.PieceState, style PieceStyle) *drawing.Drawing {
	if len(states) == 0 {
		return nil
	}
	last := states[len(states)-1].Piece
	d := newPiece(last, shape.Point{}, shape.Point{}, style)
	within := withinLens(d.f.K)
	found := partings(states, within)
	if len(found) == 0 {
		return nil
	}
	d.Kind, d.Title = "rounds", say.Of("draw.where-lines-part", last.Name)
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: 2*lensRadius + margin, Bottom: margin}
	var says []string
	for i, p := range found {
		at := drawing.Point{X: lensRadius, Y: lensRadius + float64(i)*(lensRoom+margin)}
		says = append(says, lensLetter(i)+", "+d.lens(states, p, within, at))
		d.lettered(i, at.X-lensRadius*rimAt, at.Y-lensRadius*rimAt)
		d.Box.Bottom = at.Y + lensRadius + textHeight + 2*gap
	}
	d.Desc = strings.Join(says, "; ")
	return d.Drawing
}

// lens draws one, and says how far the lines part in it.
func (d *pieceDrawing) lens(states []fitting.PieceState, p parting, within float64, at drawing.Point) string {
	k, mid := lensTimes*d.f.K, p.middle()
	f := drawing.Frame{Left: mid.X - at.X/k, Top: mid.Y + at.Y/k, K: k}
	d.Draw(drawing.NetTie).Circle(at.X, at.Y, lensRadius)
	for i := range states {
		o := states[i].Piece.Outline
		for e, line := range edgeLines(o) {
			switch {
			case i == 0 && keptThrough(states, e):
				d.inLens(drawing.KeptLine, f, line, mid, within)
			case i == 0, !hasEdge(states[i-1].Piece.Outline, o, e):
				d.inLens(drawing.OfRound(states[i].Round), f, line, mid, within)
			}
		}
	}
	x0, y0 := f.At(p.before)
	x1, y1 := f.At(p.now)
	d.Draw(drawing.Measured).Move(x0, y0).Line(x1, y1)
	apart := d.style.Measure.Length(measure.MM(math.Round(p.apart)))
	write(d.Drawing, drawing.Plain, drawing.Middle, at.X, at.Y+lensRadius+gap+textHeight, apart)
	return apart
}

// inLens draws what of a line lies within a lens.
func (d *pieceDrawing) inLens(m drawing.Meaning, f drawing.Frame, line []shape.Point, mid shape.Point, r float64) {
	var part []shape.Point
	end := func() {
		if len(part) > 1 {
			d.Draw(m).Lines(f, part)
		}
		part = nil
	}
	for i := 1; i < len(line); i++ {
		from, to, ok := insideRound(line[i-1], line[i], mid, r)
		if !ok {
			end()
			continue
		}
		if len(part) == 0 {
			part = append(part, along(line[i-1], line[i], from))
		}
		part = append(part, along(line[i-1], line[i], to))
		if to < 1 {
			end()
		}
	}
	end()
}

// insideRound is from where to where on the way from a to b, as shares of it, it lies
// within a circle.
func insideRound(a, b, mid shape.Point, r float64) (from, to float64, ok bool) {
	ux, uy, wx, wy := b.X-a.X, b.Y-a.Y, a.X-mid.X, a.Y-mid.Y
	aa, bb, cc := float64(ux*ux)+float64(uy*uy), float64(ux*wx)+float64(uy*wy), float64(wx*wx)+float64(wy*wy)-float64(r*r)
	root := float64(bb*bb) - float64(aa*cc)
	if aa == 0 || root <= 0 {
		return 0, 0, false
	}
	root = math.Sqrt(root)
	from, to = max((-bb-root)/aa, 0), min((-bb+root)/aa, 1)
	return from, to, from < to
}
