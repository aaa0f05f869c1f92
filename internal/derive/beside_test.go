package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/garment"
)

// Rows that make no edge neat, worked by hand. The front is 200 wide and 300 high, cut
// twice; its top is sewn to a facing and stay-stitched, its centre is basted, its fold
// edge-stitched, and its left side has two rows beside what finishes it.
//
//	stay:   2 × 200 = 0.4 m of lockstitch, 1.25 below and above each
//	centre: 2 × 300 = 0.6 m of running stitch by hand, 3 for 1, pulled out
//	fold:   2 × 300 = 0.6 m of lockstitch
//	left:   2 × 300 = 0.6 m, two rows
//	top:    2 × 200 = 0.4 m, one row; side and hem, turned twice, (300 + 200 + 300) × 2 = 1.6 m, one row
//
// The needle takes (0.4 + 0.6 + 2 × 0.6 + 0.4 + 1.6) × 1.25 + 0.6 × 3 = 7.05 m, of which 1.8 m come out again
// (elementary arithmetic; how much thread a stitch takes stands in the trade's table with its source).
const besides = `
cloth: {shell: linen}
thread: {white: {colour: white, reel: 100 m, weight: 10 g}}
pieces:
  front:
    cut: 2
    rectangle: [200, 300]
    allowance: 40
    lines: {centre: 18 inside right, turn: {along: 40 inside right, fold: true}}
  facing: {cut: 2, rectangle: [200, 50], allowance: 40}
seams:
  top: [front.top, facing.bottom]
finishes:
  stay: {of: front.top, type: stay-stitched}
  centre: {of: front.centre, type: basted}
  fold: {of: front.turn, type: edge-stitched}
  left rows: {of: front.left, type: topstitched-twice}
  edges: {of: [front.left, front.bottom, front.right], type: double-turned-hem}
  rest: {of: [facing.left, facing.right, facing.top], type: raw}
`

func TestRowsBesides(t *testing.T) {
	g := deriveClean(t, roomWith(t), besides)
	g.is(t, 1e-6, map[string]float64{
		"finish.stay.total": 0.4, "finish.centre.total": 0.6, "finish.fold.total": 0.6, "finish.left-rows.total": 0.6, "finish.edges.total": 1.6,
		"thread.white.needle": 7.05, "thread.white.under": 5.25, "thread.white.mass": (7.05 + 5.25 - 1.8) / 100 * 10,
		"piece.front.edge.top.allowance": 40,
	})
	if g.LooseWords() != "" {
		t.Errorf("loose: %s", g.LooseWords())
	}
	basted := g.RowsOf(garment.FinishRow, "centre")
	if len(basted) != 1 || !basted[0].Temporary || !basted[0].Hand || basted[0].Lasting {
		t.Errorf("the basting is %+v", basted)
	}
}

// A part of an edge along which only rows run stays part of the seam that names the edge
// whole: the top is 200 long, of which 80 are stay-stitched.
func TestRowsOnPartOfSeam(t *testing.T) {
	g := deriveClean(t, roomWith(t), strings.Replace(besides, "of: front.top,", "of: front.top from left for 80,", 1))
	g.is(t, 1e-6, map[string]float64{"finish.stay.total": 0.16, "seam.top.length": 200, "seam.top.total": 0.4, "seam.top.difference": 0})
}

// An edge with no more than a row is still to be sewn or finished, a slit is still raw, and
// a stay row wants an allowance to lie in.
func TestRowsMakeNothingNeat(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"front.left, front.bottom", "front.bottom", "front.left"},
		{"turn: {along: 40 inside right, fold: true}", "turn: {from: bottom at 60 from left, length: 75, slit: true}", "fold: edge-stitched needs a line, an edge or a part of an edge, front.turn is a slit"},
		{"allowance: 40\n    lines", "allowance: 40\n    edges: {top: {allowance: 4}}\n    lines", "stay: it uses 6 mm, front.top has 4 mm"},
	} {
		g, _ := roomWith(t).desk().derive(t, strings.Replace(besides, c.from, c.to, 1))
		told := slices.ContainsFunc(g.Faults, func(f fault.Fault) bool { return strings.Contains(f.Message, c.want) })
		if !told && !strings.Contains(g.LooseWords(), c.want) {
			t.Errorf("%s: nothing says %q: %v %s", c.to, c.want, g.Faults, g.LooseWords())
		}
	}
}
