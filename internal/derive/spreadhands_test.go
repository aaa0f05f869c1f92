package derive

import (
	"math"
	"testing"

	"hembook/internal/garment"
)

// TestSetOutOnEitherHand: eyelets along a line that ends at a curved edge stand on the
// right copy where they stand on the left, turned over; first and last are measured from
// the line's own ends on both.
func TestSetOutOnEitherHand(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+`cloth: {shell: linen}
pieces:
  back:
    of: shell
    cut: 2
    outline:
      bottom: {to: [84, 0], level: none}
      centre: [84, 325]
      top: {to: [-11, 290], curve: [[50, 325], [22.5, 291.5]]}
      side: [0, 0]
    lines: {eyelet line: {from: bottom at 14 from centre, to: top at 14 from centre}}
  front: {of: shell, cut: 2, outline: {bottom: {to: [84, 0], level: none}, centre: [84, 325], top: {to: [0, 290], curve: [[56, 313.3], [30.3, 289.8]]}, side: [0, 0]}}
seams: {sides: [front.side, back.side]}
notions:
  left eyelets: {along: left back.eyelet line, first: 15, last: 15 from top, count: 14}
  right eyelets: {along: right back.eyelet line, first: 15, last: 15 from top, count: 14}
`)
	told(t, "either hand", append(faults, g.Faults...), "")
	chalked := map[string][]garment.Chalked{}
	for _, p := range g.Pieces {
		chalked[p.Name] = p.Chalked
	}
	left, right := chalked["left back"], chalked["right back"]
	if len(left) != 14 || len(right) != 14 {
		t.Fatalf("chalked: %v", chalked)
	}
	if first := left[0].At; math.Abs(first.Y-15) > 0.01 || math.Abs(first.X-70) > 0.1 {
		t.Errorf("the first at %v, want 15 up a line that begins at [70, 0]", first) // the line leans 0.3 to 323 up
	}
	across := left[0].At.X + right[0].At.X // twice the line about which the copy is turned over
	for i := range left {
		if l, r := left[i].At, right[i].At; math.Abs(l.Y-r.Y) > 0.001 || math.Abs(l.X+r.X-across) > 0.001 {
			t.Errorf("eyelet %d at %v on the left and %v on the right", i+1, l, r)
		}
	}
}
