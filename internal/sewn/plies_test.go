package sewn

import (
	"slices"
	"testing"
)

// caught adds a line of edges that lies behind a side of a seam, along edges of it.
func (s Seam) caught(with int, ply, along string) Seam {
	side := seam("", ply, along)
	s.Plies = append(slices.Clip(s.Plies), Ply{Edges: side.Sides[0], With: with, Along: side.Sides[1]})
	return s
}

// yoked is a shirt's back and fronts with a yoke between them, all straight: the back
// half 240 wide and 400 high, its yoke edge 200; the yoke half 200 along its lower
// edge, 60 up the armhole, 120 along the shoulder and 80 along the neck; the front 240
// wide, 120 along its shoulder.
func yoked() []any {
	return []any{
		piece("back", pt(0, 0), "hem", pt(240, 0), "side", pt(240, 260), "armhole", pt(200, 400), "yoke", pt(0, 400), "fold", pt(0, 0)).at("chest", 200),
		piece("yoke", pt(0, 0), "lower", pt(200, 0), "armhole", pt(200, 60), "shoulder", pt(80, 60), "neck", pt(0, 60), "fold", pt(0, 0)),
		piece("yoke inside", pt(0, 0), "lower", pt(200, 0), "armhole", pt(200, 60), "shoulder", pt(80, 60), "neck", pt(0, 60), "fold", pt(0, 0)).like("yoke"),
		piece("front", pt(0, 0), "hem", pt(240, 0), "side", pt(240, 260), "armhole", pt(200, 400), "shoulder", pt(80, 400), "neck", pt(0, 330), "edge", pt(0, 0)).pairs(2).at("chest", 200),
		seam("sides", "front.side", "back.side"),
		seam("back yoke", "yoke.lower", "back.yoke").caught(0, "yoke inside.lower", "yoke.lower"),
		seam("front yoke", "front.shoulder", "yoke.shoulder").caught(1, "yoke inside.shoulder", "yoke.shoulder"),
	}
}

func TestDoubleYoke(t *testing.T) {
	// Chest: two halves of the back and two fronts, 4 · 240 = 960, once, and open at
	// the front; the yoke is not at it. Armholes: √(40² + 140²) = 145.60 of the back,
	// 60 of the yoke, 145.60 of the front: 351.20 each. The line round everything:
	// hem 960, two front edges 330, two necks of the fronts √(80² + 70²) = 106.30,
	// the yoke's neck 160: 960 + 660 + 212.60 + 160 = 1992.60. The yoke inside has its
	// own three open edges, the armholes and the neck, on one line: all round it is
	// 2 · (200 + 60 + 120 + 80) = 920, for what is caught in is no part of the surface.
	s := clean(t, plan(yoked()...))
	want(t, "chest", girths(s, "chest"), "960.00 open")
	want(t, "openings", openings(s, "shell"), "1992.60", "351.20", "351.20", "920.00")
	behind := s.Behind()
	for id := range s.Copies {
		if c := &s.Copies[id]; behind[id] != (c.Name == "yoke inside") {
			t.Errorf("%s lies behind: %v", c.Name, behind[id])
		}
	}
	// Lower edge: two halves caught along the yoke's. Shoulders: one each.
	for _, test := range []struct {
		seam string
		n    int
	}{{"back yoke", 2}, {"front yoke", 2}} {
		n := 0
		for i := range s.Joins {
			j := &s.Joins[i]
			if j.Kind != Caught || s.Plan.Seams[j.Seam].Name != test.seam {
				continue
			}
			n++
			if of := s.Copies[s.Sides[j.A.Side].Copy].Name; of != "yoke" {
				t.Errorf("%s: the yoke inside lies along %s", test.seam, of)
			}
		}
		if n != test.n {
			t.Errorf("%s: the yoke inside is caught in %d times, not %d", test.seam, n, test.n)
		}
	}
	// Nothing of the yoke inside is loose but the edges that no seam names.
	var loose []string
	for _, sp := range s.Loose() {
		if c := s.Copies[s.Sides[sp.Side].Copy]; c.Name == "yoke inside" {
			loose = append(loose, s.Sides[sp.Side].Edge)
		}
	}
	slices.Sort(loose)
	if !slices.Equal(slices.Compact(loose), []string{"armhole", "neck"}) {
		t.Errorf("loose of the yoke inside: %v", loose)
	}
}

func TestStandBetweenTwoCollars(t *testing.T) {
	// A neck of 400 round a tube of 400; a stand of 400, 30 high, and one inside; a
	// collar of 400, 60 high, and one under it. Neck seam: body, stand, stand inside.
	// Collar seam: four plies, collar to stand outside, under collar to stand inside,
	// each pair joined as the other. So outside hang together body, stand and collar:
	// openings 400 at the hem, and the collar's edge with its ends and the stand's:
	// 400 + 2 · 60 + 2 · 30 = 580. The two inside: 400 + 2 · 90 + 400 = 980.
	body := box("body", 400, 500)
	s := clean(t, plan(body, box("stand", 400, 30), box("stand inside", 400, 30).like("stand"),
		box("collar", 400, 60), box("under collar", 400, 60).like("collar"),
		seam("back", "body.left", "body.right"),
		seam("neck", "body.top", "stand.bottom").caught(1, "stand inside.bottom", "stand.bottom"),
		seam("collar", "collar.bottom", "stand.top").caught(0, "under collar.bottom", "collar.bottom").caught(1, "stand inside.top", "stand.top")))
	want(t, "openings", openings(s, "shell"), "400.00", "580.00", "980.00")
	behind := s.Behind()
	for id := range s.Copies {
		name := s.Copies[id].Name
		if inside := name == "stand inside" || name == "under collar"; behind[id] != inside {
			t.Errorf("%s lies behind: %v", name, behind[id])
		}
	}
}

func TestLiningCaughtInTheSides(t *testing.T) {
	// Front and back 200 wide, lined, all four sewn in one seam at each side: the shell
	// is a tube of 400, the lining another, caught along it.
	s := clean(t, plan(box("front", 200, 300).at("hip", 150), box("back", 200, 300).at("hip", 150),
		box("front lining", 200, 300).in("lining").like("front").at("hip", 150), box("back lining", 200, 300).in("lining").like("back").at("hip", 150),
		seam("left sides", "front.left", "back.right").caught(0, "front lining.left", "front.left").caught(1, "back lining.right", "back.right"),
		seam("right sides", "front.right", "back.left").caught(0, "front lining.right", "front.right").caught(1, "back lining.left", "back.left")))
	want(t, "hip", girths(s, "hip"), "400.00 closed")
	want(t, "openings", openings(s, "shell"), "400.00", "400.00")
	want(t, "openings of the lining", openings(s, "lining"), "400.00", "400.00")
}

func TestPliesInAnyOrder(t *testing.T) {
	// The order of the two sides in the file changes nothing.
	a := plan(yoked()...)
	b := plan(yoked()...)
	slices.Reverse(b.Seams)
	for i := range b.Seams {
		s := &b.Seams[i]
		slices.Reverse(s.Sides)
		for k := range s.Plies {
			s.Plies[k].With = 1 - s.Plies[k].With
		}
	}
	one, two := clean(t, a), clean(t, b)
	if !slices.Equal(one.Joins, two.Joins) {
		t.Errorf("joins differ:\n%v\n%v", one.Joins, two.Joins)
	}
}
