package shape

import (
	"fmt"
	"math"
	"testing"
)

// The values of the ring skirts and godets below are derived from the geometry
// of the circle (r = W/2πk, hem = W + 2πkL, area = πk(R² − r²)) and can be
// checked with a pocket calculator.

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
		if faults := s.Panel.Flaws(); faults != nil {
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

// ringAllowances are the allowances of a ring skirt's panels.
type ringAllowances struct{ waist, hem, side float64 }

// of lists them edge by edge.
func (a ringAllowances) of(s RingSkirt) []float64 {
	list := make([]float64, len(s.Panel.Edges))
	for i, e := range s.Panel.Edges {
		switch e.Name {
		case "waist":
			list[i] = a.waist
		case "hem":
			list[i] = a.hem
		default:
			list[i] = a.side
		}
	}
	return list
}

// Waist 700, length 600, hem allowance 15, full circle unless said.
func TestRingSkirtOnCloth(t *testing.T) {
	a := ringAllowances{waist: 10, hem: 15}
	size := func(turns float64, panels int, turned float64) Point {
		s := ring(t, turns, 700, 600, panels)
		c := cutOf(t, s.Panel.turned(turned), a.of(s), nil)
		least, most := c.Ring.Bounds()
		return most.Sub(least)
	}
	half := size(1, 2, 0)
	near(t, "half disc, across", half.X, 1452.8, 0.05)
	near(t, "half disc, along", half.Y, 726.4, 0.05)
	quarter := size(1, 4, 45)
	near(t, "quarter disc, across", quarter.X, 726.4, 0.05)
	near(t, "quarter disc, along", quarter.Y, 726.4, 0.05)
	halfSkirt := size(0.5, 1, 0)
	near(t, "half circle, across", halfSkirt.X, 1675.6, 0.05)
	near(t, "half circle, along", halfSkirt.Y, 837.8, 0.05)
}

// Cut radii: inner = r − waist allowance, outer = R + hem allowance; waist
// 700, length 600, full circle, 10 and 15 give 101.41 and 726.41 (derived).
func TestRingSkirtCutRadii(t *testing.T) {
	s := ring(t, 1, 700, 600, 4)
	c, err := s.Panel.CutOutline(ringAllowances{10, 15, 0}.of(s), nil)
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
		if faults := o.Flaws(); faults != nil {
			t.Error(faults)
		}
	}
	angle, err := GodetAngle(300, 300)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "angle for 300 mm of hem", angle, 57.2958, 0.00005)
}

func TestOneOfTwelvePanels(t *testing.T) {
	twelve := ring(t, 1, 700, 600, 12)
	near(t, "angle of one of twelve", twelve.PanelAngle*180/math.Pi, 30, 1e-9)
	waist, _ := twelve.Panel.LengthOf("waist")
	near(t, "waist of one of twelve", waist, 58.33, 0.005)
}

func TestTrapezoid(t *testing.T) {
	o, err := Trapezoid(350, 87.5, 800)
	must(t, o, err)
	near(t, "area", o.Area(), (350+87.5)/2*800, 1e-9)
	left, _ := o.LengthOf("left")
	near(t, "side", left, 810.70, 0.005) // √(800² + 131.25²)
}
