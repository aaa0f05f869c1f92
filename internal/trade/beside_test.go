package trade

import (
	"math"
	"math/rand/v2"
	"testing"
)

// How far beside a seam a row holds something, from what the types give up and keep,
// worked by hand: a plain seam with 15 of allowance holds 15 on both sides, one pressed to
// one side on that side alone; a French seam of 6 and 9 is 9 wide; a hem turned once by
// 30 is two plies for 30; what is raw or butted is one ply; two plies that are turned
// inside each other go on together.
func TestHeldBeside(t *testing.T) {
	for _, c := range []struct {
		name        string
		given       Params
		left, right float64
	}{
		{"plain", Params{"allowance": 15}, 15, 15},
		{"plain-to-one-side", Params{"allowance": 12}, 12, 0},
		{"french", Params{"first": 6, "second": 9, "trim": 3}, 9, 0},
		{"welt", nil, 15, 0},
		{"single-turned-hem", Params{"depth": 30}, 30, 0},
		{"double-turned-hem", Params{"depth": 20}, 20, 0},
		{"raw", nil, 0, 0},
		{"overlocked-edge", nil, 0, 0},
		{"enclosed", nil, math.Inf(1), 0},
		{"stoated", nil, 0, 0},
	} {
		s, ok := FindSeamType(SeamTypes(), c.name)
		if !ok {
			t.Fatal(c.name)
		}
		for side, want := range []float64{c.left, c.right} {
			if _, most, err := s.Held(c.given, Half(side)); err != nil || math.Abs(most-want) > 1e-6 && most != want {
				t.Errorf("%s holds %v on side %d, want %v (%v)", c.name, most, side, want, err)
			}
		}
	}
}

// TestBesideAsDrawn: a row beside any type that holds something passes, as it is drawn,
// the plies that its pass names and no others.
func TestBesideAsDrawn(t *testing.T) {
	tried := 0
	eachLegal(t, func(t *testing.T, s SeamType, given Params) {
		random := rand.New(rand.NewPCG(uint64(tried), 3))
		for _, side := range []Half{LeftHalf, RightHalf} {
			least, most, err := s.Held(given, side)
			if err != nil {
				t.Fatal(err)
			}
			if math.IsInf(most, 1) {
				most = 30
			}
			if most-least < 3 {
				continue
			}
			at := math.Round((least+1+(most-least-2)*random.Float64())*10) / 10
			if !s.RowHolds(given, side, at) {
				t.Errorf("%v: %v mm on side %d holds nothing, and it holds from %v to %v", given, at, side, least, most)
			}
			if flatEdgeNear(t, s, given, side, at) || s.Name == "piped" && at < 4*s.plainly(given)["cord"] {
				continue // on a fold, a cut edge or a cord, where the drawing says nothing
			}
			tried++
			with := s.With(given, []Beside{{Topstitch, at, []Half{side}, "301"}})
			section, err := with.Section(given)
			if err != nil {
				t.Fatal(err)
			}
			drawn := section.Stitches[len(section.Stitches)-1]
			named := with.Passes[len(with.Passes)-1].Through.row(0)
			passed := passedBy(section, drawn)
			for _, r := range roles {
				if count(passed, r.role) != count(named, r.role) {
					t.Errorf("%v: the row at %v on side %d passes %v as drawn, and %v as named", given, at, side, passed, named)
					break
				}
			}
		}
	})
	if tried < 1000 {
		t.Errorf("only %d rows were tried", tried)
	}
}

// plainly are all its measures.
func (t SeamType) plainly(given Params) Params {
	p, _ := t.Values(given)
	return p
}

// flatEdgeNear reports whether a ply turns or ends within a millimetre of a place.
func flatEdgeNear(t *testing.T, s SeamType, given Params, side Half, at float64) bool {
	t.Helper()
	f, err := s.flat(given)
	if err != nil {
		t.Fatal(err)
	}
	for i := range f.Layers {
		for _, p := range f.Layers[i].Path {
			if math.Abs(p.X*side.sign()-at) < 1 {
				return true
			}
		}
	}
	return false
}

// Pressed the other way, a seam that may lie to either side has its allowances on side b.
func TestTurned(t *testing.T) {
	s, _ := FindSeamType(SeamTypes(), "plain-to-one-side")
	if !s.MayTurn() {
		t.Fatal("it may not lie to either side")
	}
	stack, err := s.Turned().StackBeside(nil, LeftHalf, 5)
	if err != nil || stack[ClothB] != 2 || stack[ClothA] != 1 {
		t.Errorf("turned, 5 mm to the left lie %v (%v)", stack, err)
	}
	felled, _ := FindSeamType(SeamTypes(), "flat-felled")
	if felled.MayTurn() {
		t.Error("a flat-felled seam may lie to either side")
	}
}
