package derive

import (
	"math"
	"testing"
)

// A dress with darts and one gathered panel, worked by hand, lengths in millimetres:
//
//	seams      bodice sides 2 × 200 = 400; skirt sides 2 × 1152.5 = 2305; both waists
//	           2 × 2 × (216 − 36) = 720; sleeve seams 2 × 500 = 1000: 4425
//	hems       skirt 541 + 360 = 901; top 2 × 2 × 216 = 864; sleeves 2 × 2 × 300 = 1200: 2965
//	           7390 in all, which is all that was counted once
//	darts      four legs of √(18² + 80²) = 82: 328
//	gathers    the front panel, 541, in two rows that are taken out again: 1082
//	           7390 + 328 + 1082 = 8800
//
// Everything is lockstitch, which takes 2.5: 8.80 × 2.5 = 22 m of thread, half of it in the
// needle, where 7.39 × 2.5 = 18.475 would have left the last reel short. What stays sewn is
// 7.39 + 0.328 = 7.718 m.
const gatheredDress = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  bodice: {outline: {waist: [216, 0], side: [216, 200], top: [0, 200], centre: fold}, darts: {waist: {at: 100, width: 36, length: 80}}}
  back bodice: {like: bodice}
  front panel: {cut: 1, rectangle: [541, 1152.5]}
  back panel: {cut: 1, rectangle: [360, 1152.5]}
  sleeve: {cut: 2, rectangle: [300, 500]}
seams:
  sides: [bodice.side, back bodice.side]
  right skirt seam: [front panel.right, back panel.left]
  left skirt seam: [front panel.left, back panel.right]
  front waist: {join: [front panel.top, bodice.waist], gather: 1.5}
  back waist: [back panel.top, back bodice.waist]
  sleeves: [sleeve.right, sleeve.left]
finishes:
  hem: {of: [front panel.bottom, back panel.bottom], type: double-turned-hem, depth: 10}
  top: {of: [bodice.top, back bodice.top], type: double-turned-hem, depth: 5}
  sleeve ends: {of: [sleeve.top, sleeve.bottom], type: double-turned-hem, depth: 5}
`

func TestDartsAndGathersAreSewn(t *testing.T) {
	g := deriveClean(t, roomWith(t), gatheredDress)
	g.is(t, 1e-6, map[string]float64{
		"piece.bodice.darts": 0.164, "piece.back-bodice.darts": 0.164, "seam.front-waist.gathered": 0.541,
		"total.sewn": 7.718, "thread.white.needle": 11, "thread.white.under": 11,
	})
	all := 0.0
	for _, r := range g.Rows {
		all += r.Length.Value.Number * float64(r.Rows)
	}
	if math.Abs(all-8.80) > 1e-6 {
		t.Errorf("the rows are %.4f m, not 8.80", all)
	}
}
