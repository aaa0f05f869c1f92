package derive

import (
	"strings"
	"testing"
)

// Four squares are sewn beside each other two by two, a French seam of five plies above and
// a plain one of two plies a side below, and then all across. Pressed to a side, the
// garment there lies on both allowances: on the French seam 5 + 5 + 2, on the plain one
// 2 + 2 + 5; nobody says to which, so 12 is the most. Rows of topstitching say to which: the
// first edge's side, or the piece they lie towards. Pressed open it is 2 × 5.
func TestPliesWhereASeamCrosses(t *testing.T) {
	const squares = `cloth: {shell: linen}
pieces:
  one: {cut: 1, rectangle: [200, 200]}
  two: {cut: 1, rectangle: [200, 200]}
  three: {cut: 1, rectangle: [200, 200]}
  four: {cut: 1, rectangle: [200, 200]}
seams:
  upper: {join: [one.right, two.left], type: french}
  lower: {join: [three.right, four.left], type: plain}
  across: {join: [ABOVE, BELOW], WAY}
`
	for _, c := range []struct {
		way          string
		plies, other float64 // as written, and with the two sides exchanged
	}{
		{"type: plain", 10, 10},
		{"type: lapped-raw", 7, 7},
		{"type: plain-to-one-side", 12, 12},
		{"type: plain-to-one-side, topstitch: 6", 12, 9},
		{"type: plain-to-one-side, topstitch: {at: 6, towards: three}", 9, 9},
		{"type: plain-to-one-side, topstitch: {at: 6, towards: one}", 12, 12},
	} {
		above, below := "[one.bottom, two.bottom]", "[three.top, four.top]"
		for turn, plies := range [2]float64{c.plies, c.other} {
			if turn == 1 {
				above, below = below, above
			}
			g, _ := roomWith(t).desk().derive(t, head+strings.NewReplacer("ABOVE", above, "BELOW", below, "WAY", c.way).Replace(squares))
			g.is(t, 1e-9, map[string]float64{"seam.across.crossing": plies})
		}
	}
}
