package abacus_test

import (
	"fmt"
	"testing"
)

// Two box pleats 20 deep have two folds each, and each takes 40: 160. So the panel is cut
// 300 + 160 wide, with allowances 480 × 520; its top closes to 300. Four folds are sewn down
// 100: 0.4 m. At the hip, 50 below the top, it is 300 wide, at the knee 460. Three tucks 5
// deep at the right take 30 of both sides' length, all across: 3 × 200.
func TestPleatsLetInByHand(t *testing.T) {
	worksOut(t, `pieces:
  panel: {cut: 1, allowance: 10, rectangle: [300, 500], pleats: {top: {kind: box, count: 2, depth: 20, stitched: 100}}, levels: {hip: 450, knee: 100}}
  bib: {cut: 1, allowance: 10, rectangle: [200, 300], pleats: {right: {kind: tuck, count: 3, depth: 5}}}
`, map[string]float64{
		"piece.panel.edge.top.length": 460, "piece.panel.edge.top.intake": 160, "piece.panel.edge.top.sewn": 300, "piece.panel.edge.bottom.length": 460,
		"piece.panel.cut-area": 480 * 520 / 100, "piece.panel.pleats": 0.4, "piece.panel.level.hip": 300, "piece.panel.level.knee": 460,
		"piece.bib.edge.right.length": 330, "piece.bib.edge.right.sewn": 300, "piece.bib.edge.left.sewn": 300, "piece.bib.area": 660, "piece.bib.pleats": 0.6,
		"total.sewn": 1,
	})
}

// The front narrows from 400 at the foot to 340 at the head, 300 higher; 30 below the head
// it is 346 wide. The strip there has (340 + 346) ÷ 2 × 30 = 10290 mm², and is there as
// often as the front.
func TestStripAlongAnEdgeByHand(t *testing.T) {
	worksOut(t, `pieces:
  front: {cut: 2, allowance: 0, outline: {from: [0, 0], foot: [400, 0], side: [340, 300], head: [0, 300], middle: [0, 0]}}
  facing: {border: {along: front.head, width: 30}, allowance: 0}
`, map[string]float64{
		"piece.facing.edge.head.length": 340, "piece.facing.edge.inner.length": 346, "piece.facing.area": 102.9, "piece.facing.edge.middle.length": 30,
		"cloth.shell.area": (2*370*300 + 2*10290) / 1e6,
	})
}

// A pocket of 120 × 140 is turned at its top and sewn on along the other three, 400, to
// each of two; its place is 520 all round. One that is set on the left one is sewn once.
func TestPocketByHand(t *testing.T) {
	for pockets, total := range map[string]float64{"2": 0.8, "1": 0.4} {
		on := map[string]string{"2": "front", "1": "left front"}[pockets]
		worksOut(t, fmt.Sprintf(`pieces:
  front: {cut: 2, allowance: 10, rectangle: [400, 500]}
  pocket: {cut: %s, allowance: 10, rectangle: [120, 140]}
seams:
  pocket: {join: [pocket, %s], at: [100, 300]}
finishes:
  top: {of: pocket.top, type: raw}
`, pockets, on), map[string]float64{"seam.pocket.length": 400, "seam.pocket.total": total, "piece.front.line.pocket.length": 520, "total.sewn": total})
	}
}

// Of a pair of which each side is sewn in its own way there are a left and a right one,
// each cut once: the left side gives 15 and the right one 6 + 9 as a French seam. The hem of
// both is 2 × 200.
func TestHandsByHand(t *testing.T) {
	worksOut(t, `pieces:
  front: {cut: 2, outline: {from: [0, 0], foot: [200, 0], side: [200, 380], head: [0, 400], middle: [0, 0]}}
  back: {cut: 2, outline: {from: [0, 0], foot: [200, 0], side: [200, 380], head: [0, 400], middle: [0, 0]}}
seams:
  left side: {join: [left front.side, left back.side], type: plain, allowance: 12}
  right side: {join: [right front.side, right back.side], type: french, first: 6, second: 9}
finishes:
  feet: {of: [front.foot, back.foot], type: raw}
`, map[string]float64{
		"piece.left-front.edge.side.allowance": 12, "piece.right-front.edge.side.allowance": 15, "seam.left-side.total": 0.38, "seam.right-side.total": 0.38,
		"finish.feet.total": 0.8, "piece.left-back.area": 200 * 390 / 100,
	})
}

// Five plies of a French seam and two of a plain one lie at the ends of the seam across:
// pressed open 2 × 5, pressed to either side 5 + 2 + 5 at most, lapped raw 5 + 2.
func TestCrossingsByHand(t *testing.T) {
	for way, plies := range map[string]float64{"plain": 10, "plain-to-one-side": 12, "lapped-raw": 7} {
		worksOut(t, `pieces:
  one: {cut: 1, rectangle: [200, 200]}
  two: {cut: 1, rectangle: [200, 200]}
  three: {cut: 1, rectangle: [200, 200]}
  four: {cut: 1, rectangle: [200, 200]}
seams:
  upper: {join: [one.right, two.left], type: french}
  lower: {join: [three.right, four.left], type: plain}
  across: {join: [[one.bottom, two.bottom], [three.top, four.top]], type: `+way+`}
`, map[string]float64{"seam.across.crossing": plies})
	}
}
