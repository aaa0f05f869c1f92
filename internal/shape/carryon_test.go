package shape

import (
	"math"
	"testing"
)

// A hem hollowed by control points at thirds of its way: at a parameter t it is at
// x = 300 t and, of −60 twice, y = −180 t (1 − t). Where the side beside it moves
// it is cut off, or carried on, where it meets x = 300 ± the move: at 280 t is
// 14/15 and y = −180 · 14/15 · 1/15 = −11.2. It ends rising by 60 on 100, so that 15
// farther out it is carried on to y = 9, longer by √(15² + 9²) = 17.493.
func TestMovedBesideACurve(t *testing.T) {
	hem := Outline{Edges: []Edge{
		{Name: "hem", To: Point{X: 300}, Curved: true, C1: Point{X: 100, Y: -60}, C2: Point{X: 200, Y: -60}},
		{Name: "side", To: Point{X: 300, Y: 500}}, {Name: "top", To: Point{Y: 500}}, {Name: "centre"},
	}}
	back := Outline{From: Point{X: 300, Y: 500}, Edges: []Edge{
		{Name: "top", To: Point{Y: 500}}, {Name: "centre"}, hem.Edges[0], hem.Edges[1],
	}}
	for _, o := range []Outline{hem, back, hem.Reversed()} {
		for by, want := range map[float64]Point{-20: {X: 280, Y: -11.2}, 15: {X: 315, Y: 9}} {
			at := 0
			for o.Edges[at].Name != "side" {
				at++
			}
			d := by
			if o.Area() < 0 {
				d = -by // the outside is on the other hand
			}
			moved, err := o.EdgeMoved(at, 1, d)
			if err != nil {
				t.Fatal(err)
			}
			corner := moved.Start(at)
			if o.Area() < 0 {
				corner = moved.Edges[at].To
			}
			if math.Hypot(corner.X-want.X, corner.Y-want.Y) > 1e-6 {
				t.Errorf("moved by %.0f the hem ends at %.4f, %.4f, not %.4f, %.4f", by, corner.X, corner.Y, want.X, want.Y)
			}
			if by > 0 {
				i := 0
				for moved.Edges[i].Name != "hem" {
					i++
				}
				if got, want := moved.EdgeLength(i)-o.EdgeLength(i), math.Hypot(15, 9); math.Abs(got-want) > 0.01 {
					t.Errorf("carried on the hem is longer by %.3f, not %.3f", got, want)
				}
				continue
			}
			// What stays of the hem lies where it lay.
			for i := range moved.Edges {
				if e := &moved.Edges[i]; e.Name == "hem" {
					for _, part := range []float64{0.25, 0.5, 0.75} {
						p := cubicAt(moved.Start(i), e, part)
						if y := -180 * p.X / 300 * (1 - p.X/300); math.Abs(p.Y-y) > 1e-6 {
							t.Errorf("moved by %.0f the hem passes %.4f, %.4f, not %.4f there", by, p.X, p.Y, y)
						}
					}
				}
			}
		}
	}
}
