package garment

import (
	"fmt"
	"math"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
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

// smoothed says how both lines would be drawn to run across the join without a
// turn: each takes half of it. Where that would take a seam apart that meets, or a round
// of fitting or a pleat lies between the record and the line, only how much they turn is said.
func (w *truer) smoothed(turn float64, one, two ending) (hint string, write []fault.Correction) {
	if math.Abs(turn) > mostSmoothed {
		return "one of its corners is in the wrong place: look at " + one.edge.piece.Name + andOther(one, two), nil
	}
	list := []redrawing{redrawn(one, turn/2)}
	if one.line != two.line || one.atEnd != two.atEnd {
		list = append(list, redrawn(two, turn/2))
	}
	if !w.mayRedraw(list) {
		return "turn the ends of both lines there by " + degrees(math.Ceil(math.Abs(turn)/2)) + " each, and keep their lengths", nil
	}
	alone := len(list) == 1 || list[0].edge != list[1].edge
	for i := range list {
		r := &list[i]
		curve := w.curve(r)
		said := r.edge.ref + " with curve: " + curve
		if there := w.redrawnInFile(r); there != "" {
			said = there
		}
		switch {
		case i == 0:
			hint = "draw " + said
		case "draw "+said != hint: // a piece like the other is drawn with it
			hint += ", and " + said
		}
		each := curveOf(r.edge, curve)
		alone = alone && each != nil
		write = append(write, each...)
	}
	if !alone {
		return hint, nil
	}
	return hint, write
}

func andOther(one, two ending) string {
	if one.edge.piece == two.edge.piece {
		return ""
	}
	return " and " + two.edge.piece.Name
}

// mayRedraw reports whether lines can be drawn anew as the record has them, and what
// they are sewn to would meet them still.
func (w *truer) mayRedraw(list []redrawing) bool {
	for i := range list {
		e := list[i].edge
		if len(e.note.altered) > 0 || e.piece.letIn() {
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
// ends, its control points such that it leaves the corner in that direction.
func redrawn(e ending, by float64) redrawing {
	p := e.line.piece
	o := p.Outline
	i := e.line.Index
	if !e.atEnd { // the line arrives at the corner: its last part
		i = (e.line.beside(1).Index + len(o.Edges) - 1) % len(o.Edges)
	}
	start, g := o.Start(i), o.Edges[i]
	c1, c2 := g.C1, g.C2
	if !g.Curved {
		c1, c2 = third(start, g.To, 1), third(start, g.To, 2)
	}
	rad := by * math.Pi / 180
	if e.atEnd {
		c1 = turned(c1, start, rad)
	} else {
		c2 = turned(c2, g.To, -rad)
	}
	before := o.EdgeLength(i)
	now := shape.Outline{From: start, Edges: []shape.Edge{{To: g.To, Curved: true, C1: c1, C2: c2}, {To: start}}}
	return redrawing{e.line, c1, c2, now.EdgeLength(0) - before}
}

// curve is the curve of a redrawn line as the record has it.
func (w *truer) curve(r *redrawing) string {
	c1, c2 := r.c1, r.c2
	if r.edge.piece.form.reversed {
		c1, c2 = c2, c1
	}
	return fmt.Sprintf("[[%s, %s], [%s, %s]]", w.written(c1.X), w.written(c1.Y), w.written(c2.X), w.written(c2.Y))
}

// redrawnInFile says how a line is redrawn in the file that draws it: the element, its
// line, and the control points in the file's own units; "" where the record draws it.
func (w *truer) redrawnInFile(r *redrawing) string {
	o := w.fileDrawing(r.edge.piece)
	if o == nil {
		return ""
	}
	name := r.edge.note.name
	if r.edge.note.before != "" {
		name = r.edge.note.before
	}
	return o.Drawn.Drawn[name].String() + " of " + fileOf(o) + " as a curve with control points " + pointIn(o, r.c1) + " and " + pointIn(o, r.c2)
}

// fileDrawing is the outline from a file that a piece has, or the one it is like; nil where
// the record draws it.
func (w *index) fileDrawing(p *Piece) *record.OutlineSpec {
	for range w.g.Pieces {
		if o := p.Record.Outline; o != nil {
			if o.Drawn == nil {
				return nil
			}
			return o
		}
		if p = w.named[p.Record.Like.V]; p == nil {
			return nil
		}
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
