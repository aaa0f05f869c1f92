package dxf

import (
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// refused are entities later than release 12, and those that are no lines in
// one plane.
var refused = []string{"SPLINE", "ELLIPSE", "3DFACE", "3DSOLID", "REGION", "BODY", "MLINE", "XLINE", "RAY"}

// stroke reads the geometry of an entity; nil where it draws nothing.
func stroke(e *entity) (*trace.Stroke, *fault.Fault) {
	at := func(x, y int) shape.Point { return shape.Point{X: e.number(x), Y: e.number(y)} }
	switch e.kind {
	case "POINT":
		return &trace.Stroke{From: at(10, 20)}, nil
	case "LINE":
		return &trace.Stroke{From: at(10, 20), Parts: []shape.Edge{{To: at(11, 21)}}}, nil
	case "ARC":
		begin, end := e.number(50), e.number(51)
		turn := math.Mod(end-begin, 360)
		if turn <= 0 {
			turn += 360
		}
		return arc(at(10, 20), e.number(40), begin, turn), nil
	case "CIRCLE":
		s := arc(at(10, 20), e.number(40), 0, 360)
		if s != nil {
			s.Closed = true
		}
		return s, nil
	case "POLYLINE":
		return polyline(e)
	case "LWPOLYLINE":
		return light(e), nil
	}
	if slices.Contains(refused, e.kind) {
		return nil, wrong(e.where(), say.Of("dxf.export-it-as-dxf-release-12-which"), say.Of("dxf.a-cannot-be-read", e.kind))
	}
	return nil, nil
}

// arc is an arc against the clock about a centre; angles in degrees.
func arc(centre shape.Point, radius, begin, turn float64) *trace.Stroke {
	if !(radius > 0) {
		return nil
	}
	on := func(degrees float64) shape.Point {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return shape.Point{X: centre.X + float64(radius*cos), Y: centre.Y + float64(radius*sin)}
	}
	s := &trace.Stroke{From: on(begin)}
	s.Parts = appendArc(nil, centre, s.From, on(begin+turn), turn*math.Pi/180)
	return s
}

// step is the greatest turn of one cubic: at 22.5° it strays from a circle by
// 7 parts in 100 million of its radius.
const step = math.Pi / 8

// appendArc adds an arc about a centre as cubics; it turns by so many radians
// against the clock.
func appendArc(parts []shape.Edge, centre, from, to shape.Point, turn float64) []shape.Edge {
	n := max(int(math.Ceil(math.Abs(turn)/step-1e-9)), 1)
	each := turn / float64(n)
	k := 4.0 / 3 * math.Tan(each/4)
	sin, cos := math.Sincos(each)
	r := from.Sub(centre)
	for i := range n {
		next := shape.Point{X: float64(r.X*cos) - float64(r.Y*sin), Y: float64(r.X*sin) + float64(r.Y*cos)}
		e := shape.Edge{Curved: true, To: centre.Add(next),
			C1: centre.Add(shape.Point{X: r.X - float64(k*r.Y), Y: r.Y + float64(k*r.X)}),
			C2: centre.Add(shape.Point{X: next.X + float64(k*next.Y), Y: next.Y - float64(k*next.X)})}
		if i == n-1 {
			e.To = to
		}
		parts, r = append(parts, e), next
	}
	return parts
}

// A vertex is a point of a polyline with the bulge of the part that begins
// there: the tangent of a quarter of the angle the part turns by against the
// clock, 0 where it is straight (from memory: DXF reference, VERTEX).
type vertex struct {
	at    shape.Point
	bulge float64
}

func polyline(e *entity) (*trace.Stroke, *fault.Fault) {
	flags, _ := e.get(70)
	if flags.whole()&(16|64) != 0 {
		return nil, wrong(e.where(), "", say.Of("dxf.a-mesh-cannot-be-read"))
	}
	var list []vertex
	for i := range e.kids {
		v := &e.kids[i]
		f, _ := v.get(70)
		if f.whole()&16 != 0 { // a control point of the curve its other points follow
			continue
		}
		list = append(list, vertex{shape.Point{X: v.number(10), Y: v.number(20)}, v.number(42)})
	}
	return join(list, flags.whole()&1 != 0), nil
}

// light reads a polyline whose points stand in it one after the other.
func light(e *entity) *trace.Stroke {
	var list []vertex
	closed := false
	for _, p := range e.pairs {
		switch last := len(list) - 1; {
		case p.code == 70:
			closed = p.whole()&1 != 0
		case p.code == 10:
			list = append(list, vertex{at: shape.Point{X: p.number()}})
		case p.code == 20 && last >= 0:
			list[last].at.Y = p.number()
		case p.code == 42 && last >= 0:
			list[last].bulge = p.number()
		}
	}
	return join(list, closed)
}

// join draws a line through vertices.
func join(list []vertex, closed bool) *trace.Stroke {
	if len(list) == 0 {
		return nil
	}
	s := &trace.Stroke{From: list[0].at, Closed: closed}
	for i := range list {
		next := i + 1
		if next == len(list) {
			if !closed || list[i].at == list[0].at {
				break
			}
			next = 0
		}
		s.Parts = appendBulge(s.Parts, list[i].at, list[next].at, list[i].bulge)
	}
	return s
}

// appendBulge adds the part between two vertices.
func appendBulge(parts []shape.Edge, from, to shape.Point, bulge float64) []shape.Edge {
	chord := to.Sub(from)
	if math.Abs(bulge) < 1e-9 || math.Abs(bulge) > 1e6 || from == to {
		return append(parts, shape.Edge{To: to})
	}
	// the centre lies on the chord's bisector, chord × (1 − b²) / 4b to its left
	h := (1 - float64(bulge*bulge)) / (4 * bulge)
	centre := shape.Point{X: (from.X+to.X)/2 - float64(h*chord.Y), Y: (from.Y+to.Y)/2 + float64(h*chord.X)}
	return appendArc(parts, centre, from, to, 4*math.Atan(bulge))
}
