package shape

import (
	"errors"
	"math"
	"testing"
)

// The sums beside the cases are those of their figures: rectangles, and rings between two
// circles, which a cubic follows within 0.03 %.
func TestStripAlong(t *testing.T) {
	box := Outline{Edges: []Edge{
		{Name: "bottom", To: Point{200, 0}}, {Name: "right", To: Point{200, 300}}, {Name: "top", To: Point{0, 300}}, {Name: "left", To: Point{}},
	}}
	const k = 0.5522847498
	neck := Outline{From: Point{0, 0}, Edges: []Edge{ // a neck of a quarter circle of 70 about [0, 300]
		{Name: "hem", To: Point{200, 0}}, {Name: "side", To: Point{200, 300}}, {Name: "shoulder", To: Point{70, 300}},
		{Name: "neck", To: Point{0, 230}, Curved: true, C1: Point{70, 300 - 70*k}, C2: Point{70 * k, 230}}, {Name: "centre", To: Point{}, Fold: true},
	}}
	for _, c := range []struct {
		name         string
		of           Outline
		first, count int
		width        float64
		area, inner  float64
		edges        int
		err          error
	}{
		{"one side", box, 0, 1, 40, 200 * 40, 200, 4, nil},
		{"round a corner", box, 1, 2, 40, 300*40 + 160*40, 260 + 160, 6, nil},
		{"over where the outline begins", box, 3, 2, 25, 300*25 + 175*25, 275 + 175, 6, nil},
		{"a neck", neck, 3, 1, 50, math.Pi / 4 * (120*120 - 70*70), math.Pi / 2 * 120, 4, nil},
		{"shoulder and neck", neck, 2, 2, 50, 0, 0, 6, nil},
		{"as wide as the piece", box, 0, 1, 300, 0, 0, 0, ErrStripWide},
		{"wider", box, 0, 1, 310, 0, 0, 0, ErrStripWide},
		{"wider than the shoulder", neck, 3, 1, 140, 0, 0, 0, ErrStripWide},
		{"all round", box, 0, 3, 20, 0, 0, 0, ErrStripRound},
	} {
		got, was, err := c.of.StripAlong(c.first, c.count, c.width, "inner")
		if !errors.Is(err, c.err) {
			t.Errorf("%s: %v, want %v", c.name, err, c.err)
			continue
		}
		if err != nil {
			continue
		}
		length, _ := got.LengthOf("inner")
		if c.area > 0 && (math.Abs(got.Area()-c.area) > 4e-4*c.area || math.Abs(length-c.inner) > 4e-4*c.inner) {
			t.Errorf("%s: area %v, inner %v; want %v, %v", c.name, got.Area(), length, c.area, c.inner)
		}
		if len(got.Edges) != c.edges || len(was) != c.edges || got.Check() != nil {
			t.Errorf("%s: %d edges of %v, %v", c.name, len(got.Edges), was, got.Check())
		}
		for i, of := range was { // what is kept keeps its name and lies on the edge it was
			if of < 0 {
				continue
			}
			if e := got.Edges[i]; e.Name != c.of.Edges[of].Name || e.Fold != c.of.Edges[of].Fold {
				t.Errorf("%s: edge %d is %v of %v", c.name, i, e, c.of.Edges[of])
			}
			curve := c.of.cubic(of)
			if _, far := curve.closest(got.cubic(i).at(0.5)); far > 0.02 {
				t.Errorf("%s: edge %d lies %v beside the one it was", c.name, i, far)
			}
		}
	}
}
