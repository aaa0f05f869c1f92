package lay_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/fault"
	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

func tie(a, b lay.TiedPoint) lay.Tie { return lay.Tie{A: a, B: b} }

func tied(piece, copy int, x, y float64) lay.TiedPoint {
	return lay.TiedPoint{Piece: piece, Copy: copy, At: lay.Point{X: x, Y: y}}
}

// A striped blouse: side seams meet at the hem corner of front and back, the
// sleeves match the front at the armhole. The verifier measures the phases.
func TestMatchedGarment(t *testing.T) {
	long(t)
	p := garmentOn(1400)
	p.Cloth.RepeatAlong = 120
	p.Ties = []lay.Tie{
		tie(tied(0, 0, 0, 270), tied(1, 0, 0, 270)), tie(tied(0, 1, 0, 270), tied(1, 0, 0, 270)),
		tie(tied(0, 0, 470, 210), tied(2, 0, 550, 190)), tie(tied(0, 1, 470, 210), tied(2, 1, 550, 190)),
	}
	plain := made(t, garmentOn(1400), 150_000)
	matched := made(t, p, 150_000)
	if matched.Length < plain.Length*0.99 {
		t.Errorf("matched %.1f is shorter than unmatched %.1f", matched.Length, plain.Length)
	}
	if len(matched.Untied) > 0 {
		t.Errorf("untied: %v", matched.Untied)
	}
}

// Two points 50 apart on one piece and 70 apart on the other cannot both meet on a
// stripe of 100: the first does, and the plan says so of the second.
func TestTheFirstTieHolds(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAlong: 100}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(200, 200)}, {Name: "back", Outline: rect(200, 200)},
	}, Ties: []lay.Tie{tie(tied(0, 0, 0, 0), tied(1, 0, 0, 0)), tie(tied(0, 0, 50, 0), tied(1, 0, 70, 0))}}
	plan := made(t, p, 1000)
	if len(plan.Untied) != 1 || plan.Untied[0] != 1 {
		t.Errorf("untied: %v, want the second", plan.Untied)
	}
}

// A front of 470 with its waist at 130 and a back of 430 with its waist at 60 on stripes
// of 80, all one way. With the front at the cut end its waist lies on 130 and the back's
// on 130 too: it reaches from 70 to 500. With the back there its waist lies on 60, and
// the front's on 140: it reaches from 10 to 480, which is shorter.
func TestMatchedSideBySide(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 640, OneWay: true, RepeatAlong: 80}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(470, 300)}, {Name: "back", Outline: rect(430, 300)},
	}, Ties: []lay.Tie{tie(tied(0, 0, 130, 0), tied(1, 0, 60, 0))}}
	if plan := made(t, p, 100_000); math.Abs(plan.Length-480) > 1e-6 {
		t.Errorf("length %g, want 480", plan.Length)
	}
}

// What is 100 long and meets its copy on a stripe of 80 lies 160 further in a lay of one
// row: 160 + 100. In the other direction it may be turned about where it is not one-way:
// with a leading line at the cut end a point 30 up lies on 30, and turned about at x on
// x − 30 = −30 modulo 80: x = 160, it reaches from 60, and then from 140 to 240.
func TestMatchedInOneRow(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 60, OneWay: true, RepeatAlong: 80}, Pieces: []lay.Piece{{Name: "strap", Outline: rect(100, 50), Quantity: 2}},
		Ties: []lay.Tie{tie(tied(0, 0, 30, 0), tied(0, 1, 30, 0))}}
	if plan := made(t, p, 20_000); math.Abs(plan.Length-260) > 1e-6 {
		t.Errorf("one way: length %g, want 260", plan.Length)
	}
	p.Cloth.OneWay = false
	// upright from x, turned about from y to y + 100: its origin lies at y + 100, and
	// −(y + 100) = x modulo 80. Upright first, y = x + 100 at least: x = 10, y = 130 would
	// do, as 10 + 230 = 240; it ends at 230. Turned about first from 0: x = −100 = 60
	// modulo 80, so 140 to 240. The phases tried are those of flush ends: 260 or 240.
	if plan := made(t, p, 20_000); plan.Length > 240+1e-6 {
		t.Errorf("two ways: length %g, want 240 at most", plan.Length)
	}
}

// Across the cloth: a leading line runs 20 from the selvedge, and comes again every 60.
// The centre of a panel 100 wide lies on it at 80, so that it reaches from 30 to 130. Its
// mirror image at a slanted seam: a's far edge, at 130, lies 10 before the line at 140, so
// b's point, 20 from its own edge, lies 10 beyond one: at 30, 90 or 150; its edge at 70
// or 130.
func TestOnTheLine(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 400, RepeatAcross: 60, Lined: true, Line: 20}, Pieces: []lay.Piece{
		{Name: "a", Outline: rect(200, 100), Turns: []float64{0}}, {Name: "b", Outline: rect(200, 100), Turns: []float64{0}},
	}, Ties: []lay.Tie{
		{A: tied(0, 0, 0, 50), Across: true, Kind: lay.OnLine},
		{A: tied(0, 0, 0, 100), B: tied(1, 0, 0, 20), Across: true, Kind: lay.Mirror},
	}}
	plan := made(t, p, 20_000)
	for _, at := range plan.Placements {
		want := 30.0 // 20 + 60·k − 50
		if at.Piece == 1 {
			want = 10 // 30 − 20
		}
		if off := math.Remainder(at.Y-want, 60); math.Abs(off) > 1e-6 {
			t.Errorf("piece %d lies at %g across, want %g modulo 60", at.Piece, at.Y, want)
		}
	}
	if math.Abs(plan.Length-200) > 1e-6 {
		t.Errorf("length %g, want both beside each other in 200", plan.Length)
	}
	p.Cloth.Lined = false
	if _, err := lay.Make(context.Background(), p, lay.Options{Tries: 1000}); err == nil || !strings.Contains(err.Error(), "leading line") {
		t.Errorf("without a leading line: %v", err)
	}
}

// On a cloth of 120 with a check of 100 the second row has no phase across:
// the pieces follow each other. On a cloth of 85 there is none at all.
func TestMatchedAcrossNarrowCloth(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 120, RepeatAcross: 100}, Pieces: []lay.Piece{
		{Name: "wide", Outline: rect(50, 80), Turns: []float64{0}},
		{Name: "narrow", Outline: rect(50, 20), Turns: []float64{0}},
	}, Ties: []lay.Tie{{A: tied(0, 0, 0, 40), B: tied(1, 0, 0, 10), Across: true}}}
	if plan := made(t, p, 20_000); math.Abs(plan.Length-100) > 1e-6 {
		t.Errorf("length %g, want 100", plan.Length)
	}
	p.Ties[0].B.At.Y = -40 // its own edge would lie 80 further across
	p.Cloth.Width = 85
	_, err := lay.Make(context.Background(), p, lay.Options{Tries: 1000})
	if err == nil || !strings.Contains(err.Error(), "cannot be matched") {
		t.Errorf("got %v", err)
	}
}

// A piece 300 wide meets its own mirror image on cloth of 320 with a check of 150 nowhere:
// its middle would have to lie on a leading line, at 110 or 260, or between two, at 35 or
// 185, and can lie from 150 to 170, turned about too. That is told, also where another piece
// has a place.
func TestOneGroupWithoutAPlace(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 320, RepeatAcross: 150, Lined: true, Line: 110}, Pieces: []lay.Piece{{Name: "a", Outline: rect(20, 300)}, {Name: "b", Outline: rect(20, 20)}},
		Ties: []lay.Tie{{A: tied(0, 0, 0, 150), B: tied(0, 0, 0, 150), Across: true, Kind: lay.Mirror}, {A: tied(1, 0, 0, 0), Across: true, Kind: lay.OnLine}}}
	if _, err := lay.Make(context.Background(), p, lay.Options{Tries: 1000}); err == nil || !strings.Contains(err.Error(), "cannot be matched") {
		t.Errorf("got %v", err)
	}
}

// Cloth on hand that ends between two phases holds fewer pieces; that is
// told, and the search ends.
func TestMatchedOnRemnant(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Outline: rect(1000, 300), RepeatAlong: 250}, Pieces: []lay.Piece{
		{Name: "panel", Outline: rect(240, 290), Quantity: 5, Turns: []float64{0}},
	}}
	for k := 1; k < 5; k++ {
		p.Ties = append(p.Ties, tie(tied(0, 0, 0, 0), tied(0, k, 0, 0)))
	}
	plan := made(t, p, 50_000)
	if plan.Fits || len(plan.Unplaced) != 1 || math.Abs(plan.Length-990) > 1e-6 {
		t.Errorf("length %g, unplaced %v", plan.Length, plan.Unplaced)
	}
}

// Random matched lays on any repeat come to an end and hold.
func TestMatchedLaysHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(20, 300)
		p := lay.Problem{Cloth: lay.Cloth{Width: rapid.Float64Range(320, 900).Draw(t, "width"), OneWay: rapid.Bool().Draw(t, "one way"),
			RepeatAlong:  rapid.SampledFrom([]float64{0, 17, 80, 210}).Draw(t, "along"),
			RepeatAcross: rapid.SampledFrom([]float64{0, 9, 60, 150}).Draw(t, "across"),
			Lined:        rapid.Bool().Draw(t, "lined"), Line: rapid.Float64Range(0, 100).Draw(t, "line")}}
		for range rapid.IntRange(1, 5).Draw(t, "pieces") {
			w, h := size.Draw(t, "w"), size.Draw(t, "h")
			p.Pieces = append(p.Pieces, lay.Piece{Outline: rect(w, h), Quantity: rapid.IntRange(1, 3).Draw(t, "quantity"), Mirrored: rapid.Bool().Draw(t, "pair")})
		}
		end := func() lay.TiedPoint {
			i := rapid.IntRange(0, len(p.Pieces)-1).Draw(t, "piece")
			return tied(i, rapid.IntRange(0, p.Pieces[i].Quantity-1).Draw(t, "copy"), size.Draw(t, "x"), size.Draw(t, "y"))
		}
		for range rapid.IntRange(0, 6).Draw(t, "ties") {
			one := lay.Tie{A: end(), B: end(), Across: rapid.Bool().Draw(t, "across"), Kind: lay.TieKind(rapid.IntRange(0, 2).Draw(t, "kind"))}
			p.Ties = append(p.Ties, one)
		}
		plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 3000, Cores: 1})
		if err != nil {
			var faults fault.List
			if !errors.As(err, &faults) {
				t.Fatal(err)
			}
			return
		}
		for _, fault := range verify.Check(&p, plan, 0.001) {
			t.Error(fault)
		}
	})
}

// Two layers cut both straps at one place in the pattern, so that 30 of one cannot meet 70
// of the other on a stripe of 100; in a single layer one lies 40 further: 240 for 200. What
// must meet is what was asked for, so the single layer is the lay and the fold the other.
func TestMatchedRatherThanFolded(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 420, OneWay: true, RepeatAlong: 100, Fold: lay.EitherWay},
		Pieces: []lay.Piece{{Name: "strap", Outline: rect(200, 200), Quantity: 2, Mirrored: true}},
		Ties:   []lay.Tie{tie(tied(0, 0, 30, 0), tied(0, 1, 70, 0))}}
	plan := made(t, p, 20_000)
	if plan.Folded() || math.Abs(plan.Length-240) > 1e-6 || len(plan.Untied) > 0 {
		t.Errorf("%+v: length %g, untied %v; want a single layer of 240", plan.Folding, plan.Length, plan.Untied)
	}
	if o := plan.Other; o == nil || !o.Folded() || math.Abs(o.Length-200) > 1e-6 || len(o.Untied) != 1 {
		t.Errorf("the other way: %+v", o)
	}
}
