package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/garment"
)

// unevenText is a bodice whose right shoulder is 6 lower at its end than the left. Of the
// left front the corners are (0, 0), (200, 0), (200, 400), (80, 450) and (0, 450).
const unevenText = `cloth: {shell: linen}
pieces:
  left front:
    outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], neck: [0, 450], centre: [0, 0]}
    notches: {side: 60}
    lines: {pocket: {from: [40, 100], to: [160, 110]}}
    darts: {hem: {at: 80, width: 10, point: [90, 150]}}
    levels: {chest: 300}
  right front: {like: left front, change: {shoulder: {start: -6}}}
  left back:
    outline: {hem: [-200, 0], side: [-200, 400], shoulder: [-80, 450], neck: [0, 450], centre: [0, 0]}
    notches: {side: 60}
    levels: {chest: 300}
  right back: {like: left back, change: {shoulder: {start: -6}}}
seams:
  left side: [left front.side, left back.side]
  right side: [right front.side, right back.side]
  left shoulder: [left front.shoulder, left back.shoulder]
  right shoulder: [right front.shoulder, right back.shoulder]
  centre front: [left front.centre, right front.centre]
  centre back: [left back.centre, right back.centre]
finishes:
  hem: {of: [left front.hem, right front.hem, left back.hem, right back.hem], type: single-turned-hem, depth: 20}
  necks: {of: [left front.neck, right front.neck, left back.neck, right back.neck], type: single-turned-hem, depth: 10}
`

// TestRightIsTheMirrorImageOfLeft: a right piece that is like a left one is its mirror
// image, cut once, with all that is marked on it, and what it changes is its own.
func TestRightIsTheMirrorImageOfLeft(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+unevenText)
	pieces := map[string]*garment.Piece{}
	for _, p := range g.Pieces {
		pieces[p.Name] = p
		if p.Count != 1 || p.Mirrored {
			t.Errorf("%s is cut %d times, in pairs %t", p.Name, p.Count, p.Mirrored)
		}
	}
	left, right := pieces["left front"], pieces["right front"]
	if low, high := right.Outline.Bounds(); low.X != -200 || high.X != 0 {
		t.Errorf("right front lies from %v to %v", low, high)
	}
	// 200 × 400 + 50 × (200 + 80) / 2 = 87 000; the right lacks a triangle of 120 × 6 / 2 = 360.
	for p, want := range map[*garment.Piece]float64{left: 87000, right: 86640} {
		if got := p.Outline.Area(); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %v mm², want %v", p.Name, got, want)
		}
	}
	// The sides are 400 and 394, the shoulders √(120² + 50²) = 130 and √(120² + 56²) = 132.424.
	for p, want := range map[*garment.Piece][2]float64{left: {400, 130}, right: {394, math.Sqrt(120*120 + 56*56)}} {
		for k, name := range [...]string{"side", "shoulder"} {
			if got, _ := p.Outline.LengthOf(name); math.Abs(got-want[k]) > 1e-6 {
				t.Errorf("%s.%s is %v, want %v", p.Name, name, got, want[k])
			}
		}
	}
	// The pocket begins at (40, 100), so at (−40, 100) of the right, and the dart ends at
	// (90, 150) and (−90, 150).
	for p, side := range map[*garment.Piece]float64{left: 1, right: -1} {
		if at := p.Lines[0].Points[0]; at.X != side*40 || at.Y != 100 {
			t.Errorf("the pocket of %s begins at %v", p.Name, at)
		}
		if at := p.Darts[0].Plan.Point; at.X != side*90 || at.Y != 150 {
			t.Errorf("the dart of %s ends at %v", p.Name, at)
		}
	}
	// Nothing is behind anything: round the chest go all four, 4 × 200 = 800, and round the
	// hem as much less two darts of 10.
	garmentIs(t, g, map[string]float64{"level.chest.finished": 800, "level.hem.finished": 780})
	if said := g.MirrorImages(); said != "right front, the mirror image of left front and right back, the mirror image of left back" {
		t.Errorf("said: %q", said)
	}
	for _, f := range g.Faults {
		if strings.Contains(f.Message, "notch") || strings.Contains(f.Message, "hand") || strings.Contains(f.Message, "meet") {
			t.Errorf("not wanted: %v", f)
		}
	}
}

// TestEachSideIsFittedByItself: a round changes the side it names: the left front's sides
// are taken in by 5, and the right front stays 200 wide.
func TestEachSideIsFittedByItself(t *testing.T) {
	text := strings.Replace(unevenText, ", change: {shoulder: {start: -6}}}\n  left back", "}\n  left back", 1)
	for change, want := range map[string][2]float64{"left front.side: -5": {195, 200}, "right front.side: -5": {200, 195}, "{left front.side: -5, right front.side: -5}": {195, 195}} {
		g, _ := roomWith(t).desk().derive(t, head+text+"fittings:\n  - {day: 2026-08-15, saw: wide, change: {"+strings.Trim(change, "{}")+"}}\n")
		for _, p := range g.Pieces {
			low, high := p.Outline.Bounds()
			if k := strings.Index("left front right front", p.Name); k >= 0 && math.Abs(high.X-low.X-want[min(k, 1)]) > 1e-6 {
				t.Errorf("%s: %s is %v wide, want %v", change, p.Name, high.X-low.X, want[min(k, 1)])
			}
		}
	}
}
