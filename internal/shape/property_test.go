package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// soundOutline draws outlines until one has no faults.
func soundOutline(t *rapid.T) Outline {
	return rapid.Custom(func(t *rapid.T) Outline { return starOutline(t, true) }).
		Filter(func(o Outline) bool { return o.Flaws() == nil }).Draw(t, "outline")
}

func closeTo(t *rapid.T, what string, got, want, tol float64) {
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s: got %.9f, want %.9f", what, got, want)
	}
}

func TestMovingKeepsLengthsAndArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		turn := rapid.Float64Range(-720, 720).Draw(t, "turn")
		for what, m := range map[string]Outline{
			"mirrored": o.Mirrored(),
			"moved":    o.shifted(rapid.Float64Range(-900, 900).Draw(t, "x"), 33),
			"turned":   o.turned(turn),
			"reversed": o.Reversed().oriented(),
		} {
			closeTo(t, what+" area", m.Area(), o.Area(), 1e-5)
			closeTo(t, what+" perimeter", m.Perimeter(), o.Perimeter(), 1e-5)
			for _, s := range o.Sides() {
				length, _ := m.LengthOf(s.Name)
				closeTo(t, what+" edge "+s.Name, length, s.Length, 1e-5)
			}
		}
	})
}

func TestFlatteningStaysWithinTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		tol := rapid.SampledFrom([]float64{0.01, 0.1, 1}).Draw(t, "tolerance")
		r, of := o.Flatten(tol)
		for i, e := range o.Edges {
			if !e.Curved {
				continue
			}
			var edge []Point
			for k := range r {
				if of[k] == i {
					edge = append(edge, r[k])
				}
			}
			edge = append(edge, e.To)
			for s := range 64 {
				p := o.cubic(i).at(float64(s) / 64)
				if d := distanceToPath(edge, p); d > tol+leastStep {
					t.Fatalf("edge %d strays %g mm at %d/64, tolerance %g", i, d, s, tol)
				}
			}
		}
		closeTo(t, "area", r.Area(), o.Area(), tol*o.Perimeter())
	})
}

func distanceToPath(path []Point, p Point) float64 {
	least := math.Inf(1)
	for k := 0; k+1 < len(path); k++ {
		a, b := path[k], path[k+1]
		s := clamp(dot(p.Sub(a), b.Sub(a))/dot(b.Sub(a), b.Sub(a)), 0, 1)
		least = min(least, distance(p, lerp(a, b, s)))
	}
	return least
}

// halfPiece draws half a piece on the fold along x = 0.
func halfPiece(t *rapid.T) Outline {
	w := func(s string) float64 { return rapid.Float64Range(40, 300).Draw(t, s) }
	o := Outline{From: Point{0, 0}, Edges: []Edge{
		{Name: "hem", To: Point{w("hem"), 0}},
		{Name: "side", To: Point{w("waist"), 500}, C1: Point{w("c1"), 170}, C2: Point{w("c2"), 330}, Curved: true},
		{Name: "waist", To: Point{0, 480}},
		{Name: "centre", To: Point{0, 0}, Fold: true},
	}}
	return o
}

func TestUnfoldedDoubles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(0, 360).Draw(t, "turn")
		half := halfPiece(t)
		whole, err := half.unfolded(half.FoldEdge())
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "area", whole.Area(), 2*half.Area(), 1e-6)
		y := rapid.Float64Range(0, 480).Draw(t, "level")
		closeTo(t, "width", widthOf(whole.WidthsAt(y)), 2*widthOf(half.WidthsAt(y)), 1e-6)
		fold, _ := half.LengthOf("centre")
		closeTo(t, "perimeter", whole.Perimeter(), 2*(half.Perimeter()-fold), 1e-6)
		turned := half.turned(turn)
		whole, err = turned.unfolded(3)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "turned area", whole.Area(), 2*half.Area(), 1e-5)
	})
}

// Widths summed over many levels must give the area (Cavalieri).
func TestWidthsAddUpToArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		least, most := o.Bounds()
		const n = 800
		step := (most.Y - least.Y) / n
		sum := 0.0
		for k := range n {
			sum += widthOf(o.WidthsAt(least.Y+(float64(k)+0.5)*step)) * step
		}
		closeTo(t, "area", sum, o.Area(), 3e-3*(most.X-least.X)*(most.Y-least.Y))
	})
}

func TestSplitKeepsLengthAndArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		i := rapid.IntRange(0, len(o.Edges)-1).Draw(t, "edge")
		length := o.EdgeLength(i)
		s := rapid.Float64Range(0.1, 0.9).Draw(t, "part") * length
		p := o.Split(i, s, "one", "two")
		one, _ := p.LengthOf("one")
		two, _ := p.LengthOf("two")
		closeTo(t, "first part", one, s, 1e-3)
		closeTo(t, "both parts", one+two, length, 1e-3)
		closeTo(t, "area", p.Area(), o.Area(), 1e-5)
		at, _ := o.PointAt(i, s)
		closeTo(t, "place", distance(at, p.Edges[i].To), 0, 1e-6)
	})
}

// A length summed from very many chords bounds the quadrature from below
// and comes within a hundredth of a millimetre of it.
func TestCurveLengthWithinHundredth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := func(s string) Point {
			return Point{rapid.Float64Range(-500, 500).Draw(t, s), rapid.Float64Range(-500, 500).Draw(t, s)}
		}
		c := cubic{p("a"), p("b"), p("c"), p("d")}
		const n = 50000
		sum, before := 0.0, c[0]
		for k := 1; k <= n; k++ {
			next := c.at(float64(k) / n)
			sum += distance(before, next)
			before = next
		}
		closeTo(t, "length", c.length(), sum, 0.01)
	})
}

func TestSimpleAgreesWithEveryPair(t *testing.T) {
	both := [2]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "points")
		r := make(Ring, n)
		for k := range r {
			r[k] = Point{float64(rapid.IntRange(0, 9).Draw(t, "x")), float64(rapid.IntRange(0, 9).Draw(t, "y"))}
			if k > 0 && r[k] == r[k-1] {
				r[k].X += 10
			}
		}
		if r[0] == r[n-1] {
			return
		}
		want := r.simpleSlowly()
		if r.simple() != want {
			t.Fatalf("%v: got %v", r, !want)
		}
		if want {
			both[0]++
		} else {
			both[1]++
		}
	})
	if both[0] == 0 || both[1] == 0 {
		t.Errorf("one-sided sample: %v", both)
	}
}

// With the same allowance everywhere no point of the cut line may lie
// nearer to the outline than that, whichever way it was found; and the
// straight edges' strips lie inside the cut line.
func TestAllowanceIsNeverShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		a := rapid.SampledFrom([]float64{3, 10, 15, 40}).Draw(t, "allowance")
		allow := make([]float64, len(o.Edges))
		for k := range allow {
			allow[k] = a
		}
		c, err := o.CutOutline(allow, nil)
		if err != nil {
			t.Skip(err)
		}
		base, _ := o.Flatten(0.005)
		for _, ring := range append([]Ring{c.Ring}, c.Holes...) {
			for k, p := range ring {
				for _, q := range []Point{p, lerp(p, ring.at(k+1), 0.5)} {
					if d := distanceToRing(base, q); d < a-0.05 {
						t.Fatalf("%v lies %g mm from the outline, allowance %g", q, d, a)
					}
				}
			}
		}
		if math.Abs(c.Area-o.Area()-c.AllowanceArea) > 1e-6 || c.AllowanceArea < 0 {
			t.Fatalf("areas %g, %g, %g", c.Area, o.Area(), c.AllowanceArea)
		}
	})
}

func TestCutIsRepeatable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := soundOutline(t)
		allow := drawAllowances(t, len(o.Edges))
		one, err1 := o.CutOutline(allow, nil)
		two, err2 := o.CutOutline(allow, nil)
		if (err1 == nil) != (err2 == nil) || len(one.Ring) != len(two.Ring) {
			t.Fatal("two cuts of one outline differ")
		}
		for k := range one.Ring {
			if one.Ring[k] != two.Ring[k] || one.Of[k] != two.Of[k] || one.Ring[k] != snap(one.Ring[k]) {
				t.Fatalf("point %d: %v and %v", k, one.Ring[k], two.Ring[k])
			}
		}
	})
}

// widthOf returns the summed length of the spans in millimetres.
func widthOf(spans []Span) float64 {
	sum := 0.0
	for _, s := range spans {
		sum += s.Width()
	}
	return sum
}
