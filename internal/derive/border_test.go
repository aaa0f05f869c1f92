package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/garment"
)

// A front is half of a bodice 200 wide and 300 high, drawn to the fold, with a neck of a
// quarter circle of 70 and a shoulder of 130.
const borderedFront = `cloth: {shell: linen}
pieces:
  front:
    cut: 1 on fold
    allowance: 0
    outline:
      hem: {to: [200, 0], level: none}
      side: [200, 300]
      shoulder: [70, 300]
      neck: {to: [0, 230], curve: [[70, 261.3401], [38.6599, 230]]}
      centre: fold
    notches: {neck: [{name: half, at: 55}], hem: 100}
  facing: {border: {along: front.neck, width: 50}, allowance: 0}
`

// A facing along the neck is a quarter ring between 70 and 120: π/4 × (120² − 70²) = 7461.3
// mm², half of the piece; it keeps 50 of the shoulder and of the fold, its inner edge is
// π/2 × 120 = 188.5 and the neck as long as the front's, π/2 × 70 = 109.96. A cubic follows
// the circles within 0.03 % (elementary geometry).
func TestBorderOfANeck(t *testing.T) {
	g := deriveClean(t, roomWith(t), borderedFront)
	g.is(t, 0.05, map[string]float64{
		"piece.facing.edge.neck.length": math.Pi / 2 * 70, "piece.facing.edge.inner.length": math.Pi / 2 * 120,
		"piece.facing.edge.shoulder.length": 50, "piece.facing.edge.centre.length": 50,
		"piece.facing.area": 2 * math.Pi / 4 * (120*120 - 70*70) / 100, // cm²
	})
	p := pieceNamed(t, g, "facing")
	if p.Count != 1 || !p.OnFold || len(p.Edges) != 4 {
		t.Errorf("the facing is cut %d, on fold %v, with %d edges", p.Count, p.OnFold, len(p.Edges))
	}
}

// A border follows a round that alters the piece it runs along: a shoulder raised by 10
// raises the neck's end, and a border of a side without the fold is cut twice as often.
func TestBorderFollows(t *testing.T) {
	text := borderedFront + "  stay: {border: {along: [front.side, front.shoulder], width: 20}, allowance: 0}\n"
	g := deriveClean(t, roomWith(t), text)
	// 280 up the side and, to where the neck is 20 lower, 180 − √(70² − 20²) = 112.92 along
	// the shoulder; 300 × 20 + 110 × 20 and what lies below the arc there, 20 × 70 −
	// (10 × √4500 + 2450 × asin 2/7) = 19.3 mm².
	g.is(t, 0.05, map[string]float64{"piece.stay.area": 82.193, "piece.stay.edge.inner.length": 280 + 112.92})
	if p := pieceNamed(t, g, "stay"); p.Count != 2 || p.OnFold {
		t.Errorf("the stay is cut %d, on fold %v", p.Count, p.OnFold)
	}
	moved := deriveClean(t, roomWith(t), text+"fittings:\n  - {day: 2026-08-09, saw: too tight, change: {front.side: 10}}\n")
	moved.is(t, 0.05, map[string]float64{"piece.stay.edge.shoulder.length": 140, "piece.stay.edge.inner.length": 280 + 122.92})
}

// A waist with a dart of 20 over 100 is drawn up to a band of 240 × 40 with its dart
// folded out: the edge closes to 220.
func TestBorderClosesDarts(t *testing.T) {
	g := deriveClean(t, roomWith(t), `cloth: {shell: linen}
usual: {truing: {angle: 180, dart: 90, legs: 50, step: 50}}
pieces:
  skirt: {allowance: 0, cut: 2, outline: {hem: {to: [240, 0], level: none}, side: [240, 600], waist: {to: [0, 600], level: none}, centre: [0, 0]}, darts: {waist: {at: 120, width: 20, length: 100}}}
  facing: {border: {along: skirt.waist, width: 40}, allowance: 0}
`)
	g.is(t, 0.01, map[string]float64{"piece.facing.edge.waist.length": 220})
	if p := pieceNamed(t, g, "facing"); len(p.Darts) != 0 {
		t.Errorf("the facing keeps %d darts", len(p.Darts))
	}
}

func TestBorderFaults(t *testing.T) {
	for _, c := range []struct{ border, want, hint string }{
		{"{along: front.neck, width: 150}", "facing is wider than front at neck", "make it narrower"},
		{"{along: [front.hem, front.shoulder], width: 20}", "the edges of facing do not lie beside each other", "or make a border for each"},
		{"{along: [front.hem, front.side, front.shoulder, front.neck], width: 20}", "facing goes round nearly all of front", "leave out an edge"},
		{"{along: [front.neck, front.centre], width: 20}", "front.centre lies on the fold", "leave it out"},
		{"{along: front.nek, width: 20}", `there is no edge "nek" on the piece "front"`, `did you mean "neck"?`},
		{"{along: [front.neck, other.top], width: 20}", "facing runs along edges of two pieces, front and other", "make a piece for each"},
		{"{along: facing.neck, width: 20}", "facing cannot run along itself", "name edges of another piece"},
		{"{along: frond.neck, width: 20}", `there is no piece "frond" in this garment`, `did you mean "front"?`},
	} {
		text := strings.Replace(borderedFront, "{along: front.neck, width: 50}", c.border, 1) + "  other: {rectangle: [100, 100]}\n"
		g, faults := roomWith(t).desk().derive(t, head+text)
		found := false
		for _, f := range append(faults, g.Faults...) {
			found = found || f.Message == c.want && strings.Contains(f.Hint, c.hint)
		}
		if !found {
			t.Errorf("%s: nothing said %q: %v %v", c.border, c.want, faults, g.Faults)
		}
	}
}

func pieceNamed(t *testing.T, g *Garment, name string) *garment.Piece {
	t.Helper()
	for _, p := range g.Pieces {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no piece %s", name)
	return nil
}

// A facing lies behind what it is cut from, so its open side, which leans by 20 in 400 as
// the trousers' does, is no line that goes on over the waist.
func TestBorderLiesBehind(t *testing.T) {
	deriveClean(t, roomWith(t), `cloth: {shell: linen}
pieces:
  front: {allowance: 15, cut: 2, outline: {hem: {to: [200, 0], level: none}, side: [220, 400], waist: {to: [0, 330], level: none}, centre: [0, 0]}}
  facing: {border: {along: front.waist, width: 50}, cut: 2, allowance: 15}
seams:
  waist: {join: [front.waist, facing.waist], type: enclosed, allowance: 6}
`)
}
