package tracing

import (
	"fmt"
	"math"

	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/svg"
	"hembook/internal/shape/trace"
)

// An EdgeName is what an edge is called, and whether it lies on the fold.
type EdgeName struct {
	Name string
	Fold bool
}

// A Length is an edge from corner to corner.
type Length struct {
	EdgeName
	MM       float64
	Straight bool
	Off      float64 // how far the rim strays from it, in millimetres
}

// Count is how many edges the piece has from corner to corner.
func (t *Traced) Count() int { return len(t.spans()) }

// Named calls the edges from corner to corner by names, against the clock from the lower
// left; what has none is "edge 3".
func (t *Traced) Named(names []EdgeName) (out []Length) {
	k := -1
	for i := range t.Outline.Edges {
		e := &t.Outline.Edges[i]
		if t.Edges[i].Corner || k < 0 {
			k++
			name := EdgeName{Name: say.Of("tracing.edge", k+1)}
			if k < len(names) {
				name = names[k]
			}
			out = append(out, Length{EdgeName: name, Straight: !e.Curved})
		}
		e.Name, e.Fold = out[k].Name, out[k].Fold
		out[k].MM += t.Outline.EdgeLength(i)
		out[k].Off = max(out[k].Off, t.Edges[i].Off)
	}
	return out
}

// TakeOff takes an allowance, in millimetres, off every edge that is not on the fold, so
// that the outline is the line that is sewn and no longer the edge of the paper.
func (t *Traced) TakeOff(allowance float64, names []EdgeName) error {
	o, list := t.Outline, t.Named(names)
	var at []shape.Point
	for _, n := range t.Notches {
		p, _ := o.PointAt(n.Edge, n.At)
		at = append(at, p)
	}
	for k, first := range t.spans() {
		if list[k].Fold {
			continue
		}
		moved, err := o.EdgeMoved(first[0], first[1], -allowance)
		if err != nil || moved.Check() != nil {
			return fault.Refusing(say.Of("tracing.give-the-allowance-the-paper-has"), say.Of("tracing.mm-cannot-be-taken-off-at", fmt.Sprintf("%.1f", allowance), list[k].Name))
		}
		o = moved
	}
	t.Outline = o
	for i, p := range at {
		t.Notches[i] = t.notchAt(p)
	}
	return nil
}

// spans are the edges from corner to corner: the first of each, and how many curves.
func (t *Traced) spans() (out [][2]int) {
	for i, e := range t.Edges {
		if e.Corner || len(out) == 0 {
			out = append(out, [2]int{i, 0})
		}
		out[len(out)-1][1]++
	}
	return out
}

// notchLong is how long a notch is drawn, in millimetres.
const notchLong = 5.0

// SVG is the piece as a pattern file that a record can read back.
func (t *Traced) SVG(piece string, names []EdgeName) []byte {
	list := t.Named(names)
	d := drawing.New("piece")
	d.Title = piece
	least, most := t.Outline.Bounds()
	const rim = 10
	d.Box = drawing.Box{Right: most.X - least.X + 2*rim, Bottom: most.Y - least.Y + 2*rim}
	f := drawing.Frame{Left: least.X - rim, Top: most.Y + rim, K: 1}
	for k, span := range t.spans() {
		name := "" // what the file leaves without a name the record may name
		if len(names) > 0 {
			name = trace.Spell(list[k].Name, list[k].Fold, piece)
		}
		d.Named(drawing.SewLine, name).Edges(f, t.Outline, span[0], span[1])
	}
	for i, n := range t.Notches {
		at, way := t.Outline.PointAt(n.Edge, n.At)
		in := shape.Point{X: at.X - notchLong*way.Y, Y: at.Y + notchLong*way.X}
		d.Named(drawing.Notch, say.Of("tracing.notch", i+1)).Lines(f, []shape.Point{at, in})
	}
	for _, m := range t.Drawn {
		if m.Word != "" {
			t.drawMark(d, f, m)
		}
	}
	return svg.Pieces(piece, []*drawing.Drawing{d})
}

// Size is how wide and high the piece is, in millimetres.
func (t *Traced) Size() (wide, high float64) {
	least, most := t.Outline.Bounds()
	return most.X - least.X, most.Y - least.Y
}

// nearMirror is how far a piece may stray from its mirror image and still be meant to be
// the same on both sides, in millimetres.
const nearMirror = 1.5

// Even reports whether the piece is nearly its own mirror image.
func (t *Traced) Even() bool { return t.Mirror < nearMirror && !math.IsNaN(t.Mirror) }
