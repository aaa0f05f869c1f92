package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/shape"
)

// notchLong is how long a notch is drawn at most.
const notchLong = 6.0

// tickLong is how far the tick that stands for a notch in a file reaches into
// the piece.
const tickLong = 3.0

// notches are strokes over the allowance: those of the record, and where a
// dart's legs or a level meet the edge.
func (d *pieceDrawing) notches() {
	p := d.Draw(drawing.Notch)
	for i, n := range d.p.NotchesAlong() {
		at, way, ok := d.p.Outline.PointOn(n.Edge, n.Along)
		if d.has(Named) {
			if ok {
				d.Named(drawing.Notch, numbered("notch", n.Name, i)).Lines(d.f, []shape.Point{at, beyond(at, outward(way), -tickLong)})
			}
			continue
		}
		for k := range d.p.Edges {
			if e := &d.p.Edges[k]; ok && e.Name == n.Edge {
				d.notch(p, at, outward(way), e)
			}
		}
	}
	if d.has(Named) {
		return // darts and levels are read as what they are
	}
	for _, dart := range d.p.Darts {
		way, long := toward(dart.Plan.Begin, dart.Plan.End)
		if e := d.edgeAt(beyond(dart.Plan.Begin, way, long/2)); e != nil {
			d.notch(p, dart.Plan.Begin, outward(way), e)
			d.notch(p, dart.Plan.End, outward(way), e)
		}
	}
	for _, q := range d.p.PleatFolds {
		for end, edge := range [...]string{q.Edge, q.Lines.Far} {
			for _, line := range [...]shape.Line{q.Lines.Place, q.Lines.Outer} {
				at, next := line[0], line[1]
				if end == 1 {
					at, next = line[len(line)-1], line[len(line)-2]
				}
				for k := range d.p.Edges {
					if e := &d.p.Edges[k]; e.Name == edge && (end == 0 || !q.Soft) {
						way, _ := toward(next, at)
						d.notch(p, at, way, e)
					}
				}
			}
		}
	}
	for _, l := range d.p.AtLevels {
		for _, span := range d.p.Outline.WidthsAt(l.Y) {
			for _, end := range []struct{ x, way float64 }{{span.From, -1}, {span.To, 1}} {
				q := shape.Point{X: end.x, Y: l.Y}
				if e := d.edgeAt(q); e != nil {
					d.notch(p, q, shape.Point{X: end.way}, e)
				}
			}
		}
	}
}

// notch draws one, as long as the allowance it lies on but no longer than
// notchLong, its outer end on the cut line.
func (d *pieceDrawing) notch(p *drawing.Path, q, out shape.Point, e *garment.PieceEdge) {
	if e.Fold || !e.Allowance.Value.Known() || e.Allowance.Value.Number <= 0 {
		return
	}
	far := e.Allowance.Value.Number
	p.Lines(d.f, []shape.Point{beyond(q, out, max(far-notchLong, 0)), beyond(q, out, far)})
}

// edgeAt is the edge nearest a point, if one runs through it or near by: a
// dart's mouth on a curved edge lies a little off it.
func (d *pieceDrawing) edgeAt(q shape.Point) *garment.PieceEdge {
	d.flattened()
	best, edge := 6.0, -1
	for i, a := range d.flat {
		if far := fromStretch(q, a, d.flat[(i+1)%len(d.flat)]); far < best {
			best, edge = far, d.flatOf[i]
		}
	}
	if edge < 0 {
		return nil
	}
	n := len(d.p.Outline.Edges)
	for k := range d.p.Edges {
		if side, ok := d.p.Outline.Side(d.p.Edges[k].Name); ok && (edge-side.First+n)%n < side.Count {
			return &d.p.Edges[k]
		}
	}
	return nil
}

// flattened is the sewing line in straight stretches.
func (d *pieceDrawing) flattened() shape.Ring {
	if d.flat == nil {
		d.flat, d.flatOf = d.p.Outline.Flatten(0.1)
	}
	return d.flat
}

// fromStretch is how far a point lies from a straight stretch.
func fromStretch(q, a, b shape.Point) float64 {
	way, off := b.Sub(a), q.Sub(a)
	t := 0.0
	if long := float64(way.X*way.X) + float64(way.Y*way.Y); long > 0 {
		t = min(max((float64(off.X*way.X)+float64(off.Y*way.Y))/long, 0), 1)
	}
	_, far := toward(q, beyond(a, way, t))
	return far
}

// toward is the direction from one point to another and how far it is; to the
// right where they are one.
func toward(a, b shape.Point) (way shape.Point, far float64) {
	v := b.Sub(a)
	if far = math.Sqrt(float64(v.X*v.X) + float64(v.Y*v.Y)); far == 0 {
		return shape.Point{X: 1}, 0
	}
	return shape.Point{X: v.X / far, Y: v.Y / far}, far
}

// outward is square to the way an outline runs, away from the piece: the
// inside lies to the left.
func outward(way shape.Point) shape.Point { return shape.Point{X: way.Y, Y: -way.X} }

// beyond is a point so many lengths of v away from another.
func beyond(a, v shape.Point, by float64) shape.Point {
	return shape.Point{X: a.X + float64(v.X*by), Y: a.Y + float64(v.Y*by)}
}
