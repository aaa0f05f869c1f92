package garment

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

const mm = measure.UnitMM

// mostCorners bounds the corners of an outline whose area is told corner by
// corner.
const mostCorners = 8

// areaWithin is the area of an outline, told as simply as its form allows: a
// rectangle by its sides, one of few straight edges by the strips under them,
// any other by its corners and what its curves bring or take.
func (w *derivation) areaWithin(o *shape.Outline) figure.Term {
	corners := make([]shape.Point, len(o.Edges))
	curved := false
	for i := range o.Edges {
		corners[i] = o.Start(i)
		curved = curved || o.Edges[i].Curved
	}
	if !curved {
		return w.polygonArea(corners)
	}
	within := ringArea(corners)
	terms := []figure.Term{w.Found("corners", within/100, measure.UnitCM2)}
	for i := range o.Edges {
		if !o.Edges[i].Curved {
			continue
		}
		terms = append(terms, w.Found(o.Edges[i].Name, o.Bulge(i)/100, measure.UnitCM2))
	}
	return w.NamedSum(terms...)
}

// cutArea is the area of what is drawn, allowances included.
func (w *derivation) cutArea(p *Piece) figure.Term {
	if r := p.Cut.Ring; len(p.Cut.Holes) == 0 && len(r) <= mostCorners && math.Abs(ringArea(r)-p.Cut.Area) < 1e-3 {
		return w.polygonArea(r)
	}
	return w.Found(say.Of("garment.within-the-cut-outline"), p.Cut.Area/100, measure.UnitCM2)
}

// polygonArea is the area within straight edges.
func (w *derivation) polygonArea(c []shape.Point) figure.Term {
	at := func(v float64) figure.Term { return w.Constant(v, mm) }
	if wide, high, ok := upright(c); ok {
		return at(wide).Times(at(high))
	}
	if len(c) > mostCorners {
		return w.Found(say.Of("garment.within-the-corners"), ringArea(c)/100, measure.UnitCM2)
	}
	var strips []figure.Term
	for i, a := range c {
		if b := c[(i+1)%len(c)]; a.Y != b.Y && a.X+b.X != 0 {
			strips = append(strips, at(a.X).Plus(at(b.X)).Times(at(b.Y).Minus(at(a.Y))))
		}
	}
	if len(strips) == 0 {
		return at(0).Times(at(0))
	}
	return w.Sum(strips...).Part(2)
}

// upright tells the sides of a rectangle that stands upright.
func upright(c []shape.Point) (wide, high float64, ok bool) {
	if len(c) != 4 {
		return 0, 0, false
	}
	for i, a := range c {
		b, d := c[(i+1)%4], c[(i+2)%4]
		if a.X != b.X && a.Y != b.Y || a.X == b.X && b.X == d.X || a.Y == b.Y && b.Y == d.Y {
			return 0, 0, false
		}
	}
	return math.Abs(c[0].X - c[2].X), math.Abs(c[0].Y - c[2].Y), true
}

// ringArea is the area within corners that run against the clock.
func ringArea(c []shape.Point) float64 {
	sum := 0.0
	for i, a := range c {
		b := c[(i+1)%len(c)]
		sum += float64(a.X*b.Y) - float64(b.X*a.Y)
	}
	return sum / 2
}
