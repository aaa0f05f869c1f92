package shape

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A square of 100 with a stripe every 30 from 10: at 10, 40, 70 and 100; the last runs along
// its edge and is no line within it.
func TestStripesWithinASquare(t *testing.T) {
	square := Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	s := Stripes{Way: Point{X: 1}, First: 10, Every: 30}
	var at []float64
	for _, l := range s.Within(square) {
		if math.Abs(l[0].X-l[1].X) > 1e-9 || math.Abs(math.Abs(l[0].Y-l[1].Y)-100) > 1e-9 {
			t.Errorf("the stripe %v does not run through the square", l)
		}
		if x := math.Round(l[0].X*1e6) / 1e6; x < 100 {
			at = append(at, x)
		}
	}
	if len(at) != 3 || at[0] != 10 || at[1] != 40 || at[2] != 70 {
		t.Errorf("stripes at %v, want 10, 40, 70", at)
	}
	hole := Ring{{30, 30}, {30, 60}, {60, 60}, {60, 30}}
	if got := len(s.Within(square, hole)) - len(s.Within(square)); got != 1 {
		t.Errorf("the hole breaks %d stripes, want that at 40", got)
	}
}

// A quarter turn puts stripes along x on y; turned over they run the other way.
func TestStripesMoved(t *testing.T) {
	s := Stripes{Way: Point{X: 1}, First: 10, Every: 30}
	turned := s.Moved(func(p Point) Point { return Point{X: 5 - p.Y, Y: 7 + p.X} })
	if turned.Way != (Point{Y: 1}) || turned.First != 17 {
		t.Errorf("a quarter turn gives %+v, want lines at y = 17", turned)
	}
	over := s.Moved(func(p Point) Point { return Point{X: 100 - p.X, Y: p.Y} })
	if over.Way != (Point{X: -1}) || over.First != -90 { // the line at x = 90
		t.Errorf("turned over it is %+v, want the line at x = 90", over)
	}
}

func TestSparserStripes(t *testing.T) {
	s := Stripes{Way: Point{X: 1}, Every: 4}
	if got, n := s.Sparser(10); got.Every != 12 || n != 3 {
		t.Errorf("every %g, each %d., want every 12, each third", got.Every, n)
	}
	if got, n := s.Sparser(4); got.Every != 4 || n != 1 {
		t.Errorf("every %g, each %d., want all", got.Every, n)
	}
}

// Wherever a polygon lies, the middle of each part of a stripe is inside it, and moving
// both alike moves the parts.
func TestStripesLieWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var ring Ring
		for k := range 9 {
			a, far := float64(k)/9*2*math.Pi, 20+r.Float64()*80
			ring = append(ring, Point{X: far * math.Cos(a), Y: far * math.Sin(a)})
		}
		turn := r.Float64() * 7
		s := Stripes{Way: Point{X: math.Cos(turn), Y: math.Sin(turn)}, First: r.Float64() * 50, Every: 3 + r.Float64()*30}
		sin, cos := math.Sincos(r.Float64() * 7)
		move := func(p Point) Point { return Point{X: cos*p.X + sin*p.Y + 40, Y: sin*p.X - cos*p.Y - 11} }
		moved := make(Ring, len(ring))
		for i, p := range ring {
			moved[i] = move(p)
		}
		long := func(parts [][2]Point) (sum float64) {
			for _, l := range parts {
				sum += math.Hypot(l[0].X-l[1].X, l[0].Y-l[1].Y)
			}
			return sum
		}
		if back := s.Moved(move).Back(move); math.Hypot(back.Way.X-s.Way.X, back.Way.Y-s.Way.Y)+math.Abs(back.First-s.First) > 1e-9 {
			t.Fatalf("%+v moved and back is %+v", s, back)
		}
		here := s.Within(ring)
		for _, l := range here {
			if mid := l[0].Add(l[1]).times(0.5); !ring.Contains(mid) {
				t.Fatalf("%v of %+v is not inside %v", l, s, ring)
			}
		}
		if a, b := long(here), long(s.Moved(move).Within(moved)); math.Abs(a-b) > 1e-6 {
			t.Fatalf("%+v: %g mm of stripe here, %g once moved", s, a, b)
		}
	}
}
