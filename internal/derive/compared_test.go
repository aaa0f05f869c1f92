package derive

import (
	"strings"
	"testing"

	"hembook/internal/garment"
)

// TestSeamIsCompared: two rectangles whose sides differ by 4, of which 3 are allowed, do
// not meet; with 1 they do, and how far their ends are apart is compared too. The top and
// the bottom run straight on.
func TestSeamIsCompared(t *testing.T) {
	for _, c := range []struct{ long, want string }{{"504", "1 of 3 does not meet."}, {"501", "All 4 comparisons hold."}} {
		g, _ := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\npieces:\n  front: {cut: 1, rectangle: [400, "+c.long+"]}\n  back: {cut: 1, rectangle: [300, 500]}\nseams:\n  side: {join: [front.right, back.left], tolerance: 3}\n")
		if got := garment.Outcome(g.Compared()); got != c.want {
			t.Errorf("%s beside 500: %q, want %q", c.long, got, c.want)
		}
	}
}

// TestNoPointsOfPleatsLetIn: lines of a piece into which pleats are let are not given
// points to draw them by, for those are not of the record's outline.
func TestNoPointsOfPleatsLetIn(t *testing.T) {
	const skirt = "cloth: {shell: linen}\npieces:\n  front: {outline: {hem: [260, 0], side: [185, 600], waist: [0, 600], centre: fold}PLEATS}\n  back: {like: front}\nseams:\n  sides: [front.side, back.side]\nfinishes:\n  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 6}\n"
	for pleats, want := range map[string]string{
		"": "draw front.hem with curve: ",
		", pleats: {waist: {kind: box, depth: 40, count: 2, first: 50 from centre, every: 80, stitched: 100}}": "turn the ends of both lines there by 8° each",
	} {
		g, _ := roomWith(t).desk().derive(t, head+strings.Replace(skirt, "PLEATS", pleats, 1))
		told := false
		for _, f := range g.Faults {
			told = told || strings.Contains(f.Message, "front.hem to back.hem at sides") && strings.HasPrefix(f.Hint, want)
		}
		if !told {
			t.Errorf("with pleats %q: not told %q, but %v", pleats, want, g.Faults)
		}
	}
}
