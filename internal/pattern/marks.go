package pattern

import (
	"math"

	"hembook/internal/garment"
	"hembook/internal/paper"
	"hembook/internal/shape"
)

// levels draws where waist, bust and the like run across a piece.
func (w *work) levels() {
	var p paper.Path
	for _, l := range w.p.AtLevels {
		for i, span := range w.p.Outline.WidthsAt(l.Y) {
			x1, y := w.at(shape.Point{X: span.From, Y: l.Y})
			x2, _ := w.at(shape.Point{X: span.To, Y: l.Y})
			p.Move(x1, y).Line(x2, y)
			label := paper.Label{At: paper.Point{X: x2 - 3, Y: y - 1}, Text: l.Level, Size: edgeText, Anchor: paper.End, Ink: paper.Faded}
			if i == 0 && paper.LabelWide(label)+6 < x2-x1 {
				w.say(label)
			}
		}
	}
	w.draw(p, paper.Pen{Weight: levelWeight, Ink: paper.Faded, Dash: levelDash, Butt: true})
}

// darts draws the legs of each dart and a cross at its point.
func (w *work) darts() {
	var p paper.Path
	for _, d := range w.p.Darts {
		x1, y1 := w.at(d.Plan.Begin)
		x, y := w.at(d.Plan.Point)
		x2, y2 := w.at(d.Plan.End)
		p.Move(x1, y1).Line(x, y).Line(x2, y2)
		p.Move(x-crossHalf, y).Line(x+crossHalf, y).Move(x, y-crossHalf).Line(x, y+crossHalf)
	}
	w.draw(p, paper.Pen{Weight: sewWeight, Ink: paper.Thread})
}

// notches are strokes over the allowance: those of the record, and where a
// dart's legs or a level meet the edge.
func (w *work) notches() {
	var p paper.Path
	for _, n := range w.p.NotchesAlong() {
		at, along, ok := w.p.Outline.PointOn(n.Edge, n.Along)
		for k := range w.p.Edges {
			if e := &w.p.Edges[k]; ok && e.Name == n.Edge {
				w.notch(&p, at, outward(along), e)
			}
		}
	}
	for _, d := range w.p.Darts {
		e := w.edgeOf(d)
		if e == nil {
			continue
		}
		out := outward(unit(d.Plan.End.Sub(d.Plan.Begin)))
		for _, q := range []shape.Point{d.Plan.Begin, d.Plan.End} {
			w.notch(&p, q, out, e)
		}
	}
	for _, l := range w.p.AtLevels {
		for _, span := range w.p.Outline.WidthsAt(l.Y) {
			for _, end := range []struct{ x, way float64 }{{span.From, -1}, {span.To, 1}} {
				q := shape.Point{X: end.x, Y: l.Y}
				if e := w.edgeAt(q); e != nil {
					w.notch(&p, q, shape.Point{X: end.way}, e)
				}
			}
		}
	}
	w.draw(p, paper.Pen{Weight: cutWeight, Ink: paper.Dark, Butt: true})
}

// notch draws one, as long as the allowance it lies on but no longer than
// notchLong, its outer end on the cut line.
func (w *work) notch(p *paper.Path, q, out shape.Point, e *garment.PieceEdge) {
	if e.Fold || !e.Allowance.Value.Known() || e.Allowance.Value.Number <= 0 {
		return
	}
	far := e.Allowance.Value.Number
	near := math.Max(far-notchLong, 0)
	x1, y1 := w.at(plus(q, out, near))
	x2, y2 := w.at(plus(q, out, far))
	p.Move(x1, y1).Line(x2, y2)
}

// edgeOf is the edge a dart stands on.
func (w *work) edgeOf(d garment.PieceDart) *garment.PieceEdge {
	return w.edgeAt(plus(d.Plan.Begin, d.Plan.End.Sub(d.Plan.Begin), 0.5))
}

// edgeAt is the edge nearest a point, if one runs through it or near by: a
// dart's mouth on a curved edge lies a little off it.
func (w *work) edgeAt(q shape.Point) *garment.PieceEdge {
	if w.flat == nil {
		w.flat, w.flatOf = w.p.Outline.Flatten(0.1)
	}
	best, edge := 6.0, -1
	for i, a := range w.flat {
		if d := fromSegment(q, a, w.flat[(i+1)%len(w.flat)]); d < best {
			best, edge = d, w.flatOf[i]
		}
	}
	if edge < 0 {
		return nil
	}
	n := len(w.p.Outline.Edges)
	for k := range w.p.Edges {
		if side, ok := w.p.Outline.Side(w.p.Edges[k].Name); ok && (edge-side.First+n)%n < side.Count {
			return &w.p.Edges[k]
		}
	}
	return nil
}

// fromSegment is how far a point lies from a straight stretch.
func fromSegment(q, a, b shape.Point) float64 {
	way, off := b.Sub(a), q.Sub(a)
	t := 0.0
	if long := float64(way.X*way.X) + float64(way.Y*way.Y); long > 0 {
		t = min(max((float64(off.X*way.X)+float64(off.Y*way.Y))/long, 0), 1)
	}
	return apart(q, plus(a, way, t))
}

// folds draws a bracket whose arrows point to each fold, with its words.
func (w *work) folds() {
	var p paper.Path
	for k := range w.p.Edges {
		e := &w.p.Edges[k]
		if !e.Fold || e.Index < 0 || e.Index >= len(w.p.Outline.Edges) {
			continue
		}
		a, b := w.p.Outline.Start(e.Index), w.p.Outline.Edges[e.Index].To
		along := unit(b.Sub(a))
		in := outward(along)
		inset := foldInset / w.k
		long := w.p.Outline.EdgeLength(e.Index)
		if long < 4*inset {
			continue
		}
		point := func(part, deep float64) (x, y float64) { return w.at(plus(plus(a, along, part*long), in, -deep)) }
		x1, y1 := point(0.2, 1/w.k)
		x2, y2 := point(0.2, inset)
		x3, y3 := point(0.8, inset)
		x4, y4 := point(0.8, 1/w.k)
		p.Move(x1, y1).Line(x2, y2).Line(x3, y3).Line(x4, y4)
		p.Arrow(x1, y1, x1-x2, y1-y2, arrowLong).Arrow(x4, y4, x4-x3, y4-y3, arrowLong)
		mx, my := point(0.5, inset+1.5/w.k)
		w.along(paper.Label{At: paper.Point{X: mx, Y: my}, Text: "lay this edge on the fold", Size: edgeText, Anchor: paper.Middle}, along, in, 0.6*long)
	}
	w.draw(p, paper.Pen{Weight: markWeight, Ink: paper.Dark})
}

// along turns a label so that it stands along an edge, on the piece's side of
// its point, upright to read; it is left out where it has no room.
func (w *work) along(l paper.Label, way, out shape.Point, room float64) {
	if paper.LabelWide(l)+4 > room*w.k {
		return
	}
	turn := math.Atan2(way.Y, way.X) * 180 / math.Pi
	down := l.Size * 0.3528 * 0.75 // from the base line to the top of its letters
	shift := 0.0
	if turn > 90+1e-9 || turn <= -90+1e-9 {
		turn += 180
	}
	// up is the letters' upper side, in the piece's directions
	up := shape.Point{X: -math.Sin(turn * math.Pi / 180), Y: math.Cos(turn * math.Pi / 180)}
	if up.X*out.X+up.Y*out.Y > 0 { // letters would reach back over the edge
		shift = down
	}
	l.At.X -= up.X * shift
	l.At.Y += up.Y * shift
	if turn > 180 {
		turn -= 360
	}
	l.Turn = turn
	w.say(l)
}

// edgeNames writes along each edge, inside, its name and its allowance.
func (w *work) edgeNames() {
	for k := range w.p.Edges {
		e := &w.p.Edges[k]
		if e.Fold {
			continue
		}
		text := e.Name
		if e.Allowance.Value.Known() {
			text += " · " + w.style.length(e.Allowance)
		}
		side, ok := w.p.Outline.Side(e.Name)
		if !ok {
			continue
		}
		n := math.Max(math.Round(side.Length*w.k/labelEvery), 1)
		label := paper.Label{Text: text, Size: edgeText, Anchor: paper.Middle, Ink: paper.Faded}
		half := paper.LabelWide(label)/w.k/2 + 2
		for i := range int(n) {
			at, along, ok := w.p.Outline.PointOn(e.Name, w.clearOfDarts(e.Name, side.Length/n, side.Length/n*float64(i), half))
			if !ok {
				continue
			}
			out := outward(along)
			x, y := w.at(plus(at, out, -1.6/w.k))
			label.At = paper.Point{X: x, Y: y}
			w.along(label, along, out, side.Length/n)
		}
	}
}

// clearOfDarts is where along a stretch of an edge a label keeps off the
// mouths of darts; the middle where it cannot.
func (w *work) clearOfDarts(edge string, long, from, half float64) float64 {
	for _, part := range []float64{0.5, 0.36, 0.64, 0.24, 0.76} {
		s := from + long*part
		at, _, ok := w.p.Outline.PointOn(edge, s)
		for _, d := range w.p.Darts {
			ok = ok && apart(at, d.Plan.Begin) > half && apart(at, d.Plan.End) > half
		}
		if ok && s-from > half && from+long-s > half {
			return s
		}
	}
	return from + long/2
}

func apart(a, b shape.Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}
