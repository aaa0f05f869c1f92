package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/shape"
)

// A blouse front whose line of buttons lies 20 inside its edge, worked by hand. Buttons of
// 15, 3 thick: holes of 18 ("Buttons and Buttonholes", University of Minnesota
// Agricultural Extension, 1965), 15 ÷ 2 + 6.35 = 13.85 at least from the line to the edge
// (standards of quality, Association of Sewing and Design Professionals). From 40 below
// the top of 500 to 100 above the hem are 360, seven of them 60 apart; to have 7 + 1. An
// upright hole begins 3.175 above its place; a level one 3.175 beyond the line.
const blouse = `
for: woman
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 2, allowance: 10, rectangle: [240, 500], edges: {left: edge, top: neck, bottom: hem}}
  back: {cut: 2, allowance: 10, rectangle: [240, 500], edges: {top: neck, bottom: hem}}
seams: {right side: [front.right, back.left]}
finishes: {edges: {of: [front.edge, front.neck, front.hem, back.neck, back.hem, back.right], type: raw}}
notions: {buttons: {along: 20 inside front.edge, first: 40 from neck, last: 100 from hem, count: 7, size: 15HOLES}}
`

func TestButtonsOfABlouse(t *testing.T) {
	g := deriveClean(t, roomWith(t), strings.Replace(blouse, "HOLES", ", holes: upright", 1))
	g.is(t, 1e-5, map[string]float64{
		"notion.buttons.hole": 18, "notion.buttons.holes": 0.126, "notion.buttons.stand": 13.85, "notion.buttons.gap": 60, "notion.buttons.have": 8,
		"notion.buttons.sewn-on": 0.042, "thread.white.needle": 0.042*32 + 0.126*12.5 + (g.find(t, "total.sewn").Value.Number)*1.25,
	})
	is := func(k int, at, from, to shape.Point) {
		t.Helper()
		if c := g.Pieces[0].Chalked[k]; !c.Open || c.At.Apart(at) > 1e-9 || c.Hole[0].Apart(from) > 1e-9 || c.Hole[1].Apart(to) > 1e-9 || c.Size != 15 {
			t.Errorf("place %d: %+v", k+1, c)
		}
	}
	is(0, shape.Point{X: 20, Y: 460}, shape.Point{X: 20, Y: 463.175}, shape.Point{X: 20, Y: 445.175})
	is(6, shape.Point{X: 20, Y: 100}, shape.Point{X: 20, Y: 103.175}, shape.Point{X: 20, Y: 85.175})
	if lies := g.Notions[0].HolesLie; lies != "upright, by machine, on the right; buttons on the left" {
		t.Error(lies)
	}
	g = deriveClean(t, roomWith(t), strings.Replace(blouse, "HOLES", ", holes: level, by: hand", 1))
	is(0, shape.Point{X: 20, Y: 460}, shape.Point{X: 16.825, Y: 460}, shape.Point{X: 34.825, Y: 460})
}

// A round sets nine out in place of seven: 360 ÷ 8 = 45 apart. Another gives the one of a
// cuff another place; its hole lies on a line of its own at the other end.
func TestRoundMovesButtons(t *testing.T) {
	room := roomWith(t)
	g := deriveClean(t, room, strings.Replace(blouse, "HOLES", "", 1)+`
fittings:
  - {day: 2026-03-01, saw: it gapes, agreed: both, change: {buttons: {count: 9}}}
  - {day: 2026-03-08, saw: the neck, agreed: both, change: {buttons: {first: 60 from neck, every: 34, size: 12}}}
`)
	g.is(t, 1e-5, map[string]float64{"notion.buttons.count": 11, "notion.buttons.gap": 34, "notion.buttons.hole": 15})
	tailor, _, _ := room.open()
	rounds, r := tailor.Rounds(g), 0
	for _, round := range rounds.List {
		for _, c := range round.Changes {
			for _, e := range c.Effects {
				if e.Of == "buttons, number" || e.Of == "buttons, spacing" {
					r++
				}
			}
		}
	}
	if r != 4 { // 7 to 9 and 60 to 45, 9 to 11 and 45 to 34
		t.Errorf("%d effects of rounds are told", r)
	}
	if words := rounds.List[1].Changes[0].Words; words != "buttons, 34 mm apart, the first at 60 mm from neck, 12 mm wide" {
		t.Error(words)
	}
	if of := rounds.Of("front"); len(of) != 3 {
		t.Errorf("the front is drawn in %d states", len(of))
	}
}

// The button of a cuff of 250 by 65 lies 14 inside its left end, half way up; its hole 14
// inside the right end: its end 3.175 beyond the line, at 250 − 14 + 3.175.
func TestHolesAlongTheOtherEnd(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {white: white}
pieces: {cuff: {cut: 2, allowance: 10, rectangle: [250, 65]}}
finishes: {edges: {of: [cuff.left, cuff.right, cuff.top, cuff.bottom], type: raw}}
notions: {cuff buttons: {along: 14 inside cuff.left, at: 25, size: 11, holes: level, holes-along: 14 inside cuff.right}}
`)
	c := g.Pieces[0].Chalked
	if len(c) != 2 || c[0].Open || !c[1].HoleOnly {
		t.Fatalf("%+v", c)
	}
	want := [2]shape.Point{{X: 250 - 14 + 3.175, Y: c[0].At.Y}, {X: 250 - 14 + 3.175 - 14, Y: c[0].At.Y}}
	if math.Abs(c[0].At.X-14) > 1e-9 || c[1].Hole[0].Apart(want[0]) > 1e-9 || c[1].Hole[1].Apart(want[1]) > 1e-9 {
		t.Errorf("%+v", c)
	}
}

// Two buttons on each of two cuffs 65 high, the first 15 from below and the last 15 from
// above: 65 − 2 · 15 = 35 apart, 2 · 2 = 4 of them, and one spare for each ten or part of it.
// A hole is as long as the button is wide and thick, 11 + 3 = 14, and 4 of them 56 mm; through
// the buttons and their shanks goes 4 · (3 + 3) = 24 mm. The same by how far they are apart.
func TestButtonsOnEachCuff(t *testing.T) {
	for _, places := range []string{"first: 15 from bottom, last: 15 from top, count: 2", "first: 15 from bottom, last: 15 from top, every: 35"} {
		g := deriveClean(t, roomWith(t), strings.Replace(`
cloth: {shell: linen}
thread: {white: white}
pieces: {cuff: {cut: 2, allowance: 10, rectangle: [250, 65]}}
finishes: {edges: {of: [cuff.left, cuff.right, cuff.top, cuff.bottom], type: raw}}
notions: {cuff buttons: {along: 14 inside cuff.left, PLACES, size: 11, holes: level, holes-along: 14 inside cuff.right, weight: 0.5 g}}
`, "PLACES", places, 1))
		g.is(t, 1e-9, map[string]float64{"notion.cuff-buttons.count": 4, "notion.cuff-buttons.gap": 35, "notion.cuff-buttons.have": 5, "notion.cuff-buttons.hole": 14,
			"notion.cuff-buttons.holes": 0.056, "notion.cuff-buttons.sewn-on": 0.024, "notion.cuff-buttons.mass": 2})
		if places := g.Notions[0].Places; len(places) != 2 {
			t.Errorf("places on one: %v", places)
		}
	}
}

// Lacing holes 14 inside the centre of either back, the first 15 below the top and 25 apart:
// the k-th lies √(14² + (15 + 25 k)²) from the corner at the neck, on the right one, which is
// drawn as the mirror image of the left, as on the left one.
func TestHolesOnEitherHand(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 1 on fold, allowance: 10, outline: {bottom: [200, 0], side: [180, 400], top: [0, 400], centre: fold}}
  back: {cut: 2, allowance: 10, outline: {bottom: [200, 0], side: [180, 400], top: [0, 400], centre: [0, 0]}}
seams: {sides: [front.side, back.side]}
finishes: {edges: {of: [front.bottom, front.top, back.bottom, back.top, back.centre], type: raw}}
notions:
  eyelets: {along: 14 inside left back.centre, first: 15 from top, every: 25, count: 14}
  eyelets on the other side: {what: eyelets, along: 14 inside right back.centre, first: 15 from top, every: 25, count: 14}
`)
	corner := map[string]shape.Point{}
	for _, p := range g.Pieces[1:] {
		for i := range p.Outline.Edges {
			if to := p.Outline.Edges[i].To; to.Y > 399 && math.Abs(to.X) < 1 {
				corner[p.Name] = to
			}
		}
		if len(p.Chalked) != 14 {
			t.Fatalf("%s has %d of them", p.Name, len(p.Chalked))
		}
		for k, c := range p.Chalked {
			down := 15 + 25*float64(k)
			if far := math.Hypot(c.At.X-corner[p.Name].X, c.At.Y-corner[p.Name].Y); math.Abs(far-math.Hypot(14, down)) > 1e-6 || math.Abs(400-c.At.Y-down) > 1e-6 {
				t.Errorf("%s: the hole %d lies at %v, %.3f from the corner", p.Name, k, c.At, far)
			}
		}
	}
	if len(g.Pieces) != 3 || g.Pieces[1].Chalked[0].At.X*g.Pieces[2].Chalked[0].At.X >= 0 {
		t.Errorf("they are no mirror images: %v, %v", g.Pieces[1].Chalked[0], g.Pieces[2].Chalked[0])
	}
	for _, n := range g.Notions {
		if len(n.Places) != 14 || n.Places[13].MM() != 13*25 {
			t.Errorf("%s: %v", n.Record.Name.V, n.Places)
		}
	}
}

// An upright hole of 18 begins 3.175 above its place and ends 14.825 below it: 1 below the
// neck it runs 2.175 over it, 5 above the hem 9.825 under that. The end at which it leaves
// the piece is named, from whichever the places are counted.
func TestHolesThatLeaveTheirPiece(t *testing.T) {
	for places, told := range map[string][2]string{
		"first: 1 from neck, last: 100 from hem": {"2.2 mm off front", "first"},
		"first: 40 from neck, last: 5 from hem":  {"9.8 mm off front", "last"},
		"first: 5 from hem, last: 40 from neck":  {"9.8 mm off front", "first"},
	} {
		text := strings.NewReplacer("first: 40 from neck, last: 100 from hem", places, "HOLES", ", holes: upright").Replace(blouse)
		g, _ := roomWith(t).desk().derive(t, head+text)
		said := ""
		for _, f := range g.Faults {
			if strings.HasSuffix(f.Message, told[0]) {
				said = f.Hint
			}
		}
		if want := "set the " + told[1] + " one farther from the end, as " + told[1] + ": 18"; said != want {
			t.Errorf("%s: %q, not %q: %v", places, said, want, g.Faults)
		}
	}
}
