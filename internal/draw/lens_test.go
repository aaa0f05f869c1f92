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
	rounds := func(high ...float64) (out []fitting.PieceState) {
		for i, h := range high {
			out = append(out, fitting.PieceState{Round: i, Piece: box(h)})
		}
		return out
	}
	got := partings(rounds(100, 104), 10)
	if len(got) == 0 || math.Abs(got[0].apart-4) > 1e-9 || math.Abs(got[0].now.Y-104) > 1e-9 || math.Abs(got[0].before.Y-100) > 1e-9 {
		t.Errorf("the top raised by 4 mm parts at %+v", got)
	}
	if got := partings(rounds(100, 100), 10); len(got) > 0 {
		t.Errorf("a box that stayed parts at %+v", got)
	}
	if got := partings(rounds(100, 130), 10); len(got) > 0 {
		t.Errorf("30 mm do not go into a lens of 10 mm: %+v", got)
	}
	if got := partings(rounds(100, 115, 119), 10); len(got) == 0 || got[0].now.X != 50 || got[0].apart != 15 {
		t.Errorf("of a top raised by 15 mm, and by 4, the middle of the first is shown first: %+v", got)
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
	d := Lenses(states, PieceStyle{Scale: 4})
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
