package shape

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestLargestRectangle(t *testing.T) {
	for _, c := range []struct {
		name string
		ring Ring
		want float64
	}{
		{"a rectangle", Ring{{0, 0}, {300, 0}, {300, 200}, {0, 200}}, 300 * 200},
		// an L of 300 by 200 with 200 by 120 cut out: 100 × 200 or 300 × 80
		{"an L", Ring{{0, 0}, {300, 0}, {300, 80}, {100, 80}, {100, 200}, {0, 200}}, 300 * 80},
		// the largest in a right triangle touches the middle of its long side
		{"a triangle", Ring{{0, 0}, {200, 0}, {0, 100}}, 100 * 50},
		// a U: its arms 40 wide and 100 high, its foot 200 × 30
		{"a U", Ring{{0, 0}, {200, 0}, {200, 100}, {160, 100}, {160, 30}, {40, 30}, {40, 100}, {0, 100}}, 200 * 30},
		{"nothing", Ring{{0, 0}, {10, 0}}, 0},
	} {
		if got := LargestRectangle(c.ring).Area(); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
}

// Of 300 by 200 with a hole of 40 by 60 at 100 to 140 and 80 to 140 the largest that is left
// lies beside it: 160 × 200. With the hole in the middle of a strip it lies below it.
func TestLargestRectangleBesideAHole(t *testing.T) {
	box := func(x, y, to, up float64) Ring { return Ring{{x, y}, {to, y}, {to, up}, {x, up}} }
	for _, c := range []struct {
		ring, hole Ring
		want       float64
	}{
		{box(0, 0, 300, 200), box(100, 80, 140, 140), 160 * 200},
		{box(0, 0, 300, 200), box(20, 150, 280, 190), 300 * 150},
		{box(0, 0, 300, 200), box(0, 0, 300, 50), 300 * 150}, // it ends at the edge
	} {
		if got := LargestRectangle(c.ring, c.hole).Area(); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("beside %v: %g, want %g", c.hole, got, c.want)
		}
	}
}

// Of stairs made of whole squares it is the largest that counting squares finds, and of any
// outline none of it lies outside.
func TestLargestRectangleOfStairs(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		high := make([]int, 8)
		for i := range high {
			high[i] = 1 + r.IntN(9)
		}
		ring := Ring{{0, 0}, {8, 0}}
		for i := len(high) - 1; i >= 0; i-- {
			ring = append(ring, Point{float64(i + 1), float64(high[i])}, Point{float64(i), float64(high[i])})
		}
		want := 0
		for i := range high {
			least := 10
			for k := i; k < len(high); k++ {
				least = min(least, high[k])
				want = max(want, least*(k-i+1))
			}
		}
		if got := LargestRectangle(ring).Area(); math.Abs(got-float64(want)) > 1e-9 {
			t.Fatalf("%v: %g, counting gives %d", high, got, want)
		}
	}
}

func TestLargestRectangleLiesWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		var ring Ring
		for k := range 9 {
			a, far := float64(k)/9*2*math.Pi, 20+r.Float64()*80
			ring = append(ring, Point{X: far * math.Cos(a), Y: far * math.Sin(a)})
		}
		got := LargestRectangle(ring)
		if got.Area() <= 0 {
			t.Fatalf("none in %v", ring)
		}
		for i := range 11 {
			for k := range 11 {
				q := Point{
					X: got.Least.X + (got.Most.X-got.Least.X)*(1e-6+float64(i)/10*(1-2e-6)),
					Y: got.Least.Y + (got.Most.Y-got.Least.Y)*(1e-6+float64(k)/10*(1-2e-6)),
				}
				if !ring.Contains(q) {
					t.Fatalf("%v of %+v lies outside %v", q, got, ring)
				}
			}
		}
	}
}
