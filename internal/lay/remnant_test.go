package lay_test

import (
	"math"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// One 600 × 500 rectangle on cloth 1000 wide and 1000 long leaves an L of
// 1 000 000 - 300 000, less a few squares of the grid along its sides.
func TestRemnantOfALengthOnHand(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, Length: 1000}, Pieces: []lay.Piece{
		{Outline: rect(600, 500), Turns: []float64{0}}}}
	plan := made(t, p, 10_000)
	if len(plan.Remnants) != 1 {
		t.Fatalf("%d remnants, want one", len(plan.Remnants))
	}
	area := areaOf(plan.Remnants[0])
	if area > 700_000 || area < 680_000 {
		t.Errorf("area %g, want just below 700000", area)
	}
}

func TestRemnantsCoverNoPiece(t *testing.T) {
	long(t)
	p := garmentOn(1400)
	p.Cloth.Length = 1800
	p.Cloth.Flaws = [][]lay.Point{{{X: 1500, Y: 600}, {X: 1600, Y: 600}, {X: 1600, Y: 700}, {X: 1500, Y: 700}}}
	plan := made(t, p, 100_000)
	if len(plan.Remnants) == 0 {
		t.Fatal("no remnants on 1800 mm")
	}
	last := math.Inf(1)
	for _, r := range plan.Remnants {
		if a := areaOf(r); a > last || a < 140*140*0.9 {
			t.Errorf("remnant of %g after %g", a, last)
		} else {
			last = a
		}
		for _, at := range plan.Placements {
			if d := verify.Penetration(r, p.Placed(at)); d > 1e-6 {
				t.Errorf("a remnant covers piece %d by %g", at.Piece, d)
			}
		}
		if d := verify.Penetration(r, p.Cloth.Flaws[0]); d > 1e-6 {
			t.Errorf("a remnant covers the flaw by %g", d)
		}
	}
}
