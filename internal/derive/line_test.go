package derive

import (
	"math"
	"strings"
	"testing"
)

// Lines on a piece, worked by hand (geometry, exact; the place and depth of a sleeve's
// slit as Ingalls has it, 3 in cut: Carrie Crane Ingalls, Text-Book on Domestic Art, 1911,
// Shirt-waist sleeve, here 75). The front is 200 wide and 300 high, cut as a left and a
// right. Its centre lies 18 inside the right side and is 300 long; the pocket place is 115
// long; the slit begins 60 from the corner with the left side, which is where the bottom
// begins, and is 75 deep. Both sides of it are overlocked: 2 × 75 × 2 = 0.3 m. A row beside
// the fold is sewn once in each: 2 × 300 = 0.6 m; the pocket is sewn on once: 0.115 m.
const lined = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front:
    cut: 2
    rectangle: [200, 300]
    allowance: 10
    levels: {waist: 100}
    lines:
      centre: 18 inside right
      turn: {along: 40 inside right, fold: true}
      pocket place: {from: [40, 200], to: [155, 200]}
      slit: {from: bottom at 60 from left, length: 75, slit: true}
      bow: {from: left at 120 from bottom, to: [100, 180], curve: -10}
  pocket: {cut: 1, allowance: 10, rectangle: [115, 130]}
seams:
  pocket: {join: [pocket.top, front.pocket place], type: lapped-turned}
finishes:
  slits: {of: front.slit, type: overlocked-edge}
  fold row: {of: front.turn, type: stitched-line}
  rest: {of: [pocket.bottom, pocket.left, pocket.right], type: raw}
notions:
  buttons: {along: front.centre, first: 30 from bottom, last: 30 from top, count: 5, size: 11}
  snaps: {along: front.bow, count: 2}
`

func TestLines(t *testing.T) {
	g := deriveClean(t, roomWith(t), lined)
	// The bow is an arc over √(100² + 60²) that rises by 10: radius chord²÷80 + 5.
	chord := math.Hypot(100, 60)
	radius := chord*chord/80 + 5
	bow := 2 * radius * math.Asin(chord/2/radius)
	g.is(t, 1e-3, map[string]float64{
		"piece.front.line.centre.length": 300, "piece.front.line.turn.length": 300, "piece.front.line.pocket-place.length": 115,
		"piece.front.line.slit.length": 75, "piece.front.line.bow.length": bow,
		"finish.slits.total": 0.3, "finish.fold-row.total": 0.6, "seam.pocket.total": 0.115, "seam.pocket.difference": 0, "notion.buttons.gap": 60,
	})
	front := g.Pieces[0]
	if l := front.Lines[3]; l.Points[0].X != 140 && l.Points[0].X != 60 || l.Points[1].Y != 75 {
		t.Errorf("the slit lies at %v", l.Points)
	}
	if l := front.Lines[0]; l.Points[0].X != 182 || l.Points[0].Y != 0 {
		t.Errorf("the centre begins at %v", l.Points[0])
	}
	if g.LooseWords() == "" || g.Apart != nil { // the sides of the front are loose, the pocket is not
		t.Errorf("loose: %q, apart: %v", g.LooseWords(), g.Apart)
	}
	for _, l := range g.Loose {
		if l.Edge[:5] == "pocke" {
			t.Errorf("%s is loose", l.Edge)
		}
	}
	if at := front.Chalked[0].At; math.Abs(at.X-182) > 1e-9 || math.Abs(at.Y-30) > 1e-9 {
		t.Errorf("the first button lies at %v", at)
	}
}

// A round moves a centre 3 outwards, its buttons with it, and makes a slit 90 deep. A piece
// that is like another has its lines; with a wider front edge they move.
func TestLinesFollow(t *testing.T) {
	g := deriveClean(t, roomWith(t), lined+`
fittings: [{day: 2026-02-01, saw: it gapes, change: {front.centre: 3, front.slit: {length: 90}}}]
`)
	if g.Pieces[0].Lines[0].Points[0].X != 185 || g.Pieces[0].Chalked[0].At.X != 185 {
		t.Errorf("the centre lies at %v, the first button at %v", g.Pieces[0].Lines[0].Points[0], g.Pieces[0].Chalked[0].At)
	}
	g.is(t, 1e-6, map[string]float64{"piece.front.line.slit.length": 90, "finish.slits.total": 0.36})

	g = deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  front: {cut: 2, rectangle: [200, 300], lines: {centre: 18 inside right}}
  facing: {like: front, change: {right: 12}}
`)
	if at := g.Pieces[1].Lines[0].Points[0].X; at != 194 {
		t.Errorf("the facing's centre lies at %v", at)
	}
}

// Pleats that are let in beyond a line move it: two box pleats of 10 take 40 each.
func TestLinesAmongPleats(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  panel: {cut: 1, rectangle: [200, 300], lines: {side: {from: [190, 0], to: [190, 300]}}, pleats: {top: {kind: box, count: 2, depth: 10}}}
`)
	least, most := g.Pieces[0].Outline.Bounds()
	if wide := most.X - least.X; wide != 280 || math.Abs(most.X-g.Pieces[0].Lines[0].Points[0].X-10) > 1e-6 {
		t.Errorf("%v wide, the line at %v", wide, g.Pieces[0].Lines[0].Points)
	}
}

// A slit whose sides nothing finishes is told once where the piece is drawn.
func TestRawSlit(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, strings.Replace(lined, "  slits: {of: front.slit, type: overlocked-edge}\n", "", 1))
	n := 0
	for _, f := range g.Faults {
		if f.Message == "the slit front.slit has raw sides" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("told %d times: %v", n, g.Faults)
	}
}
