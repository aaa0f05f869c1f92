package shape

import (
	"fmt"
	"math"
)

// A RingSkirt is a skirt cut as part of a flat ring, or of several rings
// sewn together. Lengths in millimetres, area in square millimetres,
// PanelAngle in radians.
type RingSkirt struct {
	Turns, Waist, Length     float64
	Panels                   int
	InnerRadius, OuterRadius float64
	Hem                      float64 // all panels together
	Area                     float64 // all panels together, no allowances
	PanelAngle               float64
	// Panel is one panel with its waist up and the centre of the ring at
	// the origin; its edges are named waist, left, hem and right. A panel
	// of a whole turn has its left and right edges in the same place: it
	// can be drawn and measured, but has no room for their allowances.
	Panel Outline
}

// widest is the greatest radius drawn, in millimetres: the control points
// of its arcs still lie within reach.
const widest = 0.9 * reach

// mostTurns is the fullest skirt that is still answered.
const mostTurns = 16

// NewRingSkirt works out a ring skirt of that many turns (1 is a full
// circle, 0.5 a half), the waist measured on the seam line, the finished
// length, and the number of equal panels. Lengths in millimetres. The
// inner radius is waist / 2πk, hem = 2πk(r + length), area = πk((r +
// length)² − r²): the geometry of the circle.
func NewRingSkirt(turns, waist, length float64, panels int) (RingSkirt, error) {
	if err := positive("waist", waist, "length", length); err != nil {
		return RingSkirt{}, err
	}
	if !(turns >= 0.01 && turns <= mostTurns) {
		return RingSkirt{}, fmt.Errorf("a circle skirt is between 0.01 and %d of a circle, not %g", mostTurns, turns)
	}
	if panels < 1 || panels > 360 {
		return RingSkirt{}, fmt.Errorf("a circle skirt has between 1 and 360 panels, not %d", panels)
	}
	if turns > float64(panels) {
		return RingSkirt{}, fmt.Errorf("a panel cannot go round more than once: %g turns need at least %.0f panels, not %d",
			turns, math.Ceil(turns), panels)
	}
	full := 2 * math.Pi * turns
	s := RingSkirt{Turns: turns, Waist: waist, Length: length, Panels: panels, InnerRadius: waist / full}
	s.OuterRadius = s.InnerRadius + length
	if s.OuterRadius > widest {
		return RingSkirt{}, fmt.Errorf("the outer radius would be %.0f m", s.OuterRadius/1000)
	}
	s.Hem = full * s.OuterRadius
	s.Area = full / 2 * length * (s.OuterRadius + s.InnerRadius)
	s.PanelAngle = full / float64(panels)
	s.Panel = ringPanel(s.InnerRadius, s.OuterRadius, s.PanelAngle)
	return s, nil
}

// ringPanel draws a stretch of a ring about the origin, symmetrical about
// the downward axis, counter-clockwise from the right end of its waist.
func ringPanel(inner, outer, angle float64) Outline {
	right, left := angle/2-math.Pi/2, -angle/2-math.Pi/2
	o := Outline{From: onCircle(inner, right)}
	o.Edges = appendArc(o.Edges, "waist", inner, right, left)
	o.Edges = append(o.Edges, Edge{Name: "left", To: onCircle(outer, left)})
	o.Edges = appendArc(o.Edges, "hem", outer, left, right)
	o.Edges = append(o.Edges, Edge{Name: "right", To: o.From})
	return o
}

// onCircle is the point of a circle about the origin at an angle counted
// counter-clockwise from the x axis.
func onCircle(radius, angle float64) Point {
	sin, cos := math.Sincos(angle)
	return snap(Point{radius * cos, radius * sin})
}

// arcStep is the widest angle one cubic is asked to stand for.
const arcStep = math.Pi / 6

// appendArc adds an arc about the origin, from one angle to another, as
// cubics of one name. Their control points are set so that each cubic
// encloses exactly the sector's area; the length is then right to one part
// in ten million.
func appendArc(edges []Edge, name string, radius, from, to float64) []Edge {
	n := int(max(1, math.Ceil(math.Abs(to-from)/arcStep-1e-9)))
	step := (to - from) / float64(n)
	handle := radius * arcHandle(math.Abs(step)) * math.Copysign(1, step)
	for k := range n {
		a := from + step*float64(k)
		b := a + step
		if k == n-1 {
			b = to
		}
		p, q := onCircle(radius, a), onCircle(radius, b)
		pa, qa := onCircle(handle, a+math.Pi/2), onCircle(handle, b+math.Pi/2)
		edges = append(edges, Edge{Name: name, To: q, C1: p.Add(pa), C2: q.Sub(qa), Curved: true})
	}
	return edges
}

// arcHandle returns the distance from the end of an arc of radius 1 to its
// control point that makes the cubic's area the sector's: the smaller root
// of s·h² − 4(1−c)·h + 10/3·(α−s) = 0, s and c the sine and cosine of α.
// For a small angle, where that loses its digits, 4/3·tan(α/4) is as exact.
func arcHandle(angle float64) float64 {
	if angle < 0.02 {
		return 4.0 / 3 * math.Tan(angle/4)
	}
	s := math.Sin(angle)
	half := math.Sin(angle / 2)
	b := 8 * half * half // 4(1−c)
	return (b - math.Sqrt(b*b-40.0/3*s*(angle-s))) / (2 * s)
}
