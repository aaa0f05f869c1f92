package trade

import "testing"

// TestSeamsByHand: of seams and edges that are said with measures other than their own, what
// each side must be cut with, what is left of it when it is sewn, how wide it is then and how
// wide its strip is cut, each worked by hand from how it is sewn. All are common practice,
// no source, or follow from the folds.
func TestSeamsByHand(t *testing.T) {
	const none = -1
	for _, c := range []struct {
		seam                       string
		given                      Params
		a, b, leftA, leftB, finish float64
		strip                      float64
		how                        string
	}{
		{"overlocked-together", Params{"allowance": 14, "trim": 7, "bite": 5}, 14, 14, 7, 7, 7, none, "the knife leaves 7 of both"},
		{"self-bound", Params{"allowance": 17, "trim": 6, "turn": 3}, 17, 17, 6, 17, 7, none, "(17 − 3) ÷ 2 = 7"},
		{"catch-stitched-open", Params{"allowance": 18}, 18, 18, 18, 18, 36, none, "18 to either side"},
		{"taped-seam", Params{"allowance": 12, "tape": 8}, 12, 12, 12, 12, 12, 8, "the tape is as wide as it is bought"},
		{"safety-stitched", Params{"allowance": 9, "bite": 4}, 9, 9, 9, 9, 9, none, "nothing is cut off"},
		{"flat-covered", Params{"lap": 2.5, "cover": 6}, 1.25, 1.25, 1.25, 1.25, 6, none, "half of the lap each"},
		{"tucked", Params{"tuck": 8, "allowance": 9}, 25, 9, 25, 9, 8, none, "out 8, back 8 and 9 beyond"},
		{"band", Params{"allowance": 8, "width": 40, "over": 2, "edge": 1}, 8, 8, 8, 8, 40, none, "a plain seam, and a band over it"},
		{"lace-lapped", Params{"overlap": 20, "left": 4}, 10, 10, 0, 4, 4, none, "half of the lap each; the upper is cut off at the row, the under one 4 from it"},
		{"zip-lapped", Params{"allowance": 22, "lap": 12, "under": 3, "zip": 28}, 22, 22, 22, 22, 12, 28, "as the seam it opens"},
		{"zip-centred", Params{"allowance": 18, "away": 7}, 18, 18, 18, 18, 14, 25, "7 to either side"},
		{"zip-invisible", Params{"allowance": 18, "groove": 1}, 18, 18, 18, 18, 0, 25, "nothing is seen"},
		{"hairline", Params{"allowance": 5, "zigzag": 1.5}, 5, 5, 1.5, 1.5, 1.5, none, "trimmed to the zigzag"},
		{"pressed-open-taped", Params{"allowance": 6, "tape": 12, "edge": 2}, 6, 6, 6, 6, 12, 12, "two sixes under a tape of 12"},
		{"channelled", Params{"allowance": 6, "channel": 10, "edge": 1}, 6, 6, 6, 6, 10, 10, "as the tape"},
		{"entredeux", Params{"allowance": 5, "width": 4, "bite": 2}, 3, 3, 3, 3, 4, 14, "the seam lies amid the holes, 2 of which are the strip's: 5 − 2; the strip is 4 + 5 + 5"},
		{"yoke-enclosed", Params{"allowance": 12, "grade": 4, "edge": 2}, 12, 12, 12, 12, 2, none, "sewn as one"},
		{"set-in-felled", Params{"narrow": 6, "width": 9, "fold": 6}, 6, 15, 6, 15, 9, none, "9 + 6 wraps the narrow side"},
		{"stoated", Params{"bite": 2}, 0, 0, 0, 0, 4, none, "edge to edge"},
		{"flat-felled-inside", Params{"allowance": 16, "trim": 5, "fold": 6}, 16, 16, 5, 16, 10, none, "16 − 6"},
		{"overlocked-rolled", Params{"roll": 3, "cutoff": 1}, 4, none, 3, none, 3, none, "3 are rolled, 1 is cut off"},
		{"cover-stitched-hem", Params{"depth": 25, "needles": 6}, 25, none, 25, none, 25, none, "turned once"},
		{"taped-hem", Params{"depth": 40, "tape": 15, "lap": 5}, 30, none, 30, none, 40, 15, "40, of which the tape is 15 − 5"},
		{"turn-up", Params{"cuff": 35, "inside": 30}, 100, none, 100, none, 35, none, "35 up, 35 down and 30"},
		{"plush-elastic", Params{"elastic": 12}, 12, none, 12, none, 12, 12, "as the elastic"},
		{"fold-over-elastic", Params{"width": 9}, 0, none, 0, none, 9, 18, "over both faces"},
		{"rib-band", Params{"seam": 7, "width": 25, "top": 2}, 7, none, 7, none, 25, 64, "2 × (25 + 7)"},
		{"overcast-edge", Params{"bite": 4}, 0, none, 0, none, 4, none, "no cloth goes into it"},
		{"shirt-tail-hem", Params{"turn": 7}, 14, none, 14, none, 7, none, "7 and 7 again"},
		{"twin-needle-hem", Params{"depth": 22}, 22, none, 22, none, 22, none, "turned once"},
		{"wigan-hem", Params{"depth": 50, "above": 20}, 50, none, 50, none, 50, 70, "20 beyond the hem"},
		{"bias-faced-edge", Params{"seam": 6, "cut": 30}, 6, none, 6, none, 9, 30, "30 ÷ 2 − 6"},
		{"net-bound", Params{"width": 4}, 0, none, 0, none, 4, 24, "folded: twice under, twice over, twice back"},
		{"elastic-exposed", Params{"seam": 8, "elastic": 30}, 8, none, 8, none, 30, 30, "the elastic laps 8 over it"},
		{"drawstring-casing", Params{"cord": 6, "room": 5, "edge": 2, "turn": 7}, 20, none, 20, none, 13, 6, "6 + 5 + 2, and 7 turned in"},
		{"piped-edge", Params{"seam": 8, "cord": 3, "facing": 45}, 8, none, 8, none, 45, 25.4248, "π × 3 + 2 × 8"},
	} {
		s := seamNamed(t, c.seam)
		if broken, err := s.Broken(c.given, nil); err != nil || len(broken) > 0 {
			t.Errorf("%s with %v: %v %v", c.seam, c.given, broken, err)
			continue
		}
		a, b, err := s.Allowances(c.given)
		if err != nil {
			t.Fatal(err)
		}
		p, err := s.Values(c.given)
		if err != nil {
			t.Fatal(err)
		}
		width, err := s.FinishedWidth(c.given)
		if err != nil {
			t.Fatal(err)
		}
		left := func(of string, side int, cut, want float64) {
			p[CutName] = cut
			mm, err := s.Keeps.Of(side).Value(p)
			if err != nil {
				t.Fatal(err)
			}
			near(t, c.seam+", left of "+of+" ("+c.how+")", mm, want, 1e-9)
		}
		near(t, c.seam+", side a ("+c.how+")", a.Value, c.a, 1e-9)
		left("side a", 0, c.a, c.leftA)
		if (c.b == none) != (s.Kind == Finish) {
			t.Errorf("%s is a %s", c.seam, s.Kind)
		}
		if c.b != none {
			near(t, c.seam+", side b ("+c.how+")", b.Value, c.b, 1e-9)
			left("side b", 1, c.b, c.leftB)
		}
		near(t, c.seam+", finished ("+c.how+")", width.Value, c.finish, 1e-9)
		if (c.strip == none) != (len(s.Strips) == 0) {
			t.Errorf("%s has %d strips", c.seam, len(s.Strips))
			continue
		}
		if c.strip != none {
			cut, err := s.Strips[0].Cut.Value(p)
			if err != nil {
				t.Fatal(err)
			}
			near(t, c.seam+", strip ("+c.how+")", cut, c.strip, 1e-4)
		}
	}
}
