package tracing

import (
	"math"
	"testing"

	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

// TestDrawnOnThePaper: a dart, a grain line, a line from the hem inwards, a line anywhere
// and a sewing line 10 mm inside the centre are found where they are drawn, told for what
// they are, and change nothing of the outline.
func TestDrawnOnThePaper(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	s, truth := skirtWithNotches()
	s.Piece = tabletop.Ring(truth)
	at := func(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }
	a, _, _ := truth.PointOn("waist", 100)
	b, _, _ := truth.PointOn("waist", 130)
	hem, _, _ := truth.PointOn("hem", 250)
	point := at((a.X+b.X)/2+4, 600)
	s.Lines = [][]shape.Point{{a, point, b}, {at(180, 150), at(180, 560)}, {hem, at(hem.X+3, 130)}, {at(60, 300), at(110, 340)}, {at(10, 0), at(10, 730)}}
	got, err := traceScene(t, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := judge(t, got, s, truth)
	want := []struct {
		is   DrawnKind
		line []shape.Point
	}{{Dart, []shape.Point{a, point, b}}, {Grain, s.Lines[1]}, {FromEdge, s.Lines[2]}, {Inner, s.Lines[3]}, {Beside, nil}}
	for _, m := range got.Drawn {
		t.Logf("%d on edge %d at %.1f, %.1f long: %v", m.Is, m.Edge, m.At, m.Long(), m.Line)
	}
	if len(got.Drawn) != len(want) {
		t.Fatalf("%d marks are found, %d are drawn", len(got.Drawn), len(want))
	}
	for i, w := range want {
		m := got.Drawn[i]
		if m.Is != w.is {
			t.Errorf("mark %d is told to be %d, not %d", i, m.Is, w.is)
			continue
		}
		if m.Is == Beside && math.Abs(m.At-10) > 0.5 {
			t.Errorf("a line is drawn 10 mm inside the edge, and told to be %.2f", m.At)
		}
		if m.Is == Dart || m.Is == FromEdge {
			if _, off := got.edgeLines()[m.Edge].Nearest(m.Line[0]); off > 0.01 {
				t.Errorf("mark %d begins %.2f mm from its edge", i, off)
			}
		}
		for k, p := range w.line {
			near := math.Inf(1)
			for n, q := range m.Line {
				if m.Is != Dart || (k == 1) == (n == 1) {
					near = min(near, apart(j.turned.at(q), p))
				}
			}
			if near > 1.5 {
				t.Errorf("mark %d, kind %d: %v is found %.2f mm from where it is", i, m.Is, p, near)
			}
		}
	}
}

// TestCleanPaperHasNoMarks: on paper without a line none is found, as on that of the first
// made-up photographs (TestMadeUpPhotographs).
func TestCleanPaperHasNoMarks(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	for seed := uint64(3); seed < 5; seed++ {
		s, _ := tabletop.Random(seed, 2000)
		got, err := traceScene(t, s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Drawn) > 0 {
			t.Errorf("scene %d: %v", seed, got.Drawn)
		}
	}
}
