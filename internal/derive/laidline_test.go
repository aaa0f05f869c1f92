package derive

import (
	"math"
	"slices"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/shape"
)

const laidBlouse = `
cloth: {shell: linen}
pieces:
  front: {cut: 2, allowance: 15, outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], centre: [0, 0]}}
  back: {cut: 2, allowance: 15, outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], centre: [0, 0]}}
seams:
  shoulders: [front.shoulder, back.shoulder]
  sides: {join: [front.side, back.side], type: flat-felled}
finishes:
  hem: {of: [front.hem, back.hem], type: casing, elastic: 10}
  edges: {of: [front.centre, back.centre], type: raw}
notions:
  shoulder tape: {along: front.shoulder}
  boning: {in: sides, clear: 10}
  elastic: {in: hem, share: 0.8}
`

// TestLaidLines: a tape lies along the seam line of its shoulder. A felled seam of 15, one
// side trimmed and the other folded under by 6, is 9 wide, and its second row lies 1.5 from
// the fold, 7.5 from the seam: a bone lies in the middle, 3.75 inside, and stays clear by 10
// of the hem and of the shoulder, which is 3.75 × 50 ÷ 120 higher there. A casing for elastic
// 10 wide has 3 of room: its row lies 13 inside the fold, and the elastic 6.5, from the slanted
// centre (6.5 × 80 ÷ 450 is 1.156 across) to the side (worked by hand; that what is held lies
// in the middle of its channel is common practice, no source).
func TestLaidLines(t *testing.T) {
	g := deriveClean(t, roomWith(t), laidBlouse)
	lies := func(piece, notion string, from, to shape.Point) {
		t.Helper()
		p := g.Pieces[slices.IndexFunc(g.Pieces, func(p *garment.Piece) bool { return p.Name == piece })]
		for _, l := range p.Laid {
			first, last := l.Line[0], l.Line[len(l.Line)-1]
			if l.Notion == notion && (first.Apart(from) > 0.01 || last.Apart(to) > 0.01 || math.Abs(l.Line.Length()-math.Hypot(to.X-from.X, to.Y-from.Y)) > 0.01) {
				t.Errorf("%s of %s lies from %v to %v, %.3f long, not from %v to %v", notion, piece, first, last, l.Line.Length(), from, to)
			}
		}
		if n := slices.IndexFunc(p.Laid, func(l garment.LaidLine) bool { return l.Notion == notion }); n < 0 {
			t.Errorf("%s does not lie on %s", notion, piece)
		}
	}
	lies("front", "shoulder tape", shape.Point{X: 200, Y: 400}, shape.Point{X: 80, Y: 450})
	lies("front", "elastic", shape.Point{X: 1.156, Y: 6.5}, shape.Point{X: 200, Y: 6.5})
	lies("back", "elastic", shape.Point{X: 1.156, Y: 6.5}, shape.Point{X: 200, Y: 6.5})
	felled := 0
	for _, p := range g.Pieces {
		if slices.ContainsFunc(p.Laid, func(l garment.LaidLine) bool { return l.Notion == "boning" }) {
			felled++
			lies(p.Name, "boning", shape.Point{X: 196.25, Y: 10}, shape.Point{X: 196.25, Y: 391.5625})
		}
	}
	if felled != 1 {
		t.Errorf("a bone lies on %d pieces of one felled seam", felled)
	}
	holds(t, g, map[string]float64{"notion.boning.length": 380})
}

// TestLaidChangesInARound: a fitting cuts the bones 25 short at each end, 400 less 2 times 25
// is 350, and the elastic of each half of the hem, which is open at the
// front and the back and so 400 long, to seven tenths of it, 280.
func TestLaidChangesInARound(t *testing.T) {
	g := deriveClean(t, roomWith(t), laidBlouse+`
fittings:
  - day: 2026-09-01
    from: in person
    saw: The bones poke, and the hem gapes.
    agreed: maker
    change: {boning: {clear: 25}, elastic: {share: 0.7}}
`)
	holds(t, g, map[string]float64{"notion.boning.length": 350, "notion.elastic.length": 280})
}
