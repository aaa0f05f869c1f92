package sewn

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// inWords puts what is known of seams in their turn into words: "armholes in the round
// 379.47", "sides flat, closes armholes 379.47 + 379.47 + open 960.00".
func inWords(s *Surface, list []Sewing) (out []string) {
	for _, w := range list {
		line := s.Plan.Seams[w.Seam].Name + " flat"
		if w.Round {
			line = fmt.Sprintf("%s in the round %.2f", s.Plan.Seams[w.Seam].Name, w.Around)
		}
		var closes []string
		for _, c := range w.Closes {
			name := "open"
			if c.Seam >= 0 {
				name = s.Plan.Seams[c.Seam].Name
			}
			closes = append(closes, fmt.Sprintf("%s %.2f", name, c.Length))
		}
		slices.Sort(closes)
		for i, c := range closes {
			if i == 0 {
				line += ", closes " + c
			} else {
				line += " + " + c
			}
		}
		for _, e := range w.Early {
			line += ", over " + s.Plan.Seams[e].Name
		}
		if w.Shut {
			line += ", shut"
		}
		out = append(out, line)
	}
	return out
}

// inTurn sews seams one a turn, by their names.
func inTurn(s *Surface, names ...string) []string {
	var turns [][]int
	for _, name := range names {
		turns = append(turns, []int{slices.IndexFunc(s.Plan.Seams, func(x Seam) bool { return x.Name == name })})
	}
	return inWords(s, s.InTurn(turns))
}

// A bodice with a sleeve whose cap is as long as the armhole: 2 × √(60² + 180²) =
// 379.47 round it. The neck is 4 × √(100² + 100²) = 565.69, the waist 960, a wrist 260.
func withSleeves() Plan {
	p := bodice(bodiceHalf("front"), bodiceHalf("back"))
	sleeve := piece("sleeve", pt(-130, 0), "wrist", pt(130, 0), "seam right", pt(180, 400), "cap front", pt(0, 460), "cap back", pt(-180, 400), "seam left", pt(-130, 0)).pairs(2)
	p.Pieces = append(p.Pieces, sleeve)
	p.Seams = append(p.Seams, seam("sleeve seams", "sleeve.seam right", "sleeve.seam left"),
		seam("armholes", "sleeve.cap front + sleeve.cap back", "front.armhole + back.armhole").full())
	return p
}

func TestFlatOrInTheRound(t *testing.T) {
	s := clean(t, withSleeves())
	// The shoulders close the neck. The sides close both armholes and the waist; the
	// sleeve seams both wrists and both caps, each √(180² + 60²) × 2 = 379.47 round.
	want(t, "set in", inTurn(s, "shoulders", "sides", "sleeve seams", "armholes"),
		"shoulders flat, closes open 565.69",
		"sides flat, closes armholes 379.47 + armholes 379.47 + open 960.00",
		"sleeve seams flat, closes armholes 379.47 + armholes 379.47 + open 260.00 + open 260.00",
		"armholes in the round 379.47")
	// Sewn in flat the sides come last and close the waist, the sleeve seams the wrists.
	want(t, "sewn in flat", inTurn(s, "shoulders", "armholes", "sides", "sleeve seams"),
		"shoulders flat, closes open 565.69",
		"armholes flat",
		"sides flat, closes open 960.00",
		"sleeve seams flat, closes open 260.00 + open 260.00")
}

// TestSewnOverASeamToCome: a band sewn to the waist before the sides are, which then
// end in the middle of the band's edge; and the same after them.
func TestSewnOverASeamToCome(t *testing.T) {
	p := bodice(bodiceHalf("front"), bodiceHalf("back"))
	p.Pieces = append(p.Pieces, box("band", 960, 40))
	p.Seams = append(p.Seams, seam("waist", "front.waist + back.waist", "band.bottom"), seam("band ends", "band.right", "band.left"))
	s := clean(t, p)
	if got := inTurn(s, "shoulders", "waist", "sides", "band ends"); !slices.ContainsFunc(got, func(l string) bool { return l == "waist flat, over sides" }) {
		t.Errorf("a waist sewn before the sides: %q", got)
	}
	for _, l := range inTurn(s, "shoulders", "sides", "band ends", "waist") {
		if slices.Contains([]string{"waist flat, over sides", "waist in the round 960.00, over sides"}, l) {
			t.Errorf("a waist sewn after the sides: %q", l)
		}
	}
}

// TestShut: of two squares sewn all round the last side has nothing to be turned out by;
// the one before it has.
func TestShut(t *testing.T) {
	s, _, _ := Build(plan(box("front", 100, 100), box("back", 100, 100),
		seam("bottom", "front.bottom", "back.bottom"), seam("left", "front.left", "back.left"), seam("right", "front.right", "back.right"), seam("top", "front.top", "back.top")))
	list := inTurn(s, "bottom", "left", "right", "top")
	for i, l := range list {
		if shut := len(l) > 4 && l[len(l)-4:] == "shut"; shut != (i == 3) {
			t.Errorf("%q", l)
		}
	}
	if len(list) != 4 {
		t.Errorf("%d seams are sewn", len(list))
	}
}

// TestFinishedRound: a hem of two panels is worked flat before their side seams are
// sewn, and in the round after them.
func TestFinishedRound(t *testing.T) {
	p := bodice(bodiceHalf("front"), bodiceHalf("back"))
	for i := range p.Pieces {
		p.Pieces[i].Edges = []Edge{{Name: "waist", Finish: "hem"}, {Name: "neck", Finish: "neck"}}
	}
	s := clean(t, p)
	done := func(names ...string) func(int) bool {
		return func(i int) bool { return slices.Contains(names, s.Plan.Seams[i].Name) }
	}
	for _, k := range []struct {
		finish string
		sewn   []string
		round  bool
	}{{"hem", nil, false}, {"hem", []string{"shoulders"}, false}, {"hem", []string{"sides"}, true}, {"neck", []string{"sides"}, false}, {"neck", []string{"shoulders"}, true}, {"none", []string{"sides"}, false}} {
		if got := s.FinishedRound(k.finish, done(k.sewn...)); got != k.round {
			t.Errorf("%s after %v: in the round %v, want %v", k.finish, k.sewn, got, k.round)
		}
	}
}

// TestPartsAreTheWhole sews garments in random order twice, once looking at a seam's own
// part alone and once at the whole garment, and wants the same of both. One seam sews two
// parts of nothing else, so that a part may be in two places.
func TestPartsAreTheWhole(t *testing.T) {
	all := garments()
	all["bags"] = plan(box("front", 100, 200).times(2), box("back", 100, 200).times(2), box("strap", 30, 400),
		seam("left", "front.left", "back.left"), seam("right", "front.right", "back.right"), seam("bottom", "front.bottom", "back.bottom"), seam("strap", "strap.left", "strap.right"))
	for name, p := range all {
		s, _, _ := Build(p)
		rng := rand.New(rand.NewPCG(3, 9))
		for range 20 {
			var turns [][]int
			for _, i := range rng.Perm(len(s.Plan.Seams)) {
				turns = append(turns, []int{i})
			}
			o := newOrdering(s, turns)
			for i := range o.hangs {
				o.hangs.link(i, 0)
			}
			whole := fmt.Sprintf("%+v", o.sewings(turns))
			if got := fmt.Sprintf("%+v", s.InTurn(turns)); got != whole {
				t.Fatalf("%s, sewn as %v: by parts\n%s\nas a whole\n%s", name, turns, got, whole)
			}
		}
	}
}

// TestShutIn: the inside of the bottom of two squares can be reached until the fourth
// side is sewn, and that of a bag that is left open on top always.
func TestShutIn(t *testing.T) {
	s, _, _ := Build(plan(box("front", 100, 100), box("back", 100, 100),
		seam("bottom", "front.bottom", "back.bottom"), seam("left", "front.left", "back.left"), seam("right", "front.right", "back.right"), seam("top", "front.top", "back.top")))
	called := func(name string) int {
		return slices.IndexFunc(s.Plan.Seams, func(q Seam) bool { return q.Name == name })
	}
	turns := [][]int{{called("bottom")}, {called("left"), called("right")}, {called("top")}}
	for n, want := range []int{-1, -1, -1, 2} {
		if got := s.ShutIn(turns[:n], called("bottom")); got != want {
			t.Errorf("after %d turns it is shut in %d, not %d", n, got, want)
		}
	}
}
