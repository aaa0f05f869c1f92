package draw

import (
	"math"
	"testing"

	"hembook/internal/drawing"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/shape"
)

// TestPartings: a box of 100 by 100 whose top is raised by 4 mm parts from itself there, by
// 4 mm; where nothing moves, no lens is drawn, nor where the lines part so far that a lens
// of 10 mm would not hold them.
func TestPartings(t *testing.T) {
	box := func(high float64) *garment.Piece {
		o, err := shape.Rectangle(100, high)
		if err != nil {
			t.Fatal(err)
		}
		return &garment.Piece{Name: "box", Outline: o, Grain: "along"}
	}
	got := partings(box(100), box(104), 10)
	if len(got) == 0 || math.Abs(got[0].apart-4) > 1e-9 || math.Abs(got[0].now.Y-104) > 1e-9 || math.Abs(got[0].before.Y-100) > 1e-9 {
		t.Errorf("the top raised by 4 mm parts at %+v", got)
	}
	if got := partings(box(100), box(100), 10); len(got) > 0 {
		t.Errorf("a box that stayed parts at %+v", got)
	}
	if got := partings(box(100), box(130), 10); len(got) > 0 {
		t.Errorf("30 mm do not go into a lens of 10 mm: %+v", got)
	}
}

// TestLensStaysInside: of all that a lens shows, nothing lies outside its circle.
func TestLensStaysInside(t *testing.T) {
	from, to, ok := insideRound(shape.Point{X: -20}, shape.Point{X: 20}, shape.Point{}, 10)
	if !ok || from != 0.25 || to != 0.75 {
		t.Errorf("a line through the middle of a circle of 10 mm lies in it from %v to %v, want 0.25 to 0.75", from, to)
	}
	if _, _, ok := insideRound(shape.Point{X: -20, Y: 11}, shape.Point{X: 20, Y: 11}, shape.Point{}, 10); ok {
		t.Error("a line that passes a circle is said to lie in it")
	}
	o, err := shape.Rectangle(100, 100)
	if err != nil {
		t.Fatal(err)
	}
	raised, err := shape.Rectangle(100, 104)
	if err != nil {
		t.Fatal(err)
	}
	states := []fitting.PieceState{{Round: 0, Piece: &garment.Piece{Name: "box", Outline: o, Grain: "along"}}, {Round: 1, Piece: &garment.Piece{Name: "box", Outline: raised, Grain: "along"}}}
	d := Rounds(states, PieceStyle{Scale: 4})
	found := 0
	for _, m := range d.Marks {
		if m.Means != drawing.Measured {
			continue
		}
		found++
	}
	if found == 0 {
		t.Error("no lens is drawn where the top parts by 4 mm")
	}
}

// TestNoWayCrossesLensWords: the way from a place below a lens passes left of its words. At
// the height of their tops, 15 mm of radius and a gap below the middle, a way that comes from
// 20 mm to the left and 100 mm below has gone 20 × (15 + gap) / 100 to the left.
func TestNoWayCrossesLensWords(t *testing.T) {
	at := drawing.Point{X: 100, Y: 20}
	for _, place := range []drawing.Point{{X: 80, Y: 120}, {X: 80, Y: 60}, {X: 40, Y: 60}, {X: 20, Y: 300}} {
		begin, wide := lensWords(place, at, "4 mm (3/16 in)")
		way := 100 - (100-place.X)*(15+gap)/(place.Y-20)
		if begin < way+gap-1e-9 {
			t.Errorf("from %v the way passes at %.2f, and the words begin at %.2f", place, way, begin)
		}
		if begin+wide/2 < 100-1e-9 {
			t.Errorf("from %v the words stand left of the middle: %.2f", place, begin+wide/2)
		}
	}
	if begin, wide := lensWords(drawing.Point{X: 40, Y: 10}, at, "4 mm"); begin+wide/2 != 100 {
		t.Errorf("no way crosses them, and they stand at %.2f", begin+wide/2)
	}
}
