package shape

import (
	"cmp"
	"slices"
)

// A Span is a stretch across the piece, from x to x in millimetres.
type Span struct{ From, To float64 }

// Width returns the length of the span in millimetres.
func (s Span) Width() float64 { return s.To - s.From }

// A LevelPoint is where a level line crosses an outline: at X, on edge Edge,
// Along millimetres from where that edge begins.
type LevelPoint struct {
	X     float64
	Edge  int
	Along float64
}

// A hit is where a level line crosses an edge: at x, at parameter t.
type hit struct {
	x, t float64
	edge int
}

// WidthsAt returns the stretches inside the outline at level y, from left
// to right. At a level where the outline has a level edge the stretches
// just above it count, and at the very top those just below.
func (o Outline) WidthsAt(y float64) []Span {
	var room [16]hit
	hits := o.hitsAt(room[:0], y)
	var spans []Span
	for k := 0; k+1 < len(hits); k += 2 {
		if hits[k+1].x > hits[k].x {
			spans = append(spans, Span{hits[k].x, hits[k+1].x})
		}
	}
	return spans
}

// LevelPoints returns where a level line crosses the outline, from left to
// right; two by two they are the ends of the stretches of [Outline.WidthsAt].
func (o Outline) LevelPoints(y float64) []LevelPoint {
	var room [16]hit
	hits := o.hitsAt(room[:0], y)
	out := make([]LevelPoint, 0, len(hits))
	for k := 0; k+1 < len(hits); k += 2 {
		if hits[k+1].x > hits[k].x {
			out = append(out, o.levelPoint(hits[k]), o.levelPoint(hits[k+1]))
		}
	}
	return out
}

func (o Outline) levelPoint(h hit) LevelPoint {
	c := LevelPoint{X: h.x, Edge: h.edge}
	if o.Edges[h.edge].Curved {
		c.Along = o.cubic(h.edge).lengthTo(h.t)
	} else {
		c.Along = h.t * o.EdgeLength(h.edge)
	}
	return c
}

// hitsAt adds where a level line crosses the outline, from left to right.
func (o Outline) hitsAt(hits []hit, y float64) []hit {
	_, most := o.Bounds()
	top := y >= most.Y
	if y > most.Y+touch {
		return nil
	}
	for i := range o.Edges {
		hits = o.levelHits(hits, i, y, top)
	}
	slices.SortFunc(hits, func(a, b hit) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.edge, b.edge)) })
	return hits
}

// levelHits adds where edge i crosses the level.
func (o Outline) levelHits(hits []hit, i int, y float64, top bool) []hit {
	a, e := o.Start(i), o.Edges[i]
	if !e.Curved {
		if crossesLevel(a.Y, e.To.Y, y, top) {
			t := (y - a.Y) / (e.To.Y - a.Y)
			hits = append(hits, hit{a.X + t*(e.To.X-a.X), t, i})
		}
		return hits
	}
	c := o.cubic(i)
	turns := turningPoints(a.Y, e.C1.Y, e.C2.Y, e.To.Y)
	slices.Sort(turns[:])
	from := 0.0
	for _, t := range append(turns[:], 1) {
		if t > from && t <= 1 {
			hits = c.levelHit(hits, i, from, t, y, top)
			from = t
		}
	}
	return hits
}

// levelHit adds where the curve, edge i, crosses the level between two
// parameters with no turning point between them.
func (c cubic) levelHit(hits []hit, i int, from, to, y float64, top bool) []hit {
	start, end := c.level(from), c.level(to)
	if !crossesLevel(start, end, y, top) {
		return hits
	}
	rising := start < end
	for range 60 {
		mid := (from + to) / 2
		if (c.at(mid).Y < y) == rising {
			from = mid
		} else {
			to = mid
		}
	}
	t := (from + to) / 2
	return append(hits, hit{c.at(t).X, t, i})
}

// level is the y at t, at the ends the very one the neighbours have.
func (c cubic) level(t float64) float64 {
	switch t {
	case 0:
		return c[0].Y
	case 1:
		return c[3].Y
	}
	return c.at(t).Y
}

// crossesLevel reports whether a stretch from height a to height b passes
// y. A point just at y counts as above it, at the very top as below, so
// that each corner is counted once.
func crossesLevel(a, b, y float64, top bool) bool {
	if top {
		return (a < y) != (b < y)
	}
	return (a <= y) != (b <= y)
}
