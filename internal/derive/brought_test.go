package derive

import (
	"strings"
	"testing"

	"hembook/internal/garment"
)

// A sleeve placket worked by hand. The slit is 3 in = 76.2 mm, and the placket 4 in = 101.6 to
// its point (Carrie Crane Ingalls, Text-Book on Domestic Art, 1911): its point reaches 25.4
// beyond the slit. Two sleeves have a slit each, with four sides: 4 × 76.2 = 304.8 mm. Each
// placket is cut 2 × (25 + 6) = 62 wide and 76.2 + 25.4 + 6 + 10 = 117.6 long, and folded 6,
// 31 and 56 from its side; the narrow strip 2 × (12 + 6) = 36 wide, 76.2 + 6 + 10 = 92.2 long.
// The wrist loses 6 on each side of its slit and gains 25 and 12: 240 − 12 + 37 = 265, and so
// long is the cuff. The four pieces are 2 × (62 × 117.6 + 36 × 92.2) = 21 220.8 mm².
const placketed = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  sleeve: {cut: 2, allowance: 0, rectangle: [240, 400], lines: {slit: {from: bottom at 60, length: 76.2, slit: true}}}
  cuff: {cut: 2, allowance: 0, of: [shell, shell], band: 60}
seams:
  underarms: {join: [sleeve.left, sleeve.right], allowance: 0}
  cuffs: {join: [sleeve.bottom, cuff.bottom], allowance: 0}
finishes:
  heads: {of: sleeve.top, type: raw}
  plackets: {of: sleeve.slit, type: tower-placket, point: 25.4}
`

func TestTowerPlacket(t *testing.T) {
	g := deriveClean(t, roomWith(t), placketed)
	g.is(t, 1e-6, map[string]float64{
		"finish.plackets.total":       0.3048,
		"finish.plackets.piece-1.cut": 62, "finish.plackets.piece-1.each": 117.6, "finish.plackets.piece-2.cut": 36, "finish.plackets.piece-2.each": 92.2,
		"piece.placket-of-plackets.area": 72.912, "piece.placket-of-plackets.cut-area": 72.912, "piece.placket-of-plackets.edge.right.length": 117.6,
		"piece.sleeve.edge.bottom.sewn": 265, "piece.cuff.band-length": 265, "seam.cuffs.difference": 0,
		"cloth.shell.pieces-cut": (2*240*400 + 4*265*60 + 21220.8) / 1e6,
	})
	p := pieceOf(t, g, "placket of plackets")
	if p.Count != 2 || p.Brought() != "plackets" || len(p.Lines) != 3 || p.Lines[1].Points[0].X != 31 {
		t.Errorf("%d plackets, brought by %q, with %d folds", p.Count, p.Brought(), len(p.Lines))
	}
	for i := range g.Pieces[1].Lines {
		t.Errorf("the cuff is a ring, though the sleeve is slit: %v", g.Pieces[1].Lines[i].Name)
	}
}

func pieceOf(t *testing.T, g *Garment, name string) *garment.Piece {
	t.Helper()
	for _, p := range g.Pieces {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no piece %q", name)
	return nil
}

// A round that makes the slit longer makes the strips longer: 90 + 25.4 + 6 + 10 = 131.4. One
// continuous strip goes up one side and down the other: 2 × (76.2 + 10) = 172.4 long and
// 2 × (20 + 6) = 52 wide, and the wrist is 240 + 20 − 12 = 248. A facing is 80 wide and
// 76.2 + 40 + 10 = 126.2 long, and takes 6 of each side: 228.
func TestPlacketsOfOtherKinds(t *testing.T) {
	deriveClean(t, roomWith(t), placketed+"fittings:\n  - {day: 2027-01-04, saw: short, agreed: maker, change: {sleeve.slit: {length: 90}}}\n").
		is(t, 1e-6, map[string]float64{"finish.plackets.piece-1.each": 131.4, "piece.cuff.band-length": 265})
	other := func(kind string) string {
		return strings.Replace(placketed, "type: tower-placket, point: 25.4", "type: "+kind, 1)
	}
	deriveClean(t, roomWith(t), other("bound-placket")).is(t, 1e-6, map[string]float64{
		"finish.plackets.piece-1.cut": 52, "finish.plackets.piece-1.each": 172.4, "piece.cuff.band-length": 248, "piece.placket-strip-of-plackets.area": 89.648})
	deriveClean(t, roomWith(t), other("faced-slit")).is(t, 1e-6, map[string]float64{
		"finish.plackets.piece-1.cut": 80, "finish.plackets.piece-1.each": 126.2, "piece.cuff.band-length": 228})
}

// A pocket in a side seam: a bag of 10 by 6 1/2 in behind a mouth of 7 1/8 in (Casual
// Industrees, pant measurement specification, of 7 to 7 1/4 in): 165 in and 181 + 73 = 254
// high, with seams of 15 it is cut 165 + 30 = 195 by 254 + 30 = 284. Two fronts and two backs
// have two mouths, of two bag pieces each: four. The rest of the seam is 600 − 181 = 419.
const bagged = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 2, rectangle: [200, 600], allowance: 15, lines: {mouth: {from: [40, 400], to: [160, 400]}}}
  back: {cut: 2, rectangle: [200, 600], allowance: 15}
seams:
  sides: {join: [front.right, back.left]}
  pockets: {join: [front.right from top for 181, back.left from top for 181], type: in-seam-pocket}
  centre front: {join: [front.left, front.left]}
finishes:
  raw edges: {of: [front.bottom, back.bottom, front.top, back.top, back.right], type: overlocked-edge}
  breast: {of: front.mouth, type: welt-pocket}
`

// The welt is 3 × 15 = 45 wide and 120 + 30 = 150 long, folded at 22.5; each bag piece
// 150 + 15 + 10 = 175 by 150. Two mouths: two welts, four bag pieces. The sums are elementary
// arithmetic; that a welt is cut three times as wide as it is comes from memory.
func TestPockets(t *testing.T) {
	g := deriveClean(t, roomWith(t), bagged)
	g.is(t, 1e-6, map[string]float64{
		"seam.pockets.length": 181, "seam.pockets.piece-1.cut": 195, "seam.pockets.piece-1.each": 284, "seam.sides.length": 419,
		"piece.pocket-bag-of-pockets.area": 553.8, "finish.breast.piece-1.cut": 45, "finish.breast.piece-1.each": 150, "finish.breast.piece-2.cut": 175,
	})
	for name, count := range map[string]int{"pocket bag of pockets": 4, "welt of breast": 2, "pocket bag of breast": 4} {
		if p := pieceOf(t, g, name); p.Count != count || p.Of[0] != "shell" {
			t.Errorf("%s: %d cut in %v, want %d", name, p.Count, p.Of, count)
		}
	}
	lined := deriveClean(t, roomWith(t), strings.Replace(bagged, "{shell: linen}", "{shell: linen, lining: linen}", 1))
	if p := pieceOf(t, lined, "pocket bag of pockets"); p.Of[0] != "lining" {
		t.Errorf("the bag is cut in %v", p.Of)
	}
}
