package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func slashed(t *testing.T, o Outline, from, to Point, on [2]string, a, b float64) Slashed {
	t.Helper()
	s, err := o.Slashed(Slash{From: from, To: to, On: on, Open: [2]float64{a, b}})
	if err == nil {
		err = s.Outline.Check()
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func lengths(o Outline) map[string]float64 {
	out := map[string]float64{}
	for _, s := range o.Sides() {
		out[s.Name] = s.Length
	}
	return out
}

func hasLengths(t *testing.T, o Outline, want map[string]float64, area float64) {
	t.Helper()
	for name, long := range lengths(o) {
		if math.Abs(long-want[name]) > 1e-4 {
			t.Errorf("%s is %v long, want %v", name, long, want[name])
		}
	}
	if math.Abs(o.Area()-area) > 1e-2 {
		t.Errorf("its area is %v, want %v", o.Area(), area)
	}
}

// A rectangle 400 by 600 is slashed from top to bottom at 150 from the left and spread by
// 40 at both ends: it is 440 wide, and all its corners stay square. Lapped by 40 it is 360
// wide.
func TestSlashSpreadEvenly(t *testing.T) {
	o, _ := Rectangle(400, 600)
	on := [2]string{"top", "bottom"}
	s := slashed(t, o, Point{150, 600}, Point{150, 0}, on, 40, 40)
	hasLengths(t, s.Outline, map[string]float64{"bottom": 440, "right": 600, "top": 440, "left": 600}, 440*600)
	s = slashed(t, o, Point{150, 600}, Point{150, 0}, on, -40, -40)
	hasLengths(t, s.Outline, map[string]float64{"bottom": 360, "right": 600, "top": 360, "left": 600}, 360*600)
}

// The same is opened at the hem alone, by 80, as a fan: the slash of 600 turns about its
// upper end, and what lies in it is an isosceles triangle with legs of 600 and a base of
// 80, 40 × √(600² − 40²) = 23 946.61 mm² large. The hem is 400 + 80, nothing else is longer.
// The left part is turned by 2 asin(40 ÷ 600) = 7.6451°: its lower corner, 150 to the left
// of the slash and 600 below the hinge, lies at 150 − 150 cos 7.6451° − 600 sin 7.6451° =
// −78.4889, and at 600 − 600 cos 7.6451° + 150 sin 7.6451° = 25.2889 up.
func TestSlashOpenedAsAFan(t *testing.T) {
	o, _ := Rectangle(400, 600)
	s := slashed(t, o, Point{150, 600}, Point{150, 0}, [2]string{"top", "bottom"}, 0, 80)
	hasLengths(t, s.Outline, map[string]float64{"bottom": 480, "right": 600, "top": 400, "left": 600}, 400*600+23946.61)
	if p := s.Moved(Point{0, 0}); distance(p, Point{-78.4889, 25.2889}) > 1e-3 {
		t.Errorf("the lower left corner comes to %v", p)
	}
	if at, moved := s.Along("bottom", 100); !moved || math.Abs(at-100) > 1e-6 {
		t.Errorf("100 along the hem lies at %v", at)
	}
	if at, moved := s.Along("bottom", 200); moved || math.Abs(at-280) > 1e-6 {
		t.Errorf("200 along the hem lies at %v", at)
	}
}

// A sleeve is slashed for fullness from the top of its head to the wrist and spread by 60
// at the head and 100 at the wrist: an isosceles trapezoid between them, (60 + 100) ÷ 2 ×
// √(L² − 20²) with a slash of L = 600: 80 × 599.6666 = 47 973.32 mm². The head is 60 longer
// and the wrist 100; the underarms stay as long, and both halves of the head keep their curve.
func TestSleeveSlashedForFullness(t *testing.T) {
	o := Outline{From: Point{-120, 0}, Edges: []Edge{
		{Name: "wrist", To: Point{120, 0}}, {Name: "underarm front", To: Point{160, 450}},
		{Name: "head", To: Point{0, 600}, Curved: true, C1: Point{110, 460}, C2: Point{70, 600}},
		{Name: "head", To: Point{-160, 450}, Curved: true, C1: Point{-70, 600}, C2: Point{-110, 460}},
		{Name: "underarm back", To: Point{-120, 0}},
	}}
	was := lengths(o)
	s := slashed(t, o, Point{0, 600}, Point{0, 0}, [2]string{"head", "wrist"}, 60, 100)
	was["head"] += 60
	was["wrist"] += 100
	hasLengths(t, s.Outline, was, o.Area()+80*math.Sqrt(600*600-20*20))
	// Both halves turn by half: what lay at one height on the left and the right still does.
	left, right := s.Moved(Point{-120, 0}), s.Stayed(Point{120, 0})
	if !s.Holds(Point{-100, 100}) {
		left, right = s.Stayed(Point{-120, 0}), s.Moved(Point{120, 0})
	}
	if math.Abs(left.Y-right.Y) > 1e-6 {
		t.Errorf("the corners of the wrist lie at %v and %v", left, right)
	}
}

// An outline on the fold stays straight there or is refused; a slash that leaves the piece
// or opens at one end and laps at the other is too.
func TestSlashesThatCannotBe(t *testing.T) {
	o, _ := Rectangle(400, 600)
	o.Edges[3].Fold = true // left
	across := Slash{From: Point{0, 300}, To: Point{400, 300}, On: [2]string{"left", "right"}, Open: [2]float64{20, 20}}
	if s, err := o.Slashed(across); err != nil || math.Abs(lengths(s.Outline)["left"]-620) > 1e-6 {
		t.Errorf("lengthened on the fold: %v", err)
	}
	for _, c := range []struct {
		open [2]float64
		to   Point
		why  string
	}{
		{[2]float64{20, 0}, Point{400, 300}, "the edge on the fold would no longer be straight"},
		{[2]float64{20, -5}, Point{400, 300}, "it cannot open at one end and lap at the other"},
		{[2]float64{500, 20}, Point{400, 300}, "its ends cannot lie so far apart for its length"},
		{[2]float64{20, 20}, Point{0, 100}, "the slash would leave the piece"},
		{[2]float64{20, 20}, Point{0, 300}, "both ends of the slash lie at one place"},
		{[2]float64{-320, -320}, Point{400, 300}, "it would lap farther than the piece goes"},
	} {
		across.Open, across.To = c.open, c.to
		if _, err := o.Slashed(across); err == nil || err.Error() != c.why {
			t.Errorf("opened %v to %v: %v, want %s", c.open, c.to, err, c.why)
		}
	}
}

// Whatever a four-sided piece and its slash: the area grows as the trapezoid between both
// cut lines, edges that are not crossed keep their length, and lapping by as much as was
// spread brings the outline back within a thousandth of a millimetre.
func TestSlashProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		o := Outline{From: Point{draw("a", -50, 50), 0}, Edges: []Edge{
			{Name: "hem", To: Point{draw("b", 350, 450), draw("c", -30, 30)}},
			{Name: "right", To: Point{draw("d", 300, 400), draw("e", 550, 650)}},
			{Name: "waist", To: Point{draw("f", 0, 60), draw("g", 560, 640)}, Curved: true, C1: Point{250, draw("h", 560, 600)}, C2: Point{150, draw("i", 560, 600)}},
			{Name: "left"},
		}}
		o.Edges[3].To = o.From
		was := lengths(o)
		at, to := draw("at", 60, 200), draw("to", 80, 250)
		from, _, _ := o.PointOn("waist", at)
		end, _, _ := o.PointOn("hem", to)
		a, b := draw("open", 0.01, 80), draw("open there", 0.01, 80)
		slash := Slash{From: from, To: end, On: [2]string{"waist", "hem"}, Open: [2]float64{a, b}}
		s, err := o.Slashed(slash)
		if err != nil || s.Outline.Check() != nil {
			t.Skip("its lines cross once it is opened")
		}
		long := distance(from, end)
		if grown := (a + b) / 2 * math.Sqrt(long*long-(a-b)*(a-b)/4); math.Abs(s.Outline.Area()-o.Area()-grown) > 1 {
			t.Errorf("its area grows by %v, want %v", s.Outline.Area()-o.Area(), grown)
		}
		now := lengths(s.Outline)
		for name, by := range map[string]float64{"left": 0, "right": 0, "waist": a, "hem": b} {
			if math.Abs(now[name]-was[name]-by) > 1e-4 {
				t.Errorf("%s was %v and is %v, opened by %v", name, was[name], now[name], by)
			}
		}
		slash.From, slash.To = s.Stayed(from), s.Stayed(end) // where the cut of the other part lies now
		slash.Open, slash.Moves = [2]float64{-a, -b}, "right"
		if s.moves[len(s.moves)-1] {
			slash.Moves = "left"
		}
		again, err := s.Outline.Slashed(slash)
		if err != nil {
			t.Fatal(err)
		}
		for name, l := range lengths(again.Outline) {
			if math.Abs(l-was[name]) > 1e-3 {
				t.Errorf("%s was %v and comes back as %v", name, was[name], l)
			}
		}
		back := placesBack(o, &again.Outline)
		for i, p := range back {
			if s.even == again.even && distance(p.was, p.is) > 1e-3 && distance(again.Moved(p.is), p.was) > 1e-3 {
				t.Errorf("a place on %s lay at %v and lies at %v", p.edge, p.was, p.is)
			}
			// Parts that are equal by a hair before and not after turn by half only once: as
			// much is left between them, and the shape is the same.
			for _, q := range back[:i] {
				if math.Abs(distance(p.was, q.was)-distance(p.is, q.is)) > 1e-3 {
					t.Errorf("places on %s and %s lay %v apart and lie %v", p.edge, q.edge, distance(p.was, q.was), distance(p.is, q.is))
				}
			}
		}
	})
}

// A place on an edge, before and after.
type cameBack struct {
	edge    string
	was, is Point
}

// placesBack are three places on every edge of an outline and where they lie on another.
func placesBack(o Outline, again *Outline) (list []cameBack) {
	for i := range o.Edges {
		for _, part := range []float64{0, 0.3, 0.8} {
			p, _ := o.PointAt(i, part*o.EdgeLength(i))
			q, _, _ := again.PointOn(o.Edges[i].Name, part*o.EdgeLength(i))
			list = append(list, cameBack{o.Edges[i].Name, p, q})
		}
	}
	return list
}
