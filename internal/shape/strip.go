package shape

import (
	"hembook/internal/say"
)

// What keeps a strip from being drawn along edges.
var (
	ErrStripWide   = say.Error("shape.the-strip-is-wider-than-the-piece")
	ErrStripRound  = say.Error("shape.it-would-go-round-the-whole-piece")
	ErrStripSmooth = say.Error("shape.the-next-edge-goes-straight-on-from")
)

// StripAlong is a strip of the outline, width millimetres wide, along count of its edges
// from edge first on: these, what of the edges beside them lies within the width, and an
// inner edge of the name given. was says of each of its edges which of the outline it is a
// part of, −1 of the inner one. The inner edge is the outer one as [Outline.EdgeMoved]
// moves it.
func (o Outline) StripAlong(first, count int, width float64, inner string) (strip Outline, was []int, err error) {
	n := len(o.Edges)
	if count+2 > n {
		return o, nil, ErrStripRound
	}
	moved, err := o.EdgeMoved(first, count, -width)
	if err != nil {
		return o, nil, ErrStripWide
	}
	after, before := (first+count)%n, (first+n-1)%n
	strip.From = o.Start(first)
	add := func(e Edge, of int) { strip.Edges, was = append(strip.Edges, e), append(was, of) }
	for k := range count {
		i := (first + k) % n
		add(o.Edges[i], i)
	}
	end, start := moved.Start(after), moved.Start(first)
	trail, err := o.partTo(after, end, true)
	if err != nil {
		return o, nil, err
	}
	add(trail, after)
	for k := count - 1; k >= 0; k-- {
		i := (first + k) % n
		e := moved.Edges[i]
		e.Name, e.Fold, e.C1, e.C2, e.To = inner, false, e.C2, e.C1, moved.Start(i)
		add(e, -1)
	}
	lead, err := o.partTo(before, start, false)
	if err != nil {
		return o, nil, err
	}
	add(lead, before)
	if strip.Check() != nil {
		return o, nil, ErrStripWide
	}
	return strip, was, nil
}

// partTo is the part of an edge up to a place on it, or from there on.
func (o Outline) partTo(i int, at Point, upTo bool) (Edge, error) {
	e, start := o.Edges[i], o.Start(i)
	c := o.cubic(i)
	t, far := c.closest(at)
	switch {
	case far > slack && t >= 1-1e-6 && upTo, far > slack && t <= 1e-6 && !upTo:
		return e, ErrStripWide
	case far > slack, upTo && t <= 1e-9, !upTo && t >= 1-1e-9:
		return e, ErrStripSmooth
	case upTo && t >= 1-1e-9, !upTo && t <= 1e-9:
		return e, ErrStripWide
	}
	end := e.To
	if e.Curved && upTo {
		cutCurve(&e, start, 0, t)
	} else if e.Curved {
		cutCurve(&e, start, t, 1)
	}
	if e.To = end; upTo {
		e.To = at
	}
	return e, nil
}
