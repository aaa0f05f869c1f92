package tracing

import (
	"fmt"
	"math"

	"hembook/internal/drawing"
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
func (t *Traced) Count() int { return max(len(t.firsts()), 1) }

// firsts are the edges that begin at a corner.
func (t *Traced) firsts() (out []int) {
	for i, e := range t.Edges {
		if e.Corner {
			out = append(out, i)
		}
	}
	return out
}

// Named calls the edges from corner to corner by names, against the clock from the lower
// left; what has none is "edge 3".
func (t *Traced) Named(names []EdgeName) (out []Length) {
	k := -1
	for i := range t.Outline.Edges {
		e := &t.Outline.Edges[i]
		if t.Edges[i].Corner || k < 0 {
			k++
			name := EdgeName{Name: fmt.Sprintf("edge %d", k+1)}
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
	first := 0
	for k, l := range list {
		count := 1
		for first+count < len(t.Edges) && !t.Edges[first+count].Corner {
			count++
		}
		if k == len(list)-1 {
			count = len(t.Edges) - first
		}
		name := "" // what the file leaves without a name the record may name
		if len(names) > 0 {
			name = trace.Spell(l.Name, l.Fold, piece)
		}
		d.Named(drawing.SewLine, name).Edges(f, t.Outline, first, count)
		first += count
	}
	for i, n := range t.Notches {
		at, way := t.Outline.PointAt(n.Edge, n.At)
		in := shape.Point{X: at.X - notchLong*way.Y, Y: at.Y + notchLong*way.X}
		d.Named(drawing.Notch, fmt.Sprintf("notch %d", i+1)).Lines(f, []shape.Point{at, in})
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
