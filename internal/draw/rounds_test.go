package draw

import (
	"regexp"
	"strings"
	"testing"

	"hembook/internal/fitting"
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

// A leg whose outer side is a curve is made 20 mm longer: the curve goes on as it ends, its
// own cubic followed on to t = 1.2 by the polar form (from memory). Only the hem moved.
func TestLongerCurveIsNotMoved(t *testing.T) {
	state := func(round int, last float64) fitting.PieceState {
		b := func(x, y, z float64) shape.Point { // the polar form of (200, 100), (210, 70), (205, 35), (200, 0)
			at := func(p [4]float64) float64 {
				mix := func(a, b, t float64) float64 { return a + (b-a)*t }
				u, v, w := mix(p[0], p[1], x), mix(p[1], p[2], x), mix(p[2], p[3], x)
				return mix(mix(u, v, y), mix(v, w, y), z)
			}
			return shape.Point{X: at([4]float64{200, 210, 205, 200}), Y: at([4]float64{100, 70, 35, 0})}
		}
		end := b(last, last, last)
		o := shape.Outline{From: shape.Point{X: 0, Y: end.Y}, Edges: []shape.Edge{
			{Name: "hem", To: end},
			{Name: "side", To: shape.Point{X: 200, Y: 100}, Curved: true, C1: b(0, last, last), C2: b(0, 0, last)},
			{Name: "waist", To: shape.Point{X: 0, Y: 100}},
			{Name: "fold", To: shape.Point{X: 0, Y: end.Y}},
		}}
		return fitting.PieceState{Round: round, Piece: &garment.Piece{Name: "leg", Outline: o, Grain: "along"}}
	}
	got := string(Rounds([]fitting.PieceState{state(0, 1), state(1, 1.2)}, PieceStyle{Scale: 1}).SVG(nil))
	moved := regexp.MustCompile(`<path class="round-1" d="([^"]*)"`).FindAllStringSubmatch(got, -1)
	if len(moved) != 2 { // its lines and its key
		t.Fatalf("round 1 has %d paths:\n%s", len(moved), got)
	}
	if d := moved[0][1]; strings.Count(d, "M") != 1 || strings.ContainsAny(d, "cC") || strings.Count(d, "h")+strings.Count(d, "l") != 1 {
		t.Errorf("more than the hem is drawn as moved: %s", d)
	}
}
