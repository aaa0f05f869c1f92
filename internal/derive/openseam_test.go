package derive

import (
	"math"
	"strings"
	"testing"
)

func holds(t *testing.T, g *Garment, want map[string]float64) {
	t.Helper()
	for id, v := range want {
		if got := g.find(t, id).Value.Number; math.Abs(got-v) > 0.0005*math.Max(1, v/10) {
			t.Errorf("%s is %.4f, not %.4f", id, got, v)
		}
	}
}

// Four seams of 600, two at each side; a zip in one.
const zipped = `
cloth: {shell: linen}
pieces:
  bodice: {of: shell, cut: 2, rectangle: [300, 400]}
  skirt: {of: shell, cut: 3, rectangle: [200, 700]}
seams:
  sides: {join: [bodice.right, bodice.right], type: plain}
  skirt seams: {join: [skirt.left, skirt.right], type: plain}
  waist: {join: [bodice.bottom, skirt.top], type: plain}
notions:
  zip: {length: LENGTH, along: EDGE, where: back}
`

// TestOpenForAZip: a seam is not sewn where a zip is set in. The sides are one seam
// of 400, the skirt seams three of 700: 2.1 m. A zip of 150 in the sides leaves 250;
// one of 400 all of it open. A zip of 550 at bodice.left, 400 long, that no seam joins,
// goes on for 150 into the skirt seam below: 1.95 m. A zip of 150 in the skirt seams
// opens one of the three.
func TestOpenForAZip(t *testing.T) {
	for _, c := range []struct {
		length, edge string
		want         map[string]float64
	}{
		{"150", "bodice.right", map[string]float64{"seam.sides.total": 0.250, "seam.skirt-seams.total": 2.100}},
		{"400", "bodice.right", map[string]float64{"seam.sides.total": 0, "seam.skirt-seams.total": 2.100}},
		{"550", "bodice.left", map[string]float64{"seam.sides.total": 0.400, "seam.skirt-seams.total": 1.950}},
		{"150", "skirt.left", map[string]float64{"seam.sides.total": 0.400, "seam.skirt-seams.total": 1.950}},
	} {
		g, _ := roomWith(t).desk().derive(t, head+strings.NewReplacer("LENGTH", c.length, "EDGE", c.edge).Replace(zipped))
		holds(t, g, c.want)
	}
}

// TestOneLoopOfElastic: a casing round a waist of two panels is one channel of 900,
// two cuffs are two of 260.
func TestOneLoopOfElastic(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [460, 600]}
  back: {of: shell, cut: 1, rectangle: [440, 600]}
  sleeve: {of: shell, cut: 2, rectangle: [260, 500]}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
  sleeve seams: {join: [sleeve.left, sleeve.right], type: plain}
finishes:
  casing: {of: [front.top, back.top], type: casing}
  cuffs: {of: sleeve.bottom, type: casing}
notions:
  elastic: {in: casing}
  cuff elastic: {in: cuffs}
  cord: {in: cuffs, clear: 10}
`)
	for _, f := range faults {
		t.Error(f)
	}
	holds(t, g, map[string]float64{
		"notion.elastic.length": 900, "notion.elastic.count": 1, "notion.cuff-elastic.length": 260, "notion.cuff-elastic.count": 2,
		"notion.cord.length": 260,
	})
	told := 0
	for _, f := range g.Faults {
		if strings.Contains(f.Message, "draws nothing in") {
			told++
		}
	}
	if told != 2 {
		t.Errorf("%d elastics are as long as their channels, not 2: %v", told, g.Faults)
	}
}

// TestOneBoneAChannel: a seam of shell and lining is sewn in both, and its channel
// takes one bone (common practice, no source).
func TestOneBoneAChannel(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
pieces:
  panel: {of: [shell, lining], cut: 4, rectangle: [200, 300]}
seams:
  panels: {join: [panel.left, panel.left], type: plain}
notions:
  boning: {in: panels, clear: 10}
`)
	holds(t, g, map[string]float64{"seam.panels.total": 1.200, "notion.boning.length": 280, "notion.boning.count": 2})
}

// TestNotchesWithinTheEase: 10 of ease may lie in any part of a seam and no part may
// hold more of it, or less than none: a notch 118 off is told. A head of 498 in an
// armhole of 500 that is to have 10 of ease is 12 off.
func TestNotchesWithinTheEase(t *testing.T) {
	const room = `
cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [300, 510], notches: {right: ONE}}
  back: {of: shell, cut: 1, rectangle: [300, 500], notches: {left: TWO}}
seams:
  side: {join: [front.right, back.left], type: plain, ease: 10}
`
	for _, c := range []struct {
		one, two string
		told     int
	}{
		{"255", "250", 0}, // 5 below and 5 above
		{"260", "250", 0}, // all of it on one side
		{"250", "250", 0},
		{"265", "250", 2}, // 15, and −5
		{"368", "250", 1}, // 118: the notch itself is told, and no part
	} {
		g, _ := roomWith(t).desk().derive(t, head+strings.NewReplacer("ONE", c.one, "TWO", c.two).Replace(room))
		told := 0
		for _, f := range g.Faults {
			if strings.Contains(f.Message, "the edges differ by") || strings.Contains(f.Message, "the notches are 118 mm apart") {
				told++
			}
		}
		if told != c.told {
			t.Errorf("notches at %s and %s: told of %d parts, not %d: %v", c.one, c.two, told, c.told, g.Faults)
		}
	}
	g, _ := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen}
pieces:
  body: {of: shell, cut: 1, rectangle: [300, 500], edges: {right: {name: armhole}}}
  sleeve: {of: shell, cut: 1, rectangle: [300, 498], edges: {left: {name: head}}}
seams:
  armhole seam: {join: [sleeve.head, body.armhole], type: plain, ease: 10}
`)
	holds(t, g, map[string]float64{"seam.armhole-seam.difference": 12})
}

// TestTapesAlongEdges: a tape along a shoulder that rises by 50 in 120 is as long as it, 130 (5,
// 12 and 13: elementary geometry), and two shoulders take two.
func TestTapesAlongEdges(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  front: {cut: 2, allowance: 15, outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], centre: [0, 0]}}
  back: {cut: 2, allowance: 15, outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], centre: [0, 0]}}
seams: {shoulders: [front.shoulder, back.shoulder], sides: [front.side, back.side]}
finishes: {edges: {of: [front.hem, back.hem, front.centre, back.centre], type: raw}}
notions: {shoulder tape: {along: front.shoulder}}
`)
	holds(t, g, map[string]float64{"notion.shoulder-tape.length": 130, "notion.shoulder-tape.count": 2})
}
