package shape

import (
	"math"
	"testing"
)

// A side that swings out by 60 over 600, straight up at both ends, between level
// edges: moved out by d every place of it lies d away from where the side lay, so
// that it is as long as before (its length grows by d times the angle it turns
// through, which is none), and the piece is larger by d times that length. So is one
// of a quarter of a circle, which grows by d times a right angle.
func TestMovedCurveLiesAlongItself(t *testing.T) {
	const handle = 300 * 0.5522847498
	for name, c := range map[string]struct {
		o     Outline
		turns float64
	}{
		"hip": {Outline{Edges: []Edge{
			{Name: "hem", To: Point{X: 200}},
			{Name: "side", To: Point{X: 260, Y: 600}, Curved: true, C1: Point{X: 200, Y: 200}, C2: Point{X: 260, Y: 400}},
			{Name: "waist", To: Point{Y: 600}}, {Name: "centre"},
		}}, 0},
		"quarter": {Outline{Edges: []Edge{
			{Name: "hem", To: Point{X: 300}},
			{Name: "side", To: Point{Y: 300}, Curved: true, C1: Point{X: 300, Y: handle}, C2: Point{X: handle, Y: 300}},
			{Name: "centre"},
		}}, math.Pi / 2},
	} {
		for _, d := range []float64{-15, -6, 4, 25} {
			moved, err := c.o.EdgeMoved(1, 1, d)
			if err != nil {
				t.Fatal(err)
			}
			long := c.o.EdgeLength(1)
			if got, want := moved.EdgeLength(1), long+d*c.turns; math.Abs(got-want) > 0.03 {
				t.Errorf("%s moved by %v is %.3f long, not %.3f", name, d, got, want)
			}
			if got, want := moved.Area()-c.o.Area(), d*long+d*d*c.turns/2; math.Abs(got-want) > 0.02*long {
				t.Errorf("%s moved by %v is larger by %.2f, not %.2f", name, d, got, want)
			}
			was, now := c.o.cubic(1), moved.cubic(1)
			for k := 1; k < 20; k++ {
				p, least := was.at(float64(k)/20), math.Inf(1)
				for n := range 4001 {
					least = min(least, distance(p, now.at(float64(n)/4000)))
				}
				if math.Abs(least-math.Abs(d)) > 0.03 {
					t.Errorf("%s moved by %v lies %.3f away at %d twentieths", name, d, least, k)
				}
			}
		}
	}
}

// TestMovedCurvesAreUndone: the curves of a slip cut on the bias, hollowed hems and a
// neck whose halves run on alike among them, are found as they were before each was
// moved.
func TestMovedCurvesAreUndone(t *testing.T) {
	curve := func(name string, x, y, a, b, c, d float64) Edge {
		return Edge{Name: name, To: Point{X: x, Y: y}, Curved: true, C1: Point{X: a, Y: b}, C2: Point{X: c, Y: d}}
	}
	front := Outline{From: Point{X: -356, Y: 16}, Edges: []Edge{
		curve("hem", 356, 16, -145.4, -25.6, 145.4, -25.6), curve("right", 256, 836, 290, 360, 178, 640),
		curve("right top", 118, 960, 201.7, 890.4, 150, 930), curve("neck right", 0, 850, 84, 912, 48, 850),
		curve("neck left", -118, 960, -48, 850, -84, 912), curve("left top", -256, 836, -150, 930, -201.7, 890.4),
		curve("left", -356, 16, -178, 640, -290, 360),
	}}
	for edge, by := range map[int]float64{0: -40, 1: -6, 2: 5, 3: 4, 4: 4, 6: 6} {
		move := func(o Outline) (Outline, error) { return o.EdgeMoved(edge, 1, by) }
		before, err := front.Before(move)
		if err != nil {
			t.Errorf("%s moved by %v: %v", front.Edges[edge].Name, by, err)
			continue
		}
		if again, err := move(before); err != nil || mostOff(again, front) > 1e-6 {
			t.Errorf("%s moved by %v again is %v off, %v", front.Edges[edge].Name, by, mostOff(again, front), err)
		}
	}
}
