package draw

import (
	"hembook/internal/fitting"
	"strings"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/shape"
)

// Three states of a box: its top raised by round 1 and again by round 2. What
// stays is drawn once, and so are the sides, which only grew; each round's top is drawn in
// its own line.
func TestRoundsDrawing(t *testing.T) {
	state := func(round int, high float64) fitting.PieceState {
		o, err := shape.Rectangle(100, high)
		if err != nil {
			t.Fatal(err)
		}
		return fitting.PieceState{Round: round, Piece: &garment.Piece{Name: "box", Outline: o, Grain: "along"}}
	}
	got := string(Rounds([]fitting.PieceState{state(0, 100), state(1, 110), state(2, 120)}, PieceStyle{Scale: 1}).SVG(nil))
	for _, want := range []string{
		`<path class="round-0" d="M1000 200h-1000"/>`,
		`<path class="round-1" d="M1000 100h-1000"/>`,
		`<path class="round-2" d="M1000 0h-1000"/>`,
		"draft; first fitting; second fitting, now", "<title>box through its fittings</title>",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the drawing lacks %s:\n%s", want, got)
		}
	}
	if n := strings.Count(got, `class="round-1"`); n != 2 {
		t.Errorf("round 1 is drawn %d times, want its lines and its key", n)
	}
}
