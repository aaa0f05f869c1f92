package draw

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/fitting"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// Rounds draws a piece's sewing lines as they were after each round of
// fitting, one over the other, each in a line of its own, with a key below; what
// [Lenses] shows larger is ringed. The states are in order; the last is the piece as it is.
func Rounds(states []fitting.PieceState, style PieceStyle) *drawing.Drawing {
	says := make([]string, len(states))
	for i := range states {
		says[i] = roundName(states[i].Round, i == len(states)-1)
	}
	return RoundsSaying(states, style, says)
}

// RoundsSaying is [Rounds] with words of its own for each state.
func RoundsSaying(states []fitting.PieceState, style PieceStyle, says []string) *drawing.Drawing {
	if len(states) == 0 {
		return nil
	}
	least, most := states[0].Piece.Outline.Bounds()
	for _, st := range states[1:] {
		l, m := st.Piece.Outline.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
		most = shape.Point{X: max(most.X, m.X), Y: max(most.Y, m.Y)}
	}
	last := states[len(states)-1].Piece
	d := newPiece(last, least, most, style)
	d.Kind, d.Title, d.Desc = "rounds", say.Of("draw.through-its-fittings", last.Name), roundsDesc(says)
	found := partings(states, withinLens(d.f.K))
	d.lensBox(found)
	w, keyY := d.Box.Right, d.Box.Bottom+2*margin
	keyEnd := keyLong + gap + margin
	for _, name := range says {
		keyEnd = max(keyEnd, keyLong+gap+letters(name)*textWide+margin)
	}
	b := drawing.Box{Left: d.Box.Left - margin, Top: d.Box.Top - margin, Right: w + margin, Bottom: keyY + float64(len(states))*keyStep + margin}
	bar := barFor(d.f.K, style.Measure)
	b.Right = max(b.Right, bar.wide(), keyEnd)
	barY := b.Bottom + barTop/2
	b.Bottom = barY + smallHeight/2 + margin/2
	d.Box = b

	keptLines(d.Draw(drawing.KeptLine), d.f, states)
	for i := range states {
		roundLines(d.Draw(drawing.OfRound(states[i].Round)), d.f, states, i)
	}
	d.grain()
	d.name()
	for i, st := range states {
		y := keyY + float64(i)*keyStep + keyStep/2
		d.Draw(drawing.OfRound(st.Round)).Move(0, y).Line(keyLong, y)
		write(d.Drawing, drawing.Plain, drawing.Begin, keyLong+gap, y+textHeight*0.33, says[i])
	}
	bar.draw(d.Drawing, 0, barY)
	d.lensPlaces(found)
	return d.Drawing
}

const (
	keyStep = 3.6 // between the lines of a key
	keyLong = 13  // a line shown in a key
)

func roundName(round int, last bool) string {
	name := "draft"
	if round > 0 {
		name = words.Fitting(round)
	}
	if last && round > 0 {
		name += say.Of("draw.as-it-is-now")
	}
	return name
}

// keptLines draws what is the same in every state: edges and darts, and of edges that a
// round moved in part or only made longer, what lies where a line of the draft does.
func keptLines(p *drawing.Path, f drawing.Frame, states []fitting.PieceState) {
	o := states[0].Piece.Outline
	for i := range o.Edges {
		if keptThrough(states, i) {
			p.Edge(f, o, i)
			continue
		}
		edgeRuns(f, o, i, p, nil, func(q shape.Point) bool {
			return !slices.ContainsFunc(states[1:], func(st fitting.PieceState) bool { return !onOutline(st.Piece.Outline, q) })
		})
	}
	for k := 1; k < len(states); k++ { // what only grew
		o, before := states[k].Piece.Outline, states[k-1].Piece.Outline
		for i := range o.Edges {
			switch {
			case grew(before, o, i):
				p.Edge(f, o, i)
			case o.Edges[i].Curved && !hasEdge(before, o, i):
				edgeRuns(f, o, i, p, nil, func(q shape.Point) bool { return !onOutline(before, q) && goesOn(before, q) })
			}
		}
	}
	for i, dart := range states[0].Piece.Darts {
		if dartKept(states, i) {
			p.Lines(f, []shape.Point{dart.Plan.Begin, dart.Plan.Point, dart.Plan.End})
		}
	}
}

// dartKept reports whether dart i of the draft is the same in every state.
func dartKept(states []fitting.PieceState, i int) bool {
	return !slices.ContainsFunc(states[1:], func(st fitting.PieceState) bool {
		return i >= len(st.Piece.Darts) || !sameDart(states[0].Piece.Darts, i, st.Piece.Darts[i].Plan)
	})
}

// eyeApart is how far a line must have moved, in millimetres of the piece, to be drawn as moved:
// a lens shows no less either.
const eyeApart = leastApart

// grownOn is how far beyond its end, in millimetres, an edge is looked for in the direction
// in which it ends: one that was made longer goes on so.
const grownOn = 60

// edgeSteps is in how many stretches an edge is looked at.
const edgeSteps = 24

// edgeRuns draws an edge, its stretches that are of a kind on one path and the others on
// another; nil is drawn on by nobody. An edge of one kind is drawn as it is.
func edgeRuns(f drawing.Frame, o shape.Outline, i int, yes, no *drawing.Path, kind func(shape.Point) bool) {
	points := edgePoints(o, i)
	var is [edgeSteps]bool
	for k := range is {
		a, b := points[k], points[k+1]
		is[k] = kind(shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
	}
	for from := 0; from < edgeSteps; {
		end := runFrom(&is, from)
		if whole := end-from == edgeSteps; !whole && length(points[from:end+1]) < shortRun { // as what goes on beside it
			other := !is[from]
			for k := from; k < end; k++ {
				is[k] = other
			}
			from = 0
			continue
		}
		from = end
	}
	for from := 0; from < edgeSteps; {
		end, path := runFrom(&is, from), no
		if is[from] {
			path = yes
		}
		switch {
		case path == nil:
		case end-from == edgeSteps:
			path.Edge(f, o, i)
		case !o.Edges[i].Curved:
			path.Lines(f, []shape.Point{points[from], points[end]})
		default:
			path.Lines(f, points[from:end+1])
		}
		from = end
	}
}

// shortRun is how long a stretch of an edge is at least, in millimetres, to be told from
// what goes on beside it: where a moved line crosses the one before, and at corners, the
// two lie on each other for less.
const shortRun = 12

// runFrom is the end of the stretches of one kind that begin with one.
func runFrom(is *[edgeSteps]bool, from int) int {
	end := from + 1
	for end < edgeSteps && is[end] == is[from] {
		end++
	}
	return end
}

// length is how long a line of points is.
func length(points []shape.Point) (sum float64) {
	for k := range points[1:] {
		sum += points[k].Apart(points[k+1])
	}
	return sum
}

// edgePoints are points along an edge, one more than it has stretches.
func edgePoints(o shape.Outline, i int) []shape.Point {
	out, a, b := make([]shape.Point, edgeSteps+1), o.Start(i), o.Edges[i].To
	for k := range out {
		t := float64(k) / edgeSteps
		if out[k] = (shape.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}); o.Edges[i].Curved {
			out[k], _ = curvePoint(o, i, t)
		}
	}
	return out
}

// onOutline reports whether a point lies on a line of an outline, for the eye.
func onOutline(o shape.Outline, q shape.Point) bool {
	for i := range o.Edges {
		if !o.Edges[i].Curved {
			if nearStretch(o.Start(i), o.Edges[i].To, q) {
				return true
			}
			continue
		}
		points := edgePoints(o, i)
		for k := range edgeSteps {
			if nearStretch(points[k], points[k+1], q) {
				return true
			}
		}
	}
	return false
}

// goesOn reports whether a point lies where a curve of an outline would go on beyond one of
// its ends: there it was made longer, and did not move.
func goesOn(o shape.Outline, q shape.Point) bool {
	for i := range o.Edges {
		if !o.Edges[i].Curved {
			continue
		}
		points := edgePoints(o, i)
		if nearBeyond(points[1], points[0], q) || nearBeyond(points[edgeSteps-1], points[edgeSteps], q) {
			return true
		}
	}
	return false
}

// nearBeyond reports whether a point lies near the line from a to b where that goes on.
func nearBeyond(a, b, q shape.Point) bool {
	long := a.Apart(b)
	if long == 0 {
		return false
	}
	on := grownOn / long
	return nearStretch(b, shape.Point{X: b.X + on*(b.X-a.X), Y: b.Y + on*(b.Y-a.Y)}, q)
}

// nearStretch reports whether a point is nearer to a straight stretch than the eye tells.
func nearStretch(a, b, q shape.Point) bool {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if long := dx*dx + dy*dy; long > 0 {
		t = min(max(((q.X-a.X)*dx+(q.Y-a.Y)*dy)/long, 0), 1)
	}
	x, y := a.X+t*dx-q.X, a.Y+t*dy-q.Y
	return x*x+y*y < eyeApart*eyeApart
}

// grew reports whether straight edge i of an outline is one of those before that was made
// longer or shorter along its own line, and so did not move.
func grew(before, o shape.Outline, i int) bool {
	e := o.Edges[i]
	if e.Curved || hasEdge(before, o, i) {
		return false
	}
	a, b := o.Start(i), e.To
	for k := range before.Edges {
		c, d := before.Start(k), before.Edges[k].To
		if !before.Edges[k].Curved && awayFrom(a, b, c) < eyeApart && awayFrom(a, b, d) < eyeApart && onOneStretch(a, b, c, d) {
			return true
		}
	}
	return false
}

// awayFrom is how far a point lies off the line through two others.
func awayFrom(a, b, q shape.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	long := math.Hypot(dx, dy)
	if long == 0 {
		return math.Hypot(q.X-a.X, q.Y-a.Y)
	}
	return math.Abs((q.X-a.X)*dy-(q.Y-a.Y)*dx) / long
}

// onOneStretch reports whether two stretches of one line have a part in common.
func onOneStretch(a, b, c, d shape.Point) bool {
	dx, dy := b.X-a.X, b.Y-a.Y
	along := func(q shape.Point) float64 { return (q.X-a.X)*dx + (q.Y-a.Y)*dy }
	return max(along(c), along(d)) > 0 && min(along(c), along(d)) < along(b)
}

func keptThrough(states []fitting.PieceState, i int) bool {
	for k := 1; k < len(states); k++ {
		if !hasEdge(states[k].Piece.Outline, states[0].Piece.Outline, i) {
			return false
		}
	}
	return true
}

// hasEdge reports whether an outline has edge i of another drawn alike, for the eye. A
// slash makes more edges, so each may be the one.
func hasEdge(o, other shape.Outline, i int) bool {
	e := other.Edges[i]
	for k, f := range o.Edges {
		if e.Curved == f.Curved && atOnePlace(other.Start(i), o.Start(k)) && atOnePlace(e.To, f.To) &&
			(!e.Curved || atOnePlace(e.C1, f.C1) && atOnePlace(e.C2, f.C2)) {
			return true
		}
	}
	return false
}

func atOnePlace(a, b shape.Point) bool {
	const eye = 0.05
	return max(a.X-b.X, b.X-a.X) < eye && max(a.Y-b.Y, b.Y-a.Y) < eye
}

// roundLines draws what is new in one state: edges and darts that the state
// before does not have; of the draft, all that does not stay.
func roundLines(p *drawing.Path, f drawing.Frame, states []fitting.PieceState, k int) {
	st := states[k]
	o := st.Piece.Outline
	for i := range o.Edges {
		switch {
		case k == 0 && keptThrough(states, i) || k > 0 && hasEdge(states[k-1].Piece.Outline, o, i):
		case k == 0:
			edgeRuns(f, o, i, nil, p, func(q shape.Point) bool {
				return !slices.ContainsFunc(states[1:], func(st fitting.PieceState) bool { return !onOutline(st.Piece.Outline, q) })
			})
		case grew(states[k-1].Piece.Outline, o, i):
		default:
			edgeRuns(f, o, i, nil, p, func(q shape.Point) bool {
				before := states[k-1].Piece.Outline
				return onOutline(before, q) || o.Edges[i].Curved && goesOn(before, q)
			})
		}
	}
	for i, dart := range st.Piece.Darts {
		if k == 0 && dartKept(states, i) || k > 0 && sameDart(states[k-1].Piece.Darts, i, dart.Plan) {
			continue
		}
		p.Lines(f, []shape.Point{dart.Plan.Begin, dart.Plan.Point, dart.Plan.End})
	}
	for i := range st.Piece.PleatFolds {
		q := &st.Piece.PleatFolds[i]
		if k > 0 && samePleat(states[k-1].Piece.PleatFolds, i, q) {
			continue
		}
		place, outer := q.Drawn(q.Lines.Place), q.Drawn(q.Lines.Outer)
		p.Lines(f, place).Lines(f, outer)
	}
	for i := range st.Piece.Chalked {
		c := &st.Piece.Chalked[i]
		if k > 0 && samePlaceThere(states[k-1].Piece.Chalked, c) {
			continue
		}
		x, y := f.At(c.At)
		if p.Cross(x, y, cross, cross); c.Open {
			p.Lines(f, c.Hole[:])
		}
	}
	for i := range st.Piece.Lines {
		if l := &st.Piece.Lines[i]; k == 0 || !lineAlike(states[k-1].Piece.Lines, i, l) {
			p.Lines(f, l.Points)
		}
	}
}

func samePlaceThere(before []garment.Chalked, c *garment.Chalked) bool {
	return slices.ContainsFunc(before, func(b garment.Chalked) bool {
		return atOnePlace(b.At, c.At) && atOnePlace(b.Hole[0], c.Hole[0]) && atOnePlace(b.Hole[1], c.Hole[1])
	})
}

// lineAlike reports whether a line lies in both states alike, for the eye.
func lineAlike(before []garment.PieceLine, i int, l *garment.PieceLine) bool {
	return i < len(before) && len(before[i].Points) == len(l.Points) && atOnePlace(before[i].Points[0], l.Points[0]) &&
		atOnePlace(before[i].Points[len(l.Points)-1], l.Points[len(l.Points)-1])
}

func sameDart(before []garment.PieceDart, i int, d shape.DartPlan) bool {
	return i < len(before) && atOnePlace(before[i].Plan.Begin, d.Begin) && atOnePlace(before[i].Plan.End, d.End) && atOnePlace(before[i].Plan.Point, d.Point)
}

func samePleat(before []garment.PleatFold, i int, q *garment.PleatFold) bool {
	return i < len(before) && atOnePlace(before[i].Lines.Place[0], q.Lines.Place[0]) && atOnePlace(before[i].Lines.Outer[0], q.Lines.Outer[0]) &&
		atOnePlace(before[i].Lines.Place[1], q.Lines.Place[1])
}

// roundsDesc says in words which lines are drawn.
func roundsDesc(says []string) string {
	return say.Of("draw.sewing-lines-one-over-the-other", strings.Join(says, "; "))
}
