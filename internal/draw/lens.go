package draw

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/drawing"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// Where the lines of a piece part through its rounds of fitting, a lens beside it shows
// the place larger, with how far they are apart.

const (
	lensTimes  = 5  // how much larger than the piece
	lensRadius = 15 // mm on paper
	mostLenses = 2
	lensRoom   = 2*lensRadius + textHeight + 2*gap
	leastApart = 1  // mm of cloth: what is less nobody sews
	lensSteps  = 16 // points of each edge that are looked at
)

// A parting is where the lines of two states lie farthest from each other.
type parting struct {
	now, before shape.Point
	apart       float64 // mm
}

func (p parting) middle() shape.Point {
	return shape.Point{X: (p.now.X + p.before.X) / 2, Y: (p.now.Y + p.before.Y) / 2}
}

// partings are the places that a lens is worth, from above: the widest, far from each other,
// and not so wide that it would not hold them.
func partings(first, last *garment.Piece, within float64) (out []parting) {
	was := edgeLines(first.Outline)
	var all []parting
	for i, line := range edgeLines(last.Outline) {
		if hasEdge(first.Outline, last.Outline, i) {
			continue
		}
		best := parting{}
		for _, q := range line {
			if p := nearestOn(was, q); p.apart > best.apart {
				best = p
			}
		}
		all = append(all, best)
	}
	for len(out) < mostLenses {
		best := parting{}
		for _, p := range all {
			clear := p.apart >= leastApart && p.apart < 1.6*within
			for _, o := range out {
				clear = clear && gapOf(p.middle(), o.middle()) > 2.5*within
			}
			if clear && p.apart > best.apart {
				best = p
			}
		}
		if best.apart == 0 {
			break
		}
		out = append(out, best)
	}
	slices.SortStableFunc(out, func(a, b parting) int { return cmp.Compare(b.now.Y, a.now.Y) }) // so that no way to a lens crosses another
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

// lenses draws them to the right of the piece, whose drawing so far ends at right; it
// returns how far they reach.
func (d *pieceDrawing) lenses(states []fitting.PieceState, right float64) (x, y float64) {
	first, last := states[0], states[len(states)-1]
	within := lensRadius / (lensTimes * d.f.K)
	for i, p := range partings(first.Piece, last.Piece, within) {
		at := drawing.Point{X: right + 2*margin + lensRadius, Y: lensRadius + float64(i)*(lensRoom+margin)}
		end := d.lens(states, p, within, at)
		x, y = max(x, end), at.Y+lensRadius+textHeight+2*gap
	}
	return x, y
}

// lens draws one, and returns how far it reaches to the right.
func (d *pieceDrawing) lens(states []fitting.PieceState, p parting, within float64, at drawing.Point) float64 {
	k, mid := lensTimes*d.f.K, p.middle()
	f := drawing.Frame{Left: mid.X - at.X/k, Top: mid.Y + at.Y/k, K: k}
	px, py := d.f.At(mid)
	ring := d.Draw(drawing.NetTie)
	ring.Circle(px, py, lensRadius/lensTimes)
	ring.Circle(at.X, at.Y, lensRadius)
	dx, dy := at.X-px, at.Y-py
	long := math.Sqrt(dx*dx + dy*dy)
	ring.Move(px+dx/long*lensRadius/lensTimes, py+dy/long*lensRadius/lensTimes).Line(at.X-dx/long*lensRadius, at.Y-dy/long*lensRadius)

	first, last := states[0], states[len(states)-1]
	for i, line := range edgeLines(last.Piece.Outline) {
		means := drawing.OfRound(last.Round)
		if hasEdge(first.Piece.Outline, last.Piece.Outline, i) {
			means = drawing.KeptLine
		}
		d.inLens(means, f, line, mid, within)
	}
	for i, line := range edgeLines(first.Piece.Outline) {
		if !hasEdge(last.Piece.Outline, first.Piece.Outline, i) {
			d.inLens(drawing.OfRound(first.Round), f, line, mid, within)
		}
	}
	x0, y0 := f.At(p.before)
	x1, y1 := f.At(p.now)
	d.Draw(drawing.Measured).Move(x0, y0).Line(x1, y1)
	apart := d.style.Measure.Length(measure.MM(math.Round(p.apart)))
	begin, wide := lensWords(drawing.Point{X: px, Y: py}, at, apart)
	write(d.Drawing, drawing.Plain, drawing.Begin, begin, at.Y+lensRadius+gap+textHeight, apart)
	return max(at.X+lensRadius, begin+wide)
}

// lensWords is where the words below a lens begin, and how wide they are: they stand in its
// middle, or right of the way from its place where that would cross them.
func lensWords(place, at drawing.Point, words string) (begin, wide float64) {
	wide = letters(words) * textWide
	begin = at.X - wide/2
	top := at.Y + lensRadius + gap
	if place.Y > top {
		begin = max(begin, at.X-(at.X-place.X)*(top-at.Y)/(place.Y-at.Y)+gap)
	}
	return begin, wide
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
