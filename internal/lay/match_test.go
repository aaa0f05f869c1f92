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

// A striped blouse: side seams meet at the hem corner of front and back, the
// sleeves match the front at the armhole. The verifier measures the phases.
func TestMatchedGarment(t *testing.T) {
	long(t)
	p := garmentOn(1400)
	p.Cloth.RepeatAlong = 120
	p.Pieces[0].Match = []lay.Match{{Name: "side seam", At: lay.Point{X: 0, Y: 270}}, {Name: "armhole", At: lay.Point{X: 470, Y: 210}}}
	p.Pieces[1].Match = []lay.Match{{Name: "side seam", At: lay.Point{X: 0, Y: 270}}}
	p.Pieces[2].Match = []lay.Match{{Name: "armhole", At: lay.Point{X: 550, Y: 190}}}
	plain := made(t, garmentOn(1400), 150_000)
	matched := made(t, p, 150_000)
	if matched.Length < plain.Length*0.99 {
		t.Errorf("matched %.1f is shorter than unmatched %.1f", matched.Length, plain.Length)
	}
}

// Two points 50 apart on one piece and 70 apart on the other cannot both
// fall on a stripe of 100.
func TestMatchThatCannotBe(t *testing.T) {
	a := []lay.Match{{Name: "top"}, {Name: "hem", At: lay.Point{X: 50}}}
	b := []lay.Match{{Name: "top"}, {Name: "hem", At: lay.Point{X: 70}}}
	p := lay.Problem{Cloth: lay.Cloth{Width: 1000, RepeatAlong: 100}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(200, 200), Match: a},
		{Name: "back", Outline: rect(200, 200), Match: b},
	}}
	_, err := lay.Make(context.Background(), p, lay.Options{Tries: 1000})
	if err == nil || !strings.Contains(err.Error(), `back: its match points cannot all fall on the repeat`) {
		t.Errorf("got %v", err)
	}
}

// A front of 470 with its waist at 130 and a back of 430 with its waist at 60
// side by side on stripes of 80: flush, the front's waist is on phase 50, so
// the back's waist falls on 130 and it reaches from 70 to 500.
func TestMatchedSideBySide(t *testing.T) {
	waist := func(x float64) []lay.Match { return []lay.Match{{Name: "waist", At: lay.Point{X: x}}} }
	p := lay.Problem{Cloth: lay.Cloth{Width: 640, OneWay: true, RepeatAlong: 80}, Pieces: []lay.Piece{
		{Name: "front", Outline: rect(470, 300), Match: waist(130)},
		{Name: "back", Outline: rect(430, 300), Match: waist(60)},
	}}
	for _, tabs := range []int{0, 1, 7} {
		if tabs > 0 {
			p.Pieces = append(p.Pieces[:2:2], lay.Piece{Name: "tab", Outline: rect(60, 50), Quantity: tabs})
		}
		plan := made(t, p, 100_000)
		want := map[int]float64{0: 500, 1: 500}[tabs] // one tab lies in the 70 before the back
		if want > 0 && math.Abs(plan.Length-want) > 1e-6 {
			t.Errorf("%d tabs: length %g, want %g", tabs, plan.Length, want)
		}
		if plan.Length < plan.Bound.Length*(1-1e-9) || len(plan.Unplaced) > 0 {
			t.Errorf("%d tabs: length %g under the bound %g, or without %v", tabs, plan.Length, plan.Bound.Length, plan.Unplaced)
		}
	}
}

// On a cloth of 120 with a check of 100 the second row has no phase across:
// the pieces follow each other. On a cloth of 90 there is none at all.
func TestMatchedAcrossNarrowCloth(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 120, RepeatAcross: 100}, Pieces: []lay.Piece{
		{Name: "wide", Outline: rect(50, 80), Match: []lay.Match{{Name: "m", At: lay.Point{Y: 40}}}, Turns: []float64{0}},
		{Name: "narrow", Outline: rect(50, 20), Match: []lay.Match{{Name: "m", At: lay.Point{Y: 10}}}, Turns: []float64{0}},
	}}
	if plan := made(t, p, 20_000); math.Abs(plan.Length-100) > 1e-6 {
		t.Errorf("length %g, want 100", plan.Length)
	}
	p.Pieces[1].Match[0].At.Y = 70 // its middle would lie 30 outside
	p.Cloth.Width = 85
	_, err := lay.Make(context.Background(), p, lay.Options{Tries: 1000})
	if err == nil || !strings.Contains(err.Error(), "repeat") {
		t.Errorf("got %v", err)
	}
}

// Cloth on hand that ends between two phases holds fewer pieces; that is
// told, and the search ends.
func TestMatchedOnRemnant(t *testing.T) {
	p := lay.Problem{Cloth: lay.Cloth{Outline: rect(1000, 300), RepeatAlong: 250}, Pieces: []lay.Piece{
		{Name: "panel", Outline: rect(240, 290), Quantity: 5, Match: []lay.Match{{Name: "hem"}}, Turns: []float64{0}},
	}}
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
			RepeatAcross: rapid.SampledFrom([]float64{0, 9, 60, 150}).Draw(t, "across")}}
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			w, h := size.Draw(t, "w"), size.Draw(t, "h")
			q := lay.Piece{Outline: rect(w, h), Quantity: rapid.IntRange(1, 3).Draw(t, "quantity"), Turns: []float64{0}}
			if rapid.Bool().Draw(t, "matched") {
				q.Match = []lay.Match{{Name: "level", At: lay.Point{X: size.Draw(t, "at x") - 20, Y: size.Draw(t, "at y") - 20}}}
			}
			p.Pieces = append(p.Pieces, q)
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
