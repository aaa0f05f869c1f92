package lay_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// foldCases are lays whose lengths can be found with pencil and paper.
var foldCases = []struct {
	name   string
	width  float64
	pieces []lay.Piece
	want   lay.Fold // asked for
	lies   lay.Folding
	length float64
	open   float64 // in a single layer
}{
	// 450 is nearly all of half the width: two pairs lie one after another, on open cloth four rows of two.
	{"lengthwise", 1000, []lay.Piece{{Name: "leg", Outline: rect(700, 450), Quantity: 4, Mirrored: true}},
		lay.AnyFold, lay.Folding{Fold: lay.Lengthwise, Near: 500}, 1400, 1400},
	// 900 across is too wide for half the cloth: folded across, two in 400, which is 800 of cloth.
	{"crosswise", 1000, []lay.Piece{{Name: "cape", Outline: rect(400, 900), Quantity: 2, Mirrored: true}},
		lay.AnyFold, lay.Folding{Fold: lay.Crosswise}, 800, 800},
	// half a yoke, 150 of it, lies on a crosswise fold: 300 of cloth.
	{"a half on the crosswise fold", 1000, []lay.Piece{{Name: "yoke", Outline: rect(900, 150), Turns: []float64{90, 270}, OnFold: true}},
		lay.Crosswise, lay.Folding{Fold: lay.Crosswise}, 300, 300},
	// front and back are both cut on the fold, 300 and 200 wide: beside each other where
	// the selvedges meet, one after the other on one fold.
	{"both selvedges", 1000, []lay.Piece{{Name: "front", Outline: rect(600, 300), OnFold: true}, {Name: "back", Outline: rect(600, 200), OnFold: true}},
		lay.BothSelvedges, lay.Folding{Fold: lay.BothSelvedges, Near: 300, Far: 200}, 600, 600},
	// a front on a fold of 200, beside it a wrap of 600 that is cut once.
	{"part of the width", 1000, []lay.Piece{{Name: "front", Outline: rect(600, 200), OnFold: true}, {Name: "wrap", Outline: rect(600, 600)}},
		lay.AnyFold, lay.Folding{Fold: lay.PartWidth, Near: 200}, 600, 600},
	// two sleeves of 450 in 500, then a back of 900 that is cut once, in 300 more.
	{"part of the length", 1000, []lay.Piece{{Name: "sleeve", Outline: rect(500, 450), Quantity: 2, Mirrored: true}, {Name: "back", Outline: rect(300, 900)}},
		lay.AnyFold, lay.Folding{Fold: lay.PartLength, Near: 500, Long: 500}, 800, 800},
}

func TestFoldsByHand(t *testing.T) {
	for _, row := range foldCases {
		p := lay.Problem{Cloth: lay.Cloth{Width: row.width, Fold: row.want}, Pieces: row.pieces}
		plan := made(t, p, 20_000)
		if plan.Folding != row.lies || math.Abs(plan.Length-row.length) > 1e-6 {
			t.Errorf("%s: %g with %+v, want %g with %+v", row.name, plan.Length, plan.Folding, row.length, row.lies)
		}
		p.Cloth.Fold = lay.Open
		if open := made(t, p, 20_000); math.Abs(open.Length-row.open) > 1e-6 {
			t.Errorf("%s: %g in a single layer, want %g", row.name, open.Length, row.open)
		}
	}
}

// What folds forbid, and what is said of it.
func TestFoldsThatCannotBe(t *testing.T) {
	pair := lay.Piece{Name: "front", Outline: rect(400, 300), Quantity: 2, Mirrored: true}
	wide := lay.Piece{Name: "cape", Outline: rect(400, 900), Quantity: 2, Mirrored: true}
	once := lay.Piece{Name: "wrap", Outline: rect(400, 600)}
	rows := []struct {
		cloth  lay.Cloth
		pieces []lay.Piece
		want   string
	}{
		{lay.Cloth{Fold: lay.Crosswise, OneWay: true}, []lay.Piece{pair}, "upside down"},
		{lay.Cloth{Fold: lay.Crosswise, Flaws: [][]lay.Point{rect(10, 10)}}, []lay.Piece{pair}, "flaws"},
		{lay.Cloth{Fold: lay.Lengthwise}, []lay.Piece{wide}, `"cape" is wider than the folded cloth`},
		{lay.Cloth{Fold: lay.Lengthwise}, []lay.Piece{pair, once}, `"wrap" is cut once`},
		{lay.Cloth{Fold: lay.PartWidth}, []lay.Piece{pair}, "every piece is cut in pairs"},
		{lay.Cloth{Fold: lay.PartLength}, []lay.Piece{once}, `"wrap" is cut once`},
		{lay.Cloth{Fold: lay.PartLength}, []lay.Piece{pair, {Name: "wrap", Outline: rect(400, 600), Stage: 1}}, "in stages"},
	}
	for _, row := range rows {
		row.cloth.Width = 1000
		_, err := lay.Make(context.Background(), lay.Problem{Cloth: row.cloth, Pieces: row.pieces}, lay.Options{Tries: 100})
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("fold %d: %v, want %q", row.cloth.Fold, err, row.want)
		}
	}
}

// lopsided is an outline that is not its own mirror image.
func lopsided(rng *rand.Rand, long, wide float64) []lay.Point {
	return []lay.Point{{}, {X: long}, {X: long * (0.6 + 0.4*rng.Float64()), Y: wide * (0.5 + 0.5*rng.Float64())}, {Y: wide}}
}

// TestEveryFoldOpensOut: made-up garments on cloth folded each way, with flaws and one
// way; each plan is sound as it lies, and opened out it is a sound plan of a single layer.
func TestEveryFoldOpensOut(t *testing.T) {
	seeds := uint64(12)
	if testing.Short() {
		seeds = 3
	}
	lies := map[lay.Fold]int{}
	for seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 11))
		p := lay.Problem{Cloth: lay.Cloth{Width: 1100 + 400*rng.Float64(), OneWay: seed%3 == 0}}
		for k := range 3 {
			p.Pieces = append(p.Pieces, lay.Piece{Name: string(rune('a' + k)), Quantity: 2, Mirrored: true, Outline: lopsided(rng, 200+400*rng.Float64(), 80+300*rng.Float64())})
		}
		half := lopsided(rng, 500, 100+150*rng.Float64())
		p.Pieces = append(p.Pieces, lay.Piece{Name: "half", Outline: half, OnFold: true},
			lay.Piece{Name: "once", Outline: lopsided(rng, 60+300*rng.Float64(), 30+100*rng.Float64())})
		if seed%2 == 0 {
			p.Cloth.Flaws = [][]lay.Point{{{X: 300, Y: 200}, {X: 340, Y: 200}, {X: 340, Y: 230}}}
		}
		for f := lay.Lengthwise; f <= lay.PartLength; f++ {
			p := p
			if p.Cloth.Fold = f; f == lay.Crosswise { // which takes neither flaws nor what is cut once
				p.Cloth.Flaws, p.Pieces = nil, p.Pieces[:3]
			}
			plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 4_000, Seed: 1, Cores: 1})
			if err != nil {
				continue
			}
			lies[plan.Fold]++
			open := p
			open.Cloth.Fold = lay.Open
			opened := p.Opened(plan)
			for _, fault := range slices.Concat(verify.Check(&p, plan, 0.001), verify.Check(&open, opened, 0.001)) {
				t.Errorf("seed %d, fold %d: %s", seed, f, fault)
			}
		}
	}
	t.Log(lies)
	for f := lay.Lengthwise; f <= lay.PartLength; f++ {
		if lies[f] == 0 && !testing.Short() {
			t.Errorf("no plan with fold %d was looked at", f)
		}
	}
}

// TestAnyFoldIsNoLongerThanOne: a search for any way to lie that begins from a plan with
// one fold is never longer.
func TestAnyFoldIsNoLongerThanOne(t *testing.T) {
	for _, row := range foldCases {
		p := lay.Problem{Cloth: lay.Cloth{Width: row.width, Fold: row.lies.Fold}, Pieces: row.pieces}
		one := made(t, p, 2_000)
		for _, wider := range []lay.Fold{lay.AnyFold, lay.EitherWay, lay.Open} {
			p.Cloth.Fold = wider
			plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 50, Begin: []*lay.Plan{one}, Cores: 1})
			if err != nil || plan.Length > one.Length+1e-6 {
				t.Errorf("%s: asked for %d %v, with the fold alone %g, %v", row.name, wider, plan, one.Length, err)
			}
		}
	}
}
