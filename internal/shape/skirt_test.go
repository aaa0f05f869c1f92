package shape

import (
	"fmt"
	"math"
	"testing"
)

// The values of the ring skirts, godets, gores and frusta below are derived
// from the geometry of the circle and the cone (r = W/2πk, hem = W + 2πkL,
// area = πk(R² − r²); r = L·w/(h − w), θ = w/r) and can be checked with a
// pocket calculator.

func ring(t *testing.T, turns, waist, length float64, panels int) RingSkirt {
	t.Helper()
	s, err := NewRingSkirt(turns, waist, length, panels)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestRingSkirts(t *testing.T) {
	for _, c := range []struct{ turns, length, inner, outer, hem, area float64 }{
		{1.5, 600, 74.27, 674.27, 6354.9, 2.1165},
		{1.25, 600, 89.13, 689.13, 5412.4, 1.8337},
		{1, 600, 111.41, 711.41, 4469.9, 1.5510},
		{0.75, 600, 148.54, 748.54, 3527.4, 1.2682},
		{0.5, 600, 222.82, 822.82, 2585.0, 0.9855},
		{0.25, 600, 445.63, 1045.63, 1642.5, 0.7027},
		{1, 740, 111.408, 851.408, 5349.56, 2.2383},
		{0.75, 740, 148.545, 888.545, 4187.17, 1.8082},
		{1.25, 740, 89.127, 829.127, 6511.95, 2.6684},
	} {
		name := fmt.Sprintf("%g turns, %g long", c.turns, c.length)
		s := ring(t, c.turns, 700, c.length, 4)
		near(t, name+": inner radius", s.InnerRadius, c.inner, 0.006)
		near(t, name+": outer radius", s.OuterRadius, c.outer, 0.006)
		near(t, name+": hem", s.Hem, c.hem, 0.06)
		near(t, name+": area in m²", s.Area/1e6, c.area, 0.00006)
		near(t, name+": drawn area", 4*s.Panel.Area(), s.Area, 0.02)
		hem, _ := s.Panel.LengthOf("hem")
		waist, _ := s.Panel.LengthOf("waist")
		left, _ := s.Panel.LengthOf("left")
		near(t, name+": drawn hem", 4*hem, s.Hem, 0.01)
		near(t, name+": drawn waist", 4*waist, 700, 0.01)
		near(t, name+": drawn side", left, c.length, 1e-5)
		if faults := s.Panel.Faults(); faults != nil {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func TestRingSkirtRadii(t *testing.T) {
	turns := []float64{1, 0.75, 0.5, 0.25, 1.25, 1.5}
	for _, c := range []struct {
		waist float64
		radii []float64
	}{
		{600, []float64{95.49, 127.32, 190.99, 381.97, 76.39, 63.66}},
		{650, []float64{103.45, 137.93, 206.90, 413.80, 82.76, 68.97}},
		{680, []float64{108.23, 144.30, 216.45, 432.90, 86.58, 72.15}},
		{720, []float64{114.59, 152.79, 229.18, 458.37, 91.67, 76.39}},
		{762, []float64{121.28, 161.70, 242.55, 485.10, 97.02, 80.85}},
		{800, []float64{127.32, 169.77, 254.65, 509.30, 101.86, 84.88}},
		{28, []float64{4.456, 5.942, 8.913, 17.825}}, // inches; the unit does not matter
	} {
		for i, want := range c.radii {
			digits := 0.0051
			if c.waist == 28 {
				digits = 0.00051
			}
			near(t, fmt.Sprintf("waist %g, %g turns", c.waist, turns[i]),
				ring(t, turns[i], c.waist, 600, 2).InnerRadius, want, digits)
		}
	}
}

func TestRingSkirtIdentities(t *testing.T) {
	full := ring(t, 1, 713, 555, 2)
	near(t, "half", ring(t, 0.5, 713, 555, 1).InnerRadius, 2*full.InnerRadius, 1e-9)
	near(t, "quarter", ring(t, 0.25, 713, 555, 1).InnerRadius, 4*full.InnerRadius, 1e-9)
	near(t, "three quarters", ring(t, 0.75, 713, 555, 1).InnerRadius, full.InnerRadius*4/3, 1e-9)
	near(t, "100 mm longer", ring(t, 1, 713, 655, 2).Hem-full.Hem, 628.3, 0.02)
}

// Waist 700, length 600, hem allowance 15, full circle unless said.
func TestRingSkirtOnCloth(t *testing.T) {
	a := RingAllowances{Waist: 10, Hem: 15}
	size := func(turns float64, panels int, turned float64) Point {
		s := ring(t, turns, 700, 600, panels)
		if s.PanelAngle > 6.28 {
			got, _ := s.cutSize(a)
			return got
		}
		c := cutOf(t, s.Panel.Turned(turned), s.allowances(a), nil)
		least, most := c.Ring.Bounds()
		return most.Sub(least)
	}
	one := size(1, 1, 0)
	near(t, "one piece, across", one.X, 1452.8, 0.05)
	half := size(1, 2, 0)
	near(t, "half disc, across", half.X, 1452.8, 0.05)
	near(t, "half disc, along", half.Y, 726.4, 0.05)
	quarter := size(1, 4, 45)
	near(t, "quarter disc, across", quarter.X, 726.4, 0.05)
	near(t, "quarter disc, along", quarter.Y, 726.4, 0.05)
	halfSkirt := size(0.5, 1, 0)
	near(t, "half circle, across", halfSkirt.X, 1675.6, 0.05)
	near(t, "half circle, along", halfSkirt.Y, 837.8, 0.05)

	for _, c := range []struct {
		turns, usable float64
		panels        int
	}{
		{1, 1400, 2}, {1, 1500, 1}, {1, 726.5, 2}, {0.5, 1400, 1},
	} {
		s, err := LeastPanels(c.turns, 700, 600, c.usable, a)
		if err != nil {
			t.Fatal(err)
		}
		if s.Panels != c.panels {
			t.Errorf("%g turns on %g mm: got %d panels, want %d", c.turns, c.usable, s.Panels, c.panels)
		}
	}
	if _, err := LeastPanels(1, 700, 600, 30, a); err == nil {
		t.Error("30 mm of cloth should be too narrow")
	}
	s, err := LeastPanels(1, 700, 600, 1500, RingAllowances{10, 15, 15})
	if err != nil || s.Panels != 2 {
		t.Errorf("a whole turn with side allowances: got %d panels, %v", s.Panels, err)
	}
}

// The size worked out for a panel must be that of its cut outline.
func TestRingPanelSizeIsThatOfItsCut(t *testing.T) {
	for _, turns := range []float64{0.25, 0.5, 0.75, 1, 1.5} {
		for panels := 2; panels <= 8; panels++ {
			for _, a := range []RingAllowances{{10, 15, 0}, {10, 40, 15}, {0, 0, 25}} {
				s := ring(t, turns, 700, 600, panels)
				want, _ := s.cutSize(a)
				least, most := cutOf(t, s.Panel, s.allowances(a), nil).Ring.Bounds()
				near(t, "width", most.X-least.X, want.X, 0.1)
				near(t, "height", most.Y-least.Y, want.Y, 0.1)
			}
		}
	}
}

// Cut radii: inner = r − waist allowance, outer = R + hem allowance; waist
// 700, length 600, full circle, 10 and 15 give 101.41 and 726.41 (derived).
func TestRingSkirtCutRadii(t *testing.T) {
	s := ring(t, 1, 700, 600, 4)
	c, err := s.Panel.CutOutline(s.allowances(RingAllowances{10, 15, 0}), nil)
	if err != nil {
		t.Fatal(err)
	}
	for k, p := range c.Ring {
		r := distance(p, Point{})
		switch c.Of[k] {
		case 0:
			near(t, "inner", r, 101.41, 0.05)
		case s.Panel.hemIndex():
			near(t, "outer", r, 726.41, 0.05)
		}
	}
	inner, outer := s.InnerRadius-10, s.OuterRadius+15
	near(t, "cut area", c.Area, math.Pi/4*(outer*outer-inner*inner), 2)
	for _, e := range c.PerEdge {
		switch e.Name {
		case "hem":
			near(t, "hem's cut line", e.CutLength, math.Pi/2*outer, 0.1)
		case "waist":
			near(t, "waist's cut line", e.CutLength, math.Pi/2*inner, 0.1)
		}
	}
}

func (o Outline) hemIndex() int {
	s, _ := o.Side("hem")
	return s.First
}

func TestRingSkirtRefuses(t *testing.T) {
	for _, c := range []struct {
		turns, waist, length float64
		panels               int
	}{
		{0, 700, 600, 1}, {-1, 700, 600, 1}, {math.NaN(), 700, 600, 1}, {1, 0, 600, 1}, {1, math.Inf(1), 600, 1},
		{1, 700, math.NaN(), 1}, {1, 700, -3, 1}, {1, 700, 600, 0}, {1.5, 700, 600, 1}, {0.01, 99999, 99999, 1},
	} {
		if s, err := NewRingSkirt(c.turns, c.waist, c.length, c.panels); err == nil {
			t.Errorf("%v: got %v, want a fault", c, s)
		}
	}
}

func TestGodets(t *testing.T) {
	for _, c := range []struct{ angle, arc, chord float64 }{
		{30, 157.08, 155.29}, {45, 235.62, 229.61}, {60, 314.16, 300.00}, {90, 471.24, 424.26},
	} {
		o, err := Godet(300, c.angle)
		if err != nil {
			t.Fatal(err)
		}
		hem, _ := o.LengthOf("hem")
		left, _ := o.LengthOf("left")
		right, _ := o.LengthOf("right")
		near(t, "arc", hem, c.arc, 0.006)
		near(t, "chord", distance(o.Start(o.hemIndex()), o.Edges[len(o.Edges)-2].To), c.chord, 0.006)
		near(t, "left side", left, 300, 1e-5)
		near(t, "right side", right, 300, 1e-5)
		if faults := o.Faults(); faults != nil {
			t.Error(faults)
		}
	}
	angle, err := GodetAngle(300, 300)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "angle for 300 mm of hem", angle, 57.2958, 0.00005)
}

func TestGores(t *testing.T) {
	g, err := Gores(700, 2800, 800, 8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "top", g.Top, 87.5, 0)
	near(t, "bottom", g.Bottom, 350, 0)
	near(t, "flare", g.Flare, 131.25, 0)
	near(t, "side", g.Side, 810.70, 0.005)
	near(t, "overshoot", g.Overshoot, 10.70, 0.005)
	twelve := ring(t, 1, 700, 600, 12)
	near(t, "angle of one of twelve", twelve.PanelAngle*180/math.Pi, 30, 1e-9)
	waist, _ := twelve.Panel.LengthOf("waist")
	near(t, "waist of one of twelve", waist, 58.33, 0.005)
}

func TestFrusta(t *testing.T) {
	for _, c := range []struct{ waist, hem, slant, radius, angle, digits float64 }{
		{700, 1400, 700, 700, 57.296, 0.0005},
		{700, 1600, 650, 505.56, 79.33, 0.005},
	} {
		f, err := Frustum(c.waist, c.hem, c.slant)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "radius", f.InnerRadius, c.radius, 0.005)
		near(t, "angle", f.Angle, c.angle, c.digits)
		waist, _ := f.Panel.LengthOf("waist")
		hem, _ := f.Panel.LengthOf("hem")
		near(t, "drawn waist", waist, c.waist, 0.01)
		near(t, "drawn hem", hem, c.hem, 0.01)
	}
	if _, err := Frustum(700, 700, 600); err == nil {
		t.Error("a cylinder is no frustum")
	}
}

// Inch values from public soft-furnishing and quilting pages and M. Lewis's
// bias formula article (20 in and 2 in give 200 in; 250 in of 2 in need
// √500 = 22.36 in; 12 in, 2 in: 72 in; 36 in, 2 in: 648 in; 100 in of
// 3½ in need √350 = 18.71 in); the others are derived.
func TestBias(t *testing.T) {
	for _, c := range []struct{ length, width, side, digits float64 }{
		{3200, 40, 357.8, 0.05}, {5000, 40, 447.2, 0.05}, {250, 2, 22.36, 0.005}, {100, 3.5, 18.71, 0.005},
	} {
		side, err := SquareForBias(c.length, c.width)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "square", side, c.side, c.digits)
	}
	for _, c := range []struct{ x, y, width, length float64 }{
		{20, 20, 2, 200}, {12, 12, 2, 72}, {36, 36, 2, 648}, {500, 500, 40, 6250}, {1000, 500, 40, 12500},
	} {
		length, err := BiasFrom(c.x, c.y, c.width)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "strip", length, c.length, 0)
	}
	s, err := BiasAcross(1140, 40, 6)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "strip across", s.Length, 1612.2, 0.05)
	near(t, "along the selvedge", s.AlongSelvedge, 56.57, 0.005)
	near(t, "loss per join", s.JoinLoss, 16.97, 0.005)
}

func TestTrapezoid(t *testing.T) {
	o, err := Trapezoid(350, 87.5, 800)
	must(t, o, err)
	near(t, "area", o.Area(), (350+87.5)/2*800, 1e-9)
	left, _ := o.LengthOf("left")
	near(t, "side", left, 810.70, 0.005) // the straight gore above
}
