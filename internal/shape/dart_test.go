package shape

import (
	"math"
	"testing"
)

// A dart 24 mm wide and 110 long on a straight waist: its legs follow from
// Pythagoras, √(12² + 110²) = 110.653.
func TestDartOnStraightEdge(t *testing.T) {
	p, err := Dart{Edge: "waist", At: 88, Width: 24, Length: 110}.Plan(bodice())
	if err != nil {
		t.Fatal(err)
	}
	if p.Begin != (Point{76, 0}) || p.End != (Point{100, 0}) || p.Point != (Point{88, 110}) {
		t.Errorf("got %v", p)
	}
	near(t, "leg", p.Leg, 110.653, 0.0005)
	near(t, "intake", p.Intake, 24, 0)
	if !p.Fits || !p.Inside {
		t.Errorf("fits %v, inside %v", p.Fits, p.Inside)
	}
}

func TestDartOnCurvedEdgeHasEqualLegs(t *testing.T) {
	p, err := Dart{Edge: "armhole", At: 70, Width: 20, Length: 60}.Plan(bodice())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "leg", distance(p.Begin, p.Point), p.Leg, 1e-9)
	near(t, "leg", distance(p.End, p.Point), p.Leg, 1e-9)
	if !p.Fits || !p.Inside {
		t.Errorf("fits %v, inside %v", p.Fits, p.Inside)
	}
}

func TestDartThatDoesNotFit(t *testing.T) {
	for _, c := range []struct {
		dart         Dart
		fits, inside bool
	}{
		{Dart{"waist", 5, 24, 110}, false, true},
		{Dart{"waist", 170, 24, 50}, false, true},
		{Dart{"waist", 88, 24, 500}, true, false},
		{Dart{"waist", 12, 24, 110}, true, true},
	} {
		p, err := c.dart.Plan(bodice())
		if err != nil {
			t.Fatal(err)
		}
		if p.Fits != c.fits || p.Inside != c.inside {
			t.Errorf("%v: fits %v, inside %v", c.dart, p.Fits, p.Inside)
		}
	}
	for _, d := range []Dart{{"hem", 88, 24, 110}, {"waist", 88, -1, 110}, {"waist", 88, 24, math.NaN()}} {
		if p, err := d.Plan(bodice()); err == nil {
			t.Errorf("%v: got %v", d, p)
		}
	}
}

func TestWidthsAt(t *testing.T) {
	// An L: at 50 one stretch of 200, at 150 one of 100; its notch the other
	// way up gives two.
	o := path(Point{0, 0}, Point{200, 0}, Point{200, 100}, Point{100, 100}, Point{100, 200}, Point{0, 200})
	for y, want := range map[float64]float64{0: 200, 50: 200, 100: 100, 150: 100, 200: 100, 200.1: 0, -0.1: 0} {
		near(t, "L", widthOf(o.WidthsAt(y)), want, 1e-9)
	}
	u := path(Point{0, 0}, Point{90, 0}, Point{90, 60}, Point{60, 60}, Point{60, 20}, Point{30, 20}, Point{30, 60}, Point{0, 60})
	if got := u.WidthsAt(40); len(got) != 2 || got[0] != (Span{0, 30}) || got[1] != (Span{60, 90}) {
		t.Errorf("U: got %v", got)
	}
	// a half disc of 300 mm: chords by Pythagoras
	g, err := Godet(300, 180)
	must(t, g, err)
	for _, y := range []float64{-1, -100, -180, -299} {
		near(t, "half disc", widthOf(g.WidthsAt(y)), 2*math.Sqrt(300*300-y*y), 0.01)
	}
}
