package garment

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// mostSmoothed is the greatest turn, in degrees, that curves are proposed for: beyond it
// a corner is in the wrong place (common practice, no source).
const mostSmoothed = 60

// A redrawing is a line drawn anew, so that it leaves a corner another way.
type redrawing struct {
	edge   *PieceEdge
	c1, c2 shape.Point
	longer float64 // by how much, mm
}

// keeping is the line drawn as long as it was, or as nearly so as it can be: its handle
// at the corner keeps its way and is drawn out or in, the least that does. How long
// a curve is is convex in where its control points are: once it grows one way it goes on
// growing, and no more is looked for that way.
func keeping(drawn func(reach float64) redrawing) redrawing {
	const step, steps = 0.02, 40 // down to a fifth and up to nearly twice
	best := drawn(1)
	last, grows := [2]float64{best.longer, best.longer}, [2]bool{}
	for i := 1; i <= steps && !(grows[0] && grows[1]); i++ {
		for way, reach := range [...]float64{1 - float64(i)*step, 1 + float64(i)*step} {
			if grows[way] {
				continue
			}
			r := drawn(reach)
			if math.Abs(r.longer) < math.Abs(best.longer)-1e-9 {
				best = r
			}
			grows[way] = r.longer > 0 && r.longer > last[way]+surelyLonger
			last[way] = r.longer
		}
		if math.Abs(best.longer) < enoughKept {
			break
		}
	}
	return best
}

// surelyLonger is by how much a line must be longer that it is so whatever measuring it
// leaves out, mm.
const surelyLonger = 1e-5

// enoughKept is how nearly as long as it was a line is that was drawn anew, mm.
const enoughKept = 0.05

// smoothed says how both lines would be drawn to run across the join without a
// turn: each takes half of it. Where that would take a seam apart that meets they keep
// their lengths; where more than the move of a fitting, or a pleat, lies between the record
// and the line, only how much they turn is said.
func (w *truer) smoothed(turn float64, one, two ending) (hint string, write []fault.Correction) {
	if math.Abs(turn) > mostSmoothed {
		return say.Of("garment.one-of-its-corners-is-in-the", one.edge.piece.Name, andOther(one, two)), nil
	}
	var free, kept []redrawing
	ways := redrawings(one, two, turn/2)
	for _, drawn := range ways {
		free = append(free, drawn(1))
	}
	if w.mayRedraw(free) {
		return w.drawnSo(free)
	}
	for _, drawn := range ways {
		kept = append(kept, keeping(drawn))
	}
	if w.mayRedraw(kept) {
		return w.drawnSo(kept)
	}
	return say.Of("garment.turn-the-ends-of-both-lines-there", degrees(math.Ceil(math.Abs(turn)/2))), nil
}

// redrawings are the lines drawn anew that lose so many degrees at a join, each by how far
// its handle reaches: two, or one that comes back to the join with its other end.
func redrawings(one, two ending, by float64) (out []func(reach float64) redrawing) {
	was, was2 := one.drawnLength(), two.drawnLength()
	first := func(reach float64) redrawing { return one.redrawn(by, reach, was) }
	second := func(reach float64) redrawing { return two.redrawn(by, reach, was2) }
	switch {
	case one.line != two.line:
		return append(out, first, second)
	case one.atEnd == two.atEnd:
		return append(out, first)
	case one.drawnPart() != two.drawnPart(): // its ends are parts of an edge of several
		return append(out, first, second)
	}
	leaves, arrives := one, two
	if two.atEnd {
		leaves, arrives = two, one
	}
	return append(out, func(reach float64) redrawing { return leaves.bothRedrawn(arrives, by, reach, was) })
}

// bothRedrawn is a line that leaves one corner and arrives at another, was millimetres
// long, drawn anew at both.
func (e ending) bothRedrawn(other ending, by, reach, was float64) redrawing {
	r, o := e.redrawn(by, reach, was), other.redrawn(by, reach, was)
	r.c2 = o.c2
	outline, i := e.line.piece.Outline, e.drawnPart()
	start, to := outline.Start(i), outline.Edges[i].To
	now := shape.Outline{From: start, Edges: []shape.Edge{{To: to, Curved: true, C1: r.c1, C2: r.c2}, {To: start}}}
	r.longer = now.EdgeLength(0) - was
	return r
}

// drawnSo says how lines are drawn anew, and proposes it where each can be written and
// none is meant to be drawn in two ways.
func (w *truer) drawnSo(list []redrawing) (hint string, write []fault.Correction) {
	var said []string
	apart := len(list) == 1 || list[0].edge.note.at != list[1].edge.note.at
	can := true
	for i := range list {
		how, each := w.asWritten(&list[i])
		if slices.Contains(said, how) { // a piece like the other is drawn with it
			continue
		}
		can = can && each != nil && (apart || i == 0)
		said, write = append(said, how), append(write, each...)
	}
	hint = said[0]
	if len(said) > 1 {
		hint += say.Of("garment.and-4", strings.TrimPrefix(said[1], "draw "))
	}
	if !can {
		return hint, nil
	}
	return hint, write
}

// asWritten says how the record, or the file that draws it, has a line drawn anew: in its
// outline, or behind the move of a fitting. The proposal is nil where none can be made.
func (w *truer) asWritten(r *redrawing) (how string, write []fault.Correction) {
	var f fault.Fault
	if a := lastMove(r.edge); a != nil {
		now := "[" + w.written(a.Change.Move.V.MM()) + ", {curve: " + w.curve(r, a.Piece == r.edge.piece.Name && !r.edge.piece.form.pair) + "}]"
		f.InsteadAt(a.Change.Move.At, "", now)
		return say.Of("garment.write-2", a.Change.Edge.V, now), f.Correct
	}
	if there := w.redrawnInFile(r); there != "" {
		return say.Of("garment.draw", there), nil
	}
	curve := "curve: " + w.curve(r, false)
	p, name := w.drawnBy(r.edge.piece), r.edge.note.name
	if r.edge.note.before != "" {
		name = r.edge.note.before
	}
	return say.Of("garment.draw-with", p.inRecord(), name, curve), curveOf(p, r.edge, curve)
}

// drawnBy is the piece whose outline a piece has: itself, or the one it is like.
func (w *index) drawnBy(p *Piece) *Piece {
	for range w.g.Pieces {
		of := w.named[p.Record.Like.V]
		if p.Record.Outline != nil || of == nil {
			break
		}
		p = of
	}
	return p
}

// lastMove is the change of a fitting that only moved an edge, after which nothing altered
// its piece, where a curve can be written behind it; nil where there is none.
func lastMove(e *PieceEdge) *Alteration {
	f := &e.piece.form
	if len(f.altered) == 0 {
		return nil
	}
	a := &f.altered[len(f.altered)-1]
	c := a.Change
	first, parts := f.find(a.edge)
	bare := c.Move.At.Line == c.Edge.At.Line && int(c.Move.At.Column-c.Edge.At.Column) == len([]rune(c.Edge.V))+2 // no braces
	if a.Round == nil || parts != 1 || first != e.Index || !bare || !strings.HasSuffix(c.Edge.V, "."+a.edge) {
		return nil
	}
	return a
}

func andOther(one, two ending) string {
	if one.edge.piece == two.edge.piece {
		return ""
	}
	return say.Of("garment.and-2", two.edge.piece.Name)
}

// mayRedraw reports whether lines can be drawn anew as the record has them, and what
// they are sewn to would meet them still.
func (w *truer) mayRedraw(list []redrawing) bool {
	for i := range list {
		e := list[i].edge
		if len(e.note.altered) > 0 && lastMove(e) == nil || e.piece.letIn() {
			return false
		}
		longer := list[i].longer
		for k := range list {
			if o := list[k].edge; k != i && o.seam == e.seam && o.side == e.side {
				longer += list[k].longer
			}
		}
		if s := e.seam; s != nil && s.Meets && s.Differ.Value.Known() && s.Differ.Value.Number+math.Abs(longer) > s.tolerance(w.tolerance).V {
			return false
		}
	}
	return true
}

// redrawn says how a line is drawn whose corner loses so many degrees: the same
// ends, its control points such that it leaves the corner in that direction, the one at
// the corner so many times as far from it. It was so many millimetres long.
func (e ending) redrawn(by, reach, was float64) redrawing {
	p := e.line.piece
	o := p.Outline
	i := e.drawnPart()
	start, g := o.Start(i), o.Edges[i]
	c1, c2 := g.C1, g.C2
	if !g.Curved {
		c1, c2 = third(start, g.To, 1), third(start, g.To, 2)
	}
	rad := by * math.Pi / 180
	if e.atEnd {
		c1 = further(turned(c1, start, rad), start, reach)
	} else {
		c2 = further(turned(c2, g.To, -rad), g.To, reach)
	}
	now := shape.Outline{From: start, Edges: []shape.Edge{{To: g.To, Curved: true, C1: c1, C2: c2}, {To: start}}}
	return redrawing{e.line, c1, c2, now.EdgeLength(0) - was}
}

// drawnLength is how long that part of the line is, mm.
func (e ending) drawnLength() float64 { return e.line.piece.Outline.EdgeLength(e.drawnPart()) }

// drawnPart is the part of the line at the corner, by its place in the outline: where the
// line arrives there its last one.
func (e ending) drawnPart() int {
	if e.atEnd {
		return e.line.Index
	}
	n := len(e.line.piece.Outline.Edges)
	return (e.line.beside(1).Index + n - 1) % n
}

// further is a point so many times as far from another.
func further(p, from shape.Point, times float64) shape.Point {
	return shape.Point{X: from.X + float64((p.X-from.X)*times), Y: from.Y + float64((p.Y-from.Y)*times)}
}

// curve is the curve of a redrawn line as the record has it: where it draws the line, or
// in what is said of the piece itself.
func (w *truer) curve(r *redrawing, own bool) string {
	f := &r.edge.piece.form
	c1, c2 := r.c1, r.c2
	if f.reversed {
		c1, c2 = c2, c1
	}
	if !own {
		c1, c2 = f.asDrawn(c1), f.asDrawn(c2)
	}
	return fmt.Sprintf("[[%s, %s], [%s, %s]]", w.written(c1.X), w.written(c1.Y), w.written(c2.X), w.written(c2.Y))
}

// redrawnInFile says how a line is redrawn in the file that draws it: the element, its
// line, and the control points in the file's own units; "" where the record draws it.
func (w *truer) redrawnInFile(r *redrawing) string {
	f := &r.edge.piece.form
	o := w.fileDrawing(r.edge.piece)
	if o == nil {
		return ""
	}
	name := r.edge.note.name
	if r.edge.note.before != "" {
		name = r.edge.note.before
	}
	return say.Of("garment.of-as-a-curve-with-control-points", o.Drawn.Drawn[name].String(), fileOf(o), pointIn(o, f.asDrawn(r.c1)), pointIn(o, f.asDrawn(r.c2)))
}

// fileDrawing is the outline from a file that a piece has, or the one it is like; nil where
// the record draws it.
func (w *index) fileDrawing(p *Piece) *record.OutlineSpec {
	if o := w.drawnBy(p).Record.Outline; o != nil && o.Drawn != nil {
		return o
	}
	return nil
}

// fileOf is the name of the file that draws an outline.
func fileOf(o *record.OutlineSpec) string {
	file, _, _ := strings.Cut(o.File.V, "#")
	return file
}

// pointIn is a point of an outline in the units of its file, as x,y.
func pointIn(o *record.OutlineSpec, p shape.Point) string {
	q := o.Drawn.Frame.InFile(p)
	return words.PlainNumber(q.X, 2) + "," + words.PlainNumber(q.Y, 2)
}
