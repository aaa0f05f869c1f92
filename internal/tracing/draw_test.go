package tracing

import (
	"math"
	"testing"

	"hembook/internal/shape"
)

// square is a traced square of 100 mm whose edges begin at corners, the last drawn in
// two curves, with a notch 30 mm along the second.
func square() *Traced {
	at := func(x, y float64) shape.Edge { return shape.Edge{To: shape.Point{X: x, Y: y}} }
	return &Traced{Outline: shape.Outline{Edges: []shape.Edge{at(100, 0), at(100, 100), at(0, 100), at(0, 40), at(0, 0)}},
		Edges: []Seen{{Corner: true}, {Corner: true}, {Corner: true}, {Corner: true}, {}}, Notches: []Notch{{Edge: 1, At: 30}}}
}

// TestNamesAndAllowance: 10 mm off three edges of a square of 100 mm leave 90 by 80; the
// edge on the fold stays, and the notch lies across from where it lay.
func TestNamesAndAllowance(t *testing.T) {
	s := square()
	names := []EdgeName{{Name: "hem"}, {Name: "side"}, {Name: "waist"}, {Name: "centre", Fold: true}}
	if err := s.TakeOff(10, names); err != nil {
		t.Fatal(err)
	}
	if s.Count() != 4 {
		t.Errorf("%d edges", s.Count())
	}
	for i, want := range []float64{90, 80, 90, 80} {
		if got := s.Named(names)[i]; math.Abs(got.MM-want) > 1e-6 || got.Name != names[i].Name {
			t.Errorf("edge %d is %s, %.3f mm long, not %s, %g", i, got.Name, got.MM, names[i].Name, want)
		}
	}
	if n := s.Notches[0]; n.Edge != 1 || math.Abs(n.At-20) > 1e-6 {
		t.Errorf("the notch lies %.2f mm along edge %d, not 20 along 1", n.At, n.Edge)
	}
	if err := square().TakeOff(60, names); err == nil {
		t.Error("60 mm can be taken off both sides of 100")
	}
}
