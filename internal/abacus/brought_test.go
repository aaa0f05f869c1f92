package abacus_test

import (
	"math"
	"testing"

	"hembook/internal/abacus"
	"hembook/internal/madeup"
)

// Two sleeves have a slit of 9 cm each, its placket 62 mm wide and 90 + 25 + 6 + 10 = 131
// long, its narrow strip 36 by 106; the wrist of 24 cm becomes 240 − 12 + 25 + 12 = 265, and
// so long is the cuff.
func TestBroughtByHand(t *testing.T) {
	room := abacus.Workroom{
		"content/workroom.yaml":    "name: Hand\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nwidth: 150 cm\nselvedge: 10\nweight: 200 g/m2\n",
		"content/builds/made-up/build.yaml": `name: Hand
garment: shirt
state: sewing
units: cm
cloth: {shell: linen}
thread: {red: red}
pieces:
  sleeve: {cut: 2, allowance: 0, rectangle: [24, 40], lines: {slit: {from: bottom at 6, length: 9, slit: true}}}
  cuff: {cut: 2, allowance: 0, band: {width: 6}}
seams:
  cuffs: {join: [cuff.bottom, sleeve.bottom], type: plain}
finishes:
  plackets: {of: sleeve.slit, type: tower-placket}
`,
	}
	got, err := abacus.Reckon(room, tables(t), madeup.Build, -1)
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{
		"finish.plackets.total": 0.36, "finish.plackets.piece-1.each": 131, "finish.plackets.piece-2.each": 106,
		"piece.placket-of-plackets.area": 62 * 131 / 100.0, "piece.placket-of-plackets.line.second-fold.length": 131,
		"piece.sleeve.edge.bottom.sewn": 265, "piece.cuff.band-length": 265,
		"cloth.shell.pieces-cut": (2*240*400 + 2*265*60 + 2*62*131 + 2*36*106) / 1e6,
	} {
		if f, known := got[id]; !known || math.Abs(f.Value-want) > 1e-6 {
			t.Errorf("%s = %v %s, want %v", id, f.Value, f.Unit, want)
		}
	}
}
