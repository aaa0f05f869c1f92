package paperpiece

import (
	"strings"
	"testing"
)

// TestParseShift: how a corner is moved, in whatever order and units it is said.
func TestParseShift(t *testing.T) {
	for said, want := range map[string]Shift{
		"2: 0.5 right, 1 down": {2, 0.5, -1}, "12: 3 mm up": {12, 0, 3}, " 1 :0.2 cm left,1 up": {1, -2, 1}, "3: 1 right, 1 left": {3, 0, 0}} {
		if got, err := ParseShift(said); err != nil || got != want {
			t.Errorf("%q: %+v, %v, not %+v", said, got, err, want)
		}
	}
	for _, wrong := range []string{"", "2", "2:", "2: right", "2: 5", "two: 5 up", "2: 5 sideways", "2: 1 up; 2 left", "2: 25 up, 25 right"} {
		if got, err := ParseShift(wrong); err == nil {
			t.Errorf("%q is read as %+v", wrong, got)
		}
	}
}

// TestCornerMoves: of a square of 100 mm whose right side is curved, the lower right corner
// goes 2 mm to the right and 3 mm up: both lines that meet there end there, the curve with
// the control point beside it, and nothing else changes.
func TestCornerMoves(t *testing.T) {
	const square = `<g><path class="sewing" d="M10,110L110,110"><title>hem</title></path><path class="sewing" id="front.side" d="M110,110C120,80 120,40 110,10"><title>side</title></path>` +
		`<path class="sewing" d="M110,10L10,10"/><path class="sewing" d="M10,10L10,110"/><path class="notch" d="M50,110L50,105"/></g>`
	h := Home{Piece: "front"}
	got, err := h.shifted([]byte(square), []Shift{{2, 2, 3}})
	want := strings.NewReplacer("L110,110", "L112,107", "M110,110C120,80 ", "M112,107C122,77 ").Replace(square)
	if err != nil || string(got) != want {
		t.Errorf("%v\n%s\nnot\n%s", err, got, want)
	}
	back, err := h.shifted(got, []Shift{{2, -2, -3}})
	if err != nil || string(back) != square {
		t.Errorf("and back: %v\n%s", err, back)
	}
	for text, shift := range map[string]Shift{
		square: {5, 1, 1}, // no such corner
		strings.Replace(square, "M110,10L", "M110,12L", 1):   {1, 1, 1}, // not closed
		strings.Replace(square, "L10,110", "A9 9 10,110", 1): {1, 1, 1}, // no letter of ours
		strings.Replace(square, "110L110", "30L30", 1):       {4, 0, 0}, // not closed either
		"": {1, 1, 1},
	} {
		if got, err := h.shifted([]byte(text), []Shift{shift}); err == nil {
			t.Errorf("%+v: %s", shift, got)
		}
	}
	// The upper right corner, taken 25 mm left and 25 down thrice over, would turn the square inside out.
	if got, err := h.shifted([]byte(square), []Shift{{3, -25, -25}, {3, -25, -25}, {3, -25, -25}, {3, -25, -25}, {3, -25, -25}}); err == nil {
		t.Errorf("it crosses itself: %s", got)
	}
}
