package derive

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/shape"
)

// A front 300 wide and 600 long; its right edge runs up from hem to neck.
const spreadFront = `cloth: {shell: linen}
pieces:
  front:
    of: shell
    cut: 2
    rectangle: [300, 600]
    edges: {bottom: {name: hem, level: none}, top: {name: neck}, right: {name: front}}
    notches: {front: [{at: 200, name: belt}]}
    levels: {bust: 400}
notions: {buttons: {NOTION}}
`

// TestSetOut: two of first, last, count and every tell the rest. All places are
// counted by hand along an edge of 600.
func TestSetOut(t *testing.T) {
	for _, c := range []struct {
		notion string
		want   string // heights of the crosses; "" where none can be told
		x      float64
		gap    float64
		fault  string
	}{
		{"along: front.front, first: 50 from neck, last: 100 from hem, count: 6", "550 460 370 280 190 100", 300, 90, ""},
		{"along: front.front, first: 100 from hem, last: 50 from neck, count: 6", "100 190 280 370 460 550", 300, 90, ""},
		{"along: 18 inside front.front, first: 50 from neck, last: 100 from hem, every: 90", "550 460 370 280 190 100", 282, 90, ""},
		{"along: front.front, first: 50 from neck, every: 90, count: 6", "550 460 370 280 190 100", 300, 90, ""},
		{"along: front.front, last: 100 from hem, every: 90, count: 6", "550 460 370 280 190 100", 300, 90, ""},
		{"along: front.front, first: belt, last: bust, count: 3", "200 300 400", 300, 100, ""},
		{"along: front.front, first: 30, every: 60, count: 3", "30 90 150", 300, 60, ""},
		{"along: front.front, first: 50 from neck, count: 12", "550 500 450 400 350 300 250 200 150 100 50 0", 300, 50, ""},
		{"along: front.front, count: 5", "0 150 300 450 600", 300, 150, ""},
		{"along: front.front, every: 140", "0 150 300 450 600", 300, 150, ""}, // 4.29 gaps: four
		{"along: front.front, every: 130", "0 120 240 360 480 600", 300, 120, ""},
		{"along: front.front, at: middle", "300", 300, 0, ""},
		{"along: front.front, at: 65 from neck", "535", 300, 0, ""},
		{"along: front.front, first: belt", "200", 300, 0, ""},
		{"along: front.front, count: 1", "300", 300, 0, ""},
		{"along: front.front from belt to neck, count: 5", "200 300 400 500 600", 300, 100, ""},
		{"along: front.front from belt to bust, every: 100", "200 300 400", 300, 100, ""},
		{"along: front.front, first: 50 from neck, last: 140 from hem, every: 90", "", 0, 0,
			"from 550 to 140 it is 410, every: 90 does not divide it | 5 at 102.5 or 6 at 82"},
		{"along: front.front, first: 65 from hem, last: 125 from neck, count: 6, every: 90", "", 0, 0,
			"6 from 65 to 475 are 82 apart, every: 90 does not divide it | 5 at 102.5 or 6 at 82"},
		{"along: front.front, first: 50 from neck, every: 120, count: 6", "", 0, 0,
			"6 of buttons, 120 apart, are past the end: front.front is 600 mm long | let them lie nearer, or begin nearer to the end"},
		{"along: front.front, first: 700 from neck, count: 2", "", 0, 0, "700 mm from neck is past the end: front.front is 600 mm long | measure less, or from the other end"},
		{"along: front.front, first: 700, count: 2", "", 0, 0, "700 mm is past the end: front.front is 600 mm long | measure less"},
	} {
		text := strings.Replace(spreadFront, "NOTION", c.notion, 1)
		g, faults := roomWith(t).desk().derive(t, head+text)
		var at []string
		for _, chalked := range g.Pieces[0].Chalked {
			at = append(at, fmt.Sprint(math.Round(chalked.At.Y*1e6)/1e6))
			if chalked.At.X != c.x || chalked.Notion != "buttons" {
				t.Errorf("%s: %v", c.notion, chalked)
			}
		}
		if got := strings.Join(at, " "); got != c.want {
			t.Errorf("%s: at %s, want %s", c.notion, got, c.want)
		}
		if gap := g.Notions[0].Gap; c.gap > 0 && math.Abs(gap.Value.Number-c.gap) > 1e-6 || c.gap == 0 && gap.ID != "" {
			t.Errorf("%s: gap %v, want %g", c.notion, gap.Value, c.gap)
		}
		if n := g.Notions[0].Count.Value.Number; c.want != "" && n != float64(len(at)) {
			t.Errorf("%s: %g of them, and %d places", c.notion, n, len(at))
		}
		told(t, c.notion, append(faults, g.Faults...), c.fault)
	}
}

// told checks that one fault is told, or none.
func told(t *testing.T, name string, faults []fault.Fault, want string) {
	var got []string
	for _, f := range faults {
		got = append(got, f.Message+" | "+f.Hint)
	}
	if all := strings.Join(got, "\n"); all != want {
		t.Errorf("%s: told\n%s\nwant\n%s", name, all, want)
	}
}

// TestSetOutAlongAnArc: along an arc, and inside it. A quarter of a circle of radius
// 100 about [100, 0], which the piece lies inside: half way, on 10 inside, is 90 from
// its middle.
func TestSetOutAlongAnArc(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+`cloth: {shell: linen}
pieces:
  tab:
    of: shell
    cut: 1
    outline:
      from: [100, 0]
      bottom: [200, 0]
      round: {to: [100, 100], curve: 29.28932188}
      left: [100, 0]
notions: {studs: {along: 10 inside tab.round, at: middle}}
`)
	want := shape.Point{X: 100 + 90*math.Sqrt2/2, Y: 90 * math.Sqrt2 / 2}
	if got := g.Pieces[0].Chalked; len(got) != 1 || math.Hypot(got[0].At.X-want.X, got[0].At.Y-want.Y) > 0.01 {
		t.Errorf("%v, want %v: %v", got, want, g.Faults)
	}
}

// TestLapIsSaidOnce: what lies beyond the line of the buttons is not round the body,
// at each level that ends there and at no other.
func TestLapIsSaidOnce(t *testing.T) {
	const coat = `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 2, rectangle: [300, 600], edges: {bottom: {name: hem}, right: {name: front}}, levels: {bust: 400}}
  back: {of: shell, cut: 1, rectangle: [500, 600], edges: {bottom: {name: hem}}, levels: {bust: 400}}
  sleeve: {of: shell, cut: 2, rectangle: [240, 300], edges: {bottom: {name: wrist}}}
seams:
  left side: [front.left, back.left]
  right side: [front.left, back.right]
  underarm: [sleeve.left, sleeve.right]
`
	sides := strings.Replace(coat, "  left side: [front.left, back.left]\n  right side: [front.left, back.right]\n", "  sides: [front.left, back.side]\n", 1)
	sides = strings.Replace(sides, "back: {of: shell, cut: 1, rectangle: [500, 600], edges: {bottom: {name: hem}}", "back: {of: shell, cut: 1 on fold, rectangle: [250, 600], edges: {bottom: {name: hem}, left: {fold: true}, right: {name: side}}", 1)
	for _, c := range []struct {
		name, more       string
		bust, hem, wrist float64
	}{
		{"no line", "notions: {buttons: {along: front.front, count: 5}}\n", 1100, 1100, 240},
		{"a line 20 inside", "notions: {buttons: {along: 20 inside front.front, count: 5}}\n", 1060, 1060, 240},
		{"two things on it", "notions: {buttons: {along: 20 inside front.front, count: 5}, snaps: {along: 20 inside front.front, count: 3}}\n", 1060, 1060, 240},
	} {
		g, _ := roomWith(t).desk().derive(t, head+sides+c.more)
		garmentIs(t, g, map[string]float64{"level.bust.finished": c.bust, "level.hem.finished": c.hem, "level.wrist.finished": c.wrist})
		if t.Failed() {
			t.Fatal(c.name, g.Faults)
		}
	}
}
