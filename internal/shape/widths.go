package shape

import "slices"

// A Span is a stretch across the piece, from x to x in millimetres.
type Span struct{ From, To float64 }

// Width returns the length of the span in millimetres.
func (s Span) Width() float64 { return s.To - s.From }

// WidthsAt returns the stretches inside the outline at level y, from left
// to right. At a level where the outline has a level edge the stretches
// just above it count, and at the very top those just below.
func (o Outline) WidthsAt(y float64) []Span {
	_, most := o.Bounds()
	top := y >= most.Y
	if y > most.Y+touch {
		return nil
	}
	var room [16]float64
	hits := room[:0]
	for i := range o.Edges {
		hits = o.levelHits(hits, i, y, top)
	}
	slices.Sort(hits)
	var spans []Span
	for k := 0; k+1 < len(hits); k += 2 {
		if hits[k+1] > hits[k] {
			spans = append(spans, Span{hits[k], hits[k+1]})
		}
	}
	return spans
}

// levelHits adds the x at which edge i crosses the level.
func (o Outline) levelHits(hits []float64, i int, y float64, top bool) []float64 {
	a, e := o.Start(i), o.Edges[i]
	if !e.Curved {
		if crossesLevel(a.Y, e.To.Y, y, top) {
			hits = append(hits, a.X+(y-a.Y)/(e.To.Y-a.Y)*(e.To.X-a.X))
		}
		return hits
	}
	c := o.cubic(i)
	turns := turningPoints(a.Y, e.C1.Y, e.C2.Y, e.To.Y)
	slices.Sort(turns[:])
	from := 0.0
	for _, t := range append(turns[:], 1) {
		if t > from && t <= 1 {
			hits = c.levelHit(hits, from, t, y, top)
			from = t
		}
	}
	return hits
}

// levelHit adds the x at which the curve crosses the level between two
// parameters with no turning point between them.
func (c cubic) levelHit(hits []float64, from, to, y float64, top bool) []float64 {
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
	return append(hits, c.at((from+to)/2).X)
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
