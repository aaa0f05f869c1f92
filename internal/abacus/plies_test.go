package abacus_test

import (
	"math"
	"testing"

	"hembook/internal/abacus"
	"hembook/internal/madeup"
)

// worksOut holds figures of a build in linen against what was worked out by hand.
func worksOut(t *testing.T, build string, want map[string]float64) {
	t.Helper()
	got, err := abacus.Reckon(abacus.Workroom{
		"content/workroom.yaml":             "name: Hand\n",
		"content/cloth/linen.yaml":          "name: Linen\nfibres: {linen: 100}\nwidth: 150 cm\nweight: 200 g/m2\n",
		"content/builds/made-up/build.yaml": "name: Hand\ngarment: shirt\nstate: sewing\ncloth: {shell: linen, fusing: linen}\nthread: {red: red}\n" + build,
	}, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range want {
		if f, known := got[id]; !known || math.Abs(f.Value-want) > 1e-6 {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}

// All edges have 10. The body is cut 420 × 620, the yoke and the inner one 420 × 100 each,
// the flap 420 × 70, twice in shell and once in fusing. The yoke seam of 400 is counted
// once, and the flap's 400; its plies are sewn to each other along 50 + 400 + 50. That is
// 1.3 m of lockstitch at 2.5, with 15 % of waste.
func TestPliesByHand(t *testing.T) {
	worksOut(t, `pieces:
  body: {allowance: 10, rectangle: [400, 600]}
  yoke: {allowance: 10, rectangle: [400, 80]}
  inner yoke: {like: yoke}
  flap: {of: [shell, fusing, shell], allowance: 10, rectangle: [400, 50]}
seams:
  back yoke: {join: [yoke.bottom, body.top, inner yoke.bottom], type: plain}
  flap seam: {join: [flap.top, body.bottom], type: plain}
`, map[string]float64{
		"cloth.shell.pieces-cut": (420*620 + 2*420*100 + 2*420*70) / 1e6, "cloth.fusing.pieces-cut": 420 * 70 / 1e6,
		"cloth.shell.allowance-length": (2000 + 2*960 + 2*900) / 1000.0, "seam.back-yoke.total": 0.4, "seam.back-yoke.side-3": 400,
		"seam.back-yoke.difference-3": 0, "piece.inner-yoke.edge.bottom.allowance": 10, "piece.flap.turned": 0.5, "total.sewn": 1.3,
		"thread.red.total": 1.3 * 2.5 * 1.15,
	})
}

// Two sleeves on the fold are 500 round the wrist: a cord is 500 + 2 × 250 long. Elastic
// of 300 along a top of 400 draws it in to 0.75. Basting is not counted as sewn, and a row
// beside an edge leaves its allowance as it is.
func TestStripsByHand(t *testing.T) {
	worksOut(t, `pieces:
  sleeve: {cut: 2 on fold, rectangle: [250, 400], edges: {left: fold}}
  top: {cut: 1, rectangle: [400, 100], allowance: 12}
finishes:
  wrists: {of: sleeve.bottom, type: drawstring-casing}
  waist: {of: top.top, type: plush-elastic, length: 300}
  line: {of: top.bottom, type: basted}
`, map[string]float64{
		"finish.wrists.strip-1.each": 1000, "finish.wrists.strip-1.length": 2, "finish.waist.strip-1.each": 300, "finish.waist.drawn": 0.75,
		"piece.top.edge.bottom.allowance": 12, "total.sewn": 2*0.5 + 0.4,
	})
}
