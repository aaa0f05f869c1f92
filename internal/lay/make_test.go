package lay_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// outline reads "0,0 400,0 400,600 0,600".
func outline(t testing.TB, text string) []lay.Point {
	t.Helper()
	pts, err := readOutline(text)
	if err != nil {
		t.Fatal(err)
	}
	return pts
}

func rect(w, h float64) []lay.Point { return []lay.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}} }

// long skips what measures plans of a long search, where tests are to be short:
// the search itself, with its threads, is that of the other tests.
func long(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("a long search")
	}
}

// made lays a problem and verifies the plan.
func made(t testing.TB, p lay.Problem, work int) *lay.Plan {
	t.Helper()
	plan, err := lay.Make(context.Background(), p, lay.Options{Tries: work, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	for q := plan; q != nil; q = q.Other {
		for _, fault := range verify.Check(&p, q, 0.001) {
			t.Errorf("fold %v: %s", q.Fold, fault)
		}
	}
	return plan
}

// Lengths below can be found with pencil and paper.
func TestHandLaidLengths(t *testing.T) {
	long(t)
	half := outline(t, "0,0 300,0 300,200 0,200")
	rows := []struct {
		name    string
		problem lay.Problem
		want    float64
	}{
		{"one rectangle", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(400, 600)}}}, 400},
		{"two side by side fill the width", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(400, 500), Quantity: 2}}}, 400},
		{"two too wide to lie side by side", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(400, 600), Quantity: 2}}}, 800},
		{"a quarter turn saves length", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(900, 300), Turns: []float64{0, 90}}}}, 300},
		{"clearance between, not at the selvedge", lay.Problem{Cloth: lay.Cloth{Width: 1000, Clearance: 10},
			Pieces: []lay.Piece{{Outline: rect(400, 600), Quantity: 2}}}, 810},
		{"two triangles make a rectangle", lay.Problem{Cloth: lay.Cloth{Width: 300},
			Pieces: []lay.Piece{{Outline: outline(t, "0,0 500,0 0,300"), Quantity: 2}}}, 500},
		{"one-way triangles do not", lay.Problem{Cloth: lay.Cloth{Width: 300, OneWay: true},
			Pieces: []lay.Piece{{Outline: outline(t, "0,0 500,0 0,300"), Quantity: 1}}}, 500},
		{"one-way cloth, triangles staggered", lay.Problem{Cloth: lay.Cloth{Width: 300, OneWay: true},
			Pieces: []lay.Piece{{Outline: outline(t, "0,0 500,0 0,300"), Quantity: 2}}}, 1000},
		{"one-way but mirrored and one-way cloth", lay.Problem{Cloth: lay.Cloth{Width: 600, OneWay: true},
			Pieces: []lay.Piece{{Outline: outline(t, "0,0 500,0 0,300"), Quantity: 2, Mirrored: true}}}, 500},
		{"bias square", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(500, 500), Grain: lay.Bias}}}, 500 * math.Sqrt2},
		{"a flaw at the start", lay.Problem{Cloth: lay.Cloth{Width: 1000, Flaws: [][]lay.Point{rect(50, 1000)}},
			Pieces: []lay.Piece{{Outline: rect(400, 1000)}}}, 450},
		{"open lay of a half piece", lay.Problem{Cloth: lay.Cloth{Width: 400},
			Pieces: []lay.Piece{{Outline: half, OnFold: true, FoldEdge: 0}}}, 300},
		{"the second stage fills the hole of the first", lay.Problem{Cloth: lay.Cloth{Width: 1000},
			Pieces: []lay.Piece{{Outline: rect(400, 600)}, {Outline: rect(400, 400), Stage: 1}}}, 400},
		{"repeat along: the second waits for the stripe", lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAlong: 150},
			Pieces: []lay.Piece{{Outline: rect(400, 900), Quantity: 2, Turns: []float64{0}}}, Ties: []lay.Tie{tie(tied(0, 0, 0, 0), tied(0, 1, 0, 0))}}, 850},
		{"repeat across: 0 and 600 are on the stripe", lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAcross: 300},
			Pieces: []lay.Piece{{Outline: rect(400, 400), Quantity: 2, Turns: []float64{0}}}, Ties: []lay.Tie{{A: tied(0, 0, 0, 0), B: tied(0, 1, 0, 0), Across: true}}}, 400},
		{"repeat across: 700 is too far", lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAcross: 350},
			Pieces: []lay.Piece{{Outline: rect(400, 400), Quantity: 2, Turns: []float64{0}}}, Ties: []lay.Tie{{A: tied(0, 0, 0, 0), B: tied(0, 1, 0, 0), Across: true}}}, 800},
		{"reversible cloth mirrors what it needs", lay.Problem{Cloth: lay.Cloth{Width: 600, OneWay: true, Reversible: true},
			Pieces: []lay.Piece{{Outline: outline(t, "0,0 500,0 0,300"), Quantity: 2}}}, 500},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			plan := made(t, row.problem, 100_000)
			if math.Abs(plan.Length-row.want) > 1e-6*row.want {
				t.Errorf("length %.9g, want %.9g", plan.Length, row.want)
			}
			if plan.Length < plan.Bound.Length*(1-1e-9) {
				t.Errorf("length %g is below the bound %g", plan.Length, plan.Bound.Length)
			}
			if !plan.Fits {
				t.Error("the plan does not fit")
			}
		})
	}
}

func TestFoldedLay(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, Fold: lay.EitherWay}, Pieces: []lay.Piece{
		{Name: "back", Outline: rect(600, 300), OnFold: true, FoldEdge: 0},
		{Name: "front", Outline: rect(600, 200), Quantity: 2, Mirrored: true},
	}}
	// folded: 300 + 200 = 500 across, 600 long; open: 600 + 2 × 200 = 1000 across
	plan := made(t, p, 100_000)
	if plan.Other == nil || math.Abs(plan.Length-600) > 1e-3 || math.Abs(plan.Other.Length-600) > 1e-3 {
		t.Fatalf("got %+v", plan)
	}
	p.Pieces = []lay.Piece{{Name: "front", Outline: outline(t, "0,0 600,0 500,200 0,200"), Quantity: 3}}
	plan = made(t, p, 100_000)
	if plan.Other != nil || !strings.Contains(plan.NotFolded, `"front" is not cut as a mirrored pair`) {
		t.Errorf("not folded because %q", plan.NotFolded)
	}
}

// Two fronts, 400 by 300, on cloth of 700: folded, 350, they lie in 400, and a pocket 50
// wide beside them, cut from the upper layer alone. Open that takes 400 too, and what is as
// short is folded. A pocket 60 wide does not lie beside them so: 500; with only 320 folded
// in, it has the 60 that are left for itself, and all lie in 400.
func TestOnePocketDoesNotForbidTheFold(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 700, Fold: lay.EitherWay}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(400, 300), Quantity: 2, Mirrored: true}, {Name: "pocket", Outline: rect(100, 50)}}}
	plan := made(t, p, 20_000)
	if !plan.Folded() || math.Abs(plan.Length-400) > 1e-6 {
		t.Errorf("folded %v, length %g, want a fold and 400", plan.Folded(), plan.Length)
	}
	for _, at := range plan.Placements {
		if at.Pair != (at.Piece == 0) {
			t.Errorf("piece %d lies as a pair: %v", at.Piece, at.Pair)
		}
	}
	p.Pieces[1].Outline = rect(100, 60)
	plan = made(t, p, 20_000)
	if plan.Fold != lay.PartWidth || math.Abs(plan.Near-320) > 1e-6 || math.Abs(plan.Length-400) > 1e-6 {
		t.Errorf("%+v, length %g, want 400 with 320 folded in", plan.Folding, plan.Length)
	}
	p.Cloth.Fold = lay.Lengthwise
	if plan = made(t, p, 20_000); math.Abs(plan.Length-500) > 1e-6 {
		t.Errorf("length %g folded lengthwise, want 500", plan.Length)
	}
}

func TestFoldedLayMeetsFlawsOfBothLayers(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, Fold: lay.Lengthwise, Flaws: [][]lay.Point{
		{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 40}, {X: 0, Y: 40}}, // at the left selvedge
	}}, Pieces: []lay.Piece{{Outline: rect(300, 500), Quantity: 2, Mirrored: true}}}
	if plan := made(t, p, 50_000); math.Abs(plan.Length-400) > 1e-3 {
		t.Errorf("length %g, want 400: the flaw lies in one layer and both are cut", plan.Length)
	}
}

func TestRemnant(t *testing.T) {
	// an L, 1000 × 1000 with a 500 × 500 corner gone, a hole in its foot
	cloth := lay.Cloth{Outline: outline(t, "0,0 1000,0 1000,500 500,500 500,1000 0,1000"),
		Holes: [][]lay.Point{outline(t, "700,100 800,100 800,200 700,200")}}
	p := lay.Problem{Cloth: cloth, Pieces: []lay.Piece{{Name: "a", Outline: rect(490, 490), Quantity: 2}}}
	plan := made(t, p, 100_000)
	if !plan.Fits || len(plan.Placements) != 2 {
		t.Errorf("two squares fit the sound half, got %d", len(plan.Placements))
	}
	p.Pieces[0].Quantity = 3
	plan = made(t, p, 100_000)
	if plan.Fits || len(plan.Unplaced) != 1 {
		t.Errorf("the third square covers the hole; unplaced %v", plan.Unplaced)
	}
}

// The long bars must turn for the square to fit: the first arrangement, which
// lays the largest piece at the start, has no room for all.
func TestRemnantThatMustBeFilledExactly(t *testing.T) {
	long(t)
	p := lay.Problem{Cloth: lay.Cloth{Outline: rect(1000, 1000)}, Pieces: []lay.Piece{
		{Name: "bar", Outline: rect(700, 300), Quantity: 4, Turns: []float64{0, 90}},
		{Name: "square", Outline: rect(390, 390)},
	}}
	plan := made(t, p, 2_000_000)
	if !plan.Fits {
		t.Errorf("a pinwheel of four bars round the square fits, %v was left", plan.Unplaced)
	}
}

func TestLengthOnHand(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, Length: 700},
		Pieces: []lay.Piece{{Outline: rect(400, 600), Quantity: 2}}}
	plan := made(t, p, 50_000)
	if plan.Fits || math.Abs(plan.Shortage-100) > 1e-3 {
		t.Errorf("fits %v, short of %g, want 100", plan.Fits, plan.Shortage)
	}
}

func TestRefusals(t *testing.T) {
	one := func(q lay.Piece) lay.Problem {
		q.Name = "collar"
		return lay.Problem{Cloth: lay.Cloth{Width: 100}, Pieces: []lay.Piece{q}}
	}
	nan := math.NaN()
	rows := []struct {
		name    string
		problem lay.Problem
		want    string
	}{
		{"no pieces", lay.Problem{Cloth: lay.Cloth{Width: 1}}, "no pieces"},
		{"no width", lay.Problem{Pieces: []lay.Piece{{Outline: rect(1, 1)}}}, "usable width must be above 0"},
		{"nan width", lay.Problem{Cloth: lay.Cloth{Width: nan}, Pieces: []lay.Piece{{Outline: rect(1, 1)}}}, "usable width"},
		{"two points", one(lay.Piece{Outline: rect(1, 1)[:2]}), `collar: an outline needs three points`},
		{"no area", one(lay.Piece{Outline: []lay.Point{{}, {X: 1}, {X: 2}}}), "encloses no area"},
		{"bow tie", one(lay.Piece{Outline: []lay.Point{{}, {X: 2, Y: 2.5}, {X: 2}, {Y: 2}}}), "crosses or touches itself"},
		{"a spike", one(lay.Piece{Outline: outline(t, "0,0 32,32 9,9 0,48")}), "runs back along itself at (32, 32)"},
		{"a spike in two steps", one(lay.Piece{Outline: outline(t, "0,0 10,10 20,20 32,32 25,25 9,9 0,48")}), "runs back along itself at (32, 32)"},
		{"a spike at the first point", one(lay.Piece{Outline: outline(t, "32,32 9,9 0,48 0,0 1,1")}), "runs back along itself at (32, 32)"},
		{"nan", one(lay.Piece{Outline: []lay.Point{{}, {X: nan}, {X: 2, Y: 1}}}), "point 2 is not a number"},
		{"too wide", one(lay.Piece{Outline: rect(50, 150)}), "cloth at least 150 wide would hold it, or a turn of 90 degrees"},
		{"too wide any way", one(lay.Piece{Outline: rect(150, 150)}), "cloth at least 150 wide would hold it"},
		{"fold edge inside", one(lay.Piece{Outline: outline(t, "0,0 10,0 5,5 10,10 0,10"), OnFold: true, FoldEdge: 1}), "both sides of its fold edge"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, err := lay.Make(context.Background(), row.problem, lay.Options{Tries: 1000})
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q", err, row.want)
			}
		})
	}
}
