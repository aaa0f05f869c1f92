package shape

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func cutOf(t *testing.T, o Outline, allow []float64, corners []Corner) Cut {
	t.Helper()
	c, err := o.CutOutline(allow, corners)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func sameRing(t *testing.T, what string, got Ring, want ...Point) {
	t.Helper()
	start := 0
	for k, p := range got {
		if nearer(p, want[0], 0.01) {
			start = k
		}
	}
	if len(got) != len(want) {
		t.Errorf("%s: got %v, want %v", what, got, want)
		return
	}
	for k, p := range want {
		if q := got[(start+k)%len(got)]; !nearer(p, q, 0.01) {
			t.Errorf("%s: got %v, want %v", what, got, want)
			return
		}
	}
}

// A skirt panel 200 mm wide at the waist, 400 at the hem, 100 high: its
// sides lean at 45°, so that every corner can be worked out by hand. The
// hem gets 40 mm, the sides 10.
func flared() (Outline, []float64) {
	return Outline{Edges: []Edge{
		{Name: "hem", To: Point{400, 0}}, {Name: "right", To: Point{300, 100}},
		{Name: "waist", To: Point{100, 100}}, {Name: "left", To: Point{0, 0}},
	}}, []float64{40, 10, 0, 10}
}

func TestCornerRules(t *testing.T) {
	o, allow := flared()
	side := 10 * math.Sqrt2                                // the side's cut line, measured across
	top := []Point{{300 + side, 100}, {100 - side, 100}}   // where the waist's line meets it
	outer := []Point{{-side - 40, -40}, {440 + side, -40}} // the sides' lines carried down to the hem's

	sameRing(t, "mitre", cutOf(t, o, allow, nil).Ring, outer[0], outer[1], top[0], top[1])
	square := cutOf(t, o, allow, []Corner{Square, Mitre, Mitre, Mitre})
	sameRing(t, "square", square.Ring, Point{-side, -40}, Point{400 + side, -40}, Point{400 + side, 0}, top[0], top[1], Point{-side, 0})
	mirror := cutOf(t, o, allow, []Corner{Mirror, Mitre, Mitre, Mitre})
	sameRing(t, "mirror", mirror.Ring, Point{40 - side, -40}, Point{360 + side, -40}, Point{400 + side, 0}, top[0], top[1], Point{-side, 0})

	near(t, "mirrored hem's area", mirror.AllowanceArea-square.AllowanceArea, -40*40, 0.1)
	if diff := cmp.Diff(mirror.Of, []int{0, -1, 1, 2, 3, -1}); diff != "" {
		t.Error(diff)
	}
	for _, rule := range []Corner{Mitre, Square, Mirror} {
		if !bothWays(t, o, allow, []Corner{rule, Mitre, Mitre, Mitre}) {
			t.Errorf("rule %v: not proved directly", rule)
		}
	}
	all := cutOf(t, o, allow, []Corner{Mirror, Mirror, Mirror, Mirror})
	sameRing(t, "mirrored neighbours mitre", all.Ring, outer[0], outer[1], top[0], top[1])
}

// A turned-up mirrored hem must lie on the piece: folded back about the
// hem line its end coincides with the side's cut line.
func TestMirrorLiesOnThePiece(t *testing.T) {
	o, _ := flared()
	allow := []float64{40, 10, 0, 10}
	plain, mirrored := cutOf(t, o, allow, nil), cutOf(t, o, allow, []Corner{Mirror, Mitre, Mitre, Mitre})
	for _, p := range mirrored.Ring {
		if p.Y < -1 {
			up := Point{p.X, -p.Y}
			if d := distanceToRing(plain.Ring, up); d > 1e-6 {
				t.Errorf("%v turned up lies %g mm from the side's cut line", p, d)
			}
		}
	}
}

func distanceToRing(r Ring, p Point) float64 {
	least := math.Inf(1)
	for k := range r {
		a, b := r[k], r.at(k+1)
		s := clamp(dot(p.Sub(a), b.Sub(a))/dot(b.Sub(a), b.Sub(a)), 0, 1)
		least = min(least, distance(p, lerp(a, b, s)))
	}
	return least
}

// A point of 2·atan(1/10) = 11.4° would have a mitre ten times the
// allowance long; it is cut off square at four times.
func TestMitreLimit(t *testing.T) {
	o := path(Point{0, 0}, Point{1000, 100}, Point{0, 200})
	c := cutOf(t, o, []float64{10, 10, 10}, nil)
	_, most := c.Ring.Bounds()
	near(t, "blunted point", most.X, 1040, 1e-6)
	blunt := 0
	for _, of := range c.Of {
		if of < 0 {
			blunt++
		}
	}
	if len(c.Ring) != 4 || blunt != 1 {
		t.Errorf("got %v of %v", c.Ring, c.Of)
	}
}

// An L of 100 mm limbs: where it turns inward equal allowances simply meet.
func TestInwardCorner(t *testing.T) {
	o := path(Point{0, 0}, Point{200, 0}, Point{200, 100}, Point{100, 100}, Point{100, 200}, Point{0, 200})
	c := cutOf(t, o, []float64{10, 10, 10, 10, 10, 10}, nil)
	sameRing(t, "L", c.Ring, Point{-10, -10}, Point{210, -10}, Point{210, 110}, Point{110, 110}, Point{110, 210}, Point{-10, 210})
	near(t, "area", c.Area, 220*120+120*100, 1e-6)
	c = cutOf(t, o, []float64{0, 0, 0, 40, 0, 0}, nil)
	near(t, "one allowance", c.AllowanceArea, 40*100, 1e-6)
}

// A notch 12 mm wide at its mouth and 60 wide inside, all edges with 10 mm:
// its mouth closes and leaves a hole of 40 × 30 mm.
func TestNarrowNotchLeavesHole(t *testing.T) {
	o := path(Point{0, 0}, Point{300, 0}, Point{300, 200}, Point{156, 200}, Point{156, 150}, Point{180, 150},
		Point{180, 100}, Point{120, 100}, Point{120, 150}, Point{144, 150}, Point{144, 200}, Point{0, 200})
	allow := make([]float64, len(o.Edges))
	for k := range allow {
		allow[k] = 10
	}
	c := cutOf(t, o, allow, nil)
	if len(c.Holes) != 1 {
		t.Fatalf("got %d holes, want 1", len(c.Holes))
	}
	near(t, "hole", c.Holes[0].Area(), -40*30, 1e-3)
	near(t, "cut area", c.Area, 320*220-40*30, 1e-3)
	least, most := c.Ring.Bounds()
	if least != (Point{-10, -10}) || most != (Point{310, 210}) || len(c.Ring) != 4 {
		t.Errorf("got %v", c.Ring)
	}
	for _, e := range c.PerEdge[:1] {
		near(t, "bottom's cut line", e.CutLength, 320, 1e-6)
	}
}

// A piece on the fold whose hem does not meet the fold squarely: the hem's
// allowance ends on the line of the fold, so that it closes when the piece
// is opened.
func TestAllowanceEndsAtFold(t *testing.T) {
	for _, drop := range []float64{-20, 0, 20} {
		o := Outline{From: Point{0, drop}, Edges: []Edge{
			{Name: "hem", To: Point{200, 0}}, {Name: "side", To: Point{200, 300}},
			{Name: "top", To: Point{0, 300}}, {Name: "fold", To: Point{0, drop}, Fold: true},
		}}
		allow := []float64{40, 15, 10, 99}
		half := cutOf(t, o, allow, nil)
		least, _ := half.Ring.Bounds()
		near(t, "fold", least.X, 0, 1e-6)
		if got := half.PerEdge[3]; got.Allowance != 0 {
			t.Errorf("the fold got %g mm", got.Allowance)
		}
		whole, err := o.unfolded(3)
		if err != nil {
			t.Fatal(err)
		}
		// unfolded: hem, side, top, then the mirrored top, side, hem
		full := cutOf(t, whole, []float64{40, 15, 10, 10, 15, 40}, nil)
		near(t, "opened area", full.Area, 2*half.Area, 1e-3)
		bothWays(t, o, allow, nil)
	}
}

func TestCutOutlineRefuses(t *testing.T) {
	o := rectangle(t, 100, 100)
	for name, c := range map[string]struct {
		o     Outline
		allow []float64
		rules []Corner
	}{
		"too few allowances": {o, []float64{1, 2, 3}, nil},
		"too few rules":      {o, []float64{1, 2, 3, 4}, []Corner{Mitre}},
		"negative":           {o, []float64{1, 2, 3, -4}, nil},
		"not a number":       {o, []float64{1, 2, math.NaN(), 4}, nil},
		"too wide":           {o, []float64{1, 2, 3, 1001}, nil},
		"crossing":           {path(Point{0, 0}, Point{100, 100}, Point{100, 0}, Point{0, 120}), []float64{1, 2, 3, 4}, nil},
		"empty":              {Outline{}, nil, nil},
	} {
		if c, err := c.o.CutOutline(c.allow, c.rules); err == nil {
			t.Errorf("%s: got %v", name, c)
		}
	}
}

// A clockwise outline is cut like the same outline run the other way; the
// edges keep their numbers.
func TestCutOfClockwiseOutline(t *testing.T) {
	o, allow := flared()
	want := cutOf(t, o, allow, []Corner{Mirror, Mitre, Mitre, Mitre})
	got := cutOf(t, o.Reversed(), backward(allow), []Corner{Mitre, Mitre, Mitre, Mirror})
	near(t, "area", got.Area, want.Area, 1e-9)
	for _, e := range got.PerEdge {
		for _, w := range want.PerEdge {
			if e.Name == w.Name && math.Abs(e.CutLength-w.CutLength) > 1e-9 {
				t.Errorf("%v, want %v", e, w)
			}
		}
	}
	for k, of := range got.Of {
		if of == 3 { // the hem is the last edge now
			near(t, "hem's level", got.Ring[k].Y, -40, 1e-9)
		}
	}
}

// The cut line of a quarter ring lies within 0.05 mm of the circles r − a
// and r + a.
func TestCurvedOffset(t *testing.T) {
	s := ring(t, 1, 700, 600, 4)
	for _, a := range []float64{3, 15, 40, 90} {
		c := cutOf(t, s.Panel, ringAllowances{a, a, 10}.of(s), nil)
		for k, p := range c.Ring {
			if c.Of[k] < 0 {
				continue
			}
			name := s.Panel.Edges[c.Of[k]].Name
			for _, q := range []Point{p, lerp(p, c.Ring.at(k+1), 0.5)} {
				// beyond the panel's sides the lines run straight on
				if math.Abs(math.Atan2(q.X, -q.Y)) > math.Pi/4 {
					continue
				}
				switch name {
				case "waist":
					near(t, "waist", distance(q, Point{}), s.InnerRadius-a, 0.05)
				case "hem":
					near(t, "hem", distance(q, Point{}), s.OuterRadius+a, 0.05)
				}
			}
		}
	}
}

// At 45° a line of no allowance cuts back the 40 mm of its neighbour by 40 mm: as much as
// the wider allowance, and not more, so that the two meet. From a hem of 200 it leaves
// 200 − 2 × 40 at the raw edge, 6400 mm² in all; where the outline turns inward it is
// carried on by 40, which is (100 + 140) ÷ 2 × 40 = 4800 mm². However the piece lies.
func TestMeetsAtTheWiderAllowanceHoweverItLies(t *testing.T) {
	outer := path(Point{100, 0}, Point{300, 0}, Point{400, 100}, Point{0, 100})
	inner := path(Point{0, 0}, Point{100, 0}, Point{200, -100}, Point{200, 200}, Point{0, 200})
	turned := func(o Outline, by float64) Outline {
		sin, cos := math.Sincos(by)
		put := func(p Point) Point { return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos} }
		o.From = put(o.From)
		edges := make([]Edge, len(o.Edges))
		for i, e := range o.Edges {
			e.To = put(e.To)
			edges[i] = e
		}
		o.Edges = edges
		return o
	}
	for degrees := range 360 {
		by := float64(degrees) * math.Pi / 180
		near(t, "outer corner", cutOf(t, turned(outer, by), []float64{40, 0, 0, 0}, nil).AllowanceArea, 6400, 0.1)
		near(t, "inner corner", cutOf(t, turned(inner, by), []float64{40, 0, 0, 0, 0}, nil).AllowanceArea, 4800, 0.1)
	}
}

// A side that ends at (200, 200) is carried on, 5 mm outside itself, through a hem of 120 mm
// along an arc of 400 about (482.84, 482.84) that leaves it at 45°: it meets the hem's cut
// line, the arc of 280, at (205, 482.84 − √(280² − 277.84²)) = (205, 448.13). In how many
// chords the arc is followed says nothing of how far the two may meet from the corner.
func TestMeetsACurveFarFromTheCorner(t *testing.T) {
	const r, k = 400, 106.0868 // the handles of an arc of 45° are 4/3 tan(45°/4) long
	d := math.Sqrt2 / 2
	begin := Point{200, 200}
	end := Point{begin.X + r*(d-1), begin.Y + r*d}
	o := Outline{From: Point{0, 0}, Edges: []Edge{
		{Name: "bottom", To: Point{200, 0}}, {Name: "side", To: begin},
		{Name: "hem", To: end, C1: Point{begin.X - k*d, begin.Y + k*d}, C2: Point{end.X, end.Y - k}, Curved: true},
		{Name: "top", To: Point{0, end.Y}}, {Name: "left", To: Point{0, 0}},
	}}
	cut := cutOf(t, o, []float64{0, 5, 120, 0, 0}, nil)
	_, most := cut.Ring.Bounds()
	near(t, "how far out it goes", most.X, 205, 0.05)
	least := math.Inf(1)
	for _, p := range cut.Ring {
		least = min(least, math.Hypot(p.X-205, p.Y-448.13))
	}
	near(t, "the meeting", least, 0, 0.05)
}
