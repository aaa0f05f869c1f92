package shape

import (
	"math"
	"testing"
)

// The figures are the worked example of a lined-up rectangle: 200 × 300 mm
// with 15 mm on the long sides, 10 mm at the top and 40 mm at the bottom
// cuts 230 × 350 mm, by adding.
func TestCutOutlineOfRectangle(t *testing.T) {
	o := rectangle(t, 200, 300)
	c, err := o.CutOutline([]float64{40, 15, 10, 15}, nil)
	if err != nil {
		t.Fatal(err)
	}
	least, most := c.Ring.Bounds()
	if least != (Point{-15, -40}) || most != (Point{215, 310}) {
		t.Errorf("bounds: got %v to %v", least, most)
	}
	near(t, "cut area", c.Area, 80500, 1e-6)
	near(t, "allowance area", c.AllowanceArea, 20500, 1e-6)
	wantCut := map[string]float64{"bottom": 230, "right": 350, "top": 230, "left": 350}
	for _, e := range c.PerEdge {
		near(t, e.Name, e.CutLength, wantCut[e.Name], 1e-6)
	}
}

// bothWays cuts an outline directly and by union and compares.
func bothWays(t failer, o Outline, allow []float64, corners []Corner) (direct bool) {
	t.Helper()
	if o.Area() < 0 {
		t.Fatal("bothWays wants a counter-clockwise outline")
	}
	b, ok := o.border(allow, corners)
	if !ok {
		t.Fatalf("%v crosses itself", o)
	}
	slow, err := b.union()
	if err != nil {
		t.Fatalf("union: %v\n%v %v %v", err, o, allow, corners)
	}
	fast, direct := b.offset()
	if !direct {
		return false
	}
	if len(slow.Holes) > 0 {
		t.Fatalf("the union has holes the offset has not: %v\n%v\n%v", slow.Holes, o, allow)
	}
	apart, err := symmetricDifference(fast.Ring, slow.Ring)
	if err != nil {
		t.Fatal(err)
	}
	limit := math.Max(1, 1e-4*slow.Ring.Area())
	if d := math.Abs(fast.Ring.Area() - slow.Ring.Area()); d > limit || apart > limit {
		t.Fatalf("offset %.4f and union %.4f differ by %.4f mm²\n%v\n%v %v\nfast %v\nslow %v",
			fast.Ring.Area(), slow.Ring.Area(), apart, o, allow, corners, fast.Ring, slow.Ring)
	}
	return true
}

// A failer is a *testing.T or a *rapid.T.
type failer interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}
