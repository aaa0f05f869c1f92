package abacus_test

import (
	"math"
	"testing"

	"hembook/internal/abacus"
	"hembook/internal/madeup"
)

// A waist of two fronts of 24 and a back on the fold of 25, drawn as a half, is 98 cm round;
// a band that laps 3 is 101, folded 2 × 4 wide: 808 cm². Two cuffs on sleeves of 30 that are
// gathered 1.5 times, lapped 2: 22 each.
func TestBandByHand(t *testing.T) {
	room := abacus.Workroom{
		"content/workroom.yaml":    "name: Hand\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nwidth: 150 cm\nselvedge: 10\nweight: 200 g/m2\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: skirt
state: sewing
units: cm
cloth: {shell: linen}
thread: {red: red}
pieces:
  front: {cut: 2, rectangle: [24, 60]}
  back: {cut: 1 on fold, rectangle: [25, 60], edges: {left: {fold: true}}}
  sleeve: {cut: 2, rectangle: [30, 40]}
  waistband: {allowance: 0, band: {width: 4, folded: true, lap: 3}}
  cuff: {cut: 2, allowance: 0, band: {width: 6, lap: 2}}
seams:
  waist: {join: [[front.top, back.top], waistband.bottom], type: plain}
  cuffs: {join: [cuff.bottom, sleeve.bottom], gather: 1.5, type: plain}
`,
	}
	got, err := abacus.Reckon(room, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{
		"piece.waistband.band-length": 1010, "piece.waistband.area": 808, "piece.waistband.line.fold.length": 1010,
		"seam.waist.length": 980, "seam.waist.difference": 0, "seam.waist.total": 0.98,
		"piece.cuff.band-length": 220, "seam.cuffs.difference": 0, "seam.cuffs.fullness": 1.5, "seam.cuffs.length": 200,
	} {
		if f, known := got[id]; !known || math.Abs(f.Value-want) > 1e-6 {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}
