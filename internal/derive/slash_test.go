package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/measure"
)

// A skirt front of 400 by 600, after a fitting opened by 80 at the hem, from the waist at
// 150 from its left end: the hem is 480, the waist and the sides as they were. Its area
// grows by the isosceles triangle in between, 40 × √(600² − 40²) = 23 946.607 mm². What was
// 100 from the right end of the hem stays there: 300 along it comes to 380, 100 stays.
// The back, which is like the front, follows (elementary geometry).
const slashedSkirt = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 1, rectangle: [400, 600], allowance: 10, edges: {top: waist, bottom: hem}, notches: {bottom: [300, {at: 100, name: left}]}}
  back: {like: front}
seams: {left side: [front.right, back.left], right side: [front.left, back.right]}
finishes: {hem: {of: [front.hem, back.hem], type: raw}, waist: {of: [front.waist, back.waist], type: raw}}
fittings:
  - {day: 2026-03-01, saw: it clings at the hem, agreed: both, change: {front: {slash: waist at 150 from left to hem at 150 from left, spread: [0, 80]}}}
`

func TestSlashInARound(t *testing.T) {
	g := deriveClean(t, roomWith(t), slashedSkirt)
	for _, p := range []string{"front", "back"} {
		g.is(t, 1e-5, map[string]float64{
			"piece." + p + ".edge.waist.length": 400, "piece." + p + ".edge.hem.length": 480,
			"piece." + p + ".edge.left.length": 600, "piece." + p + ".area": (400*600 + 23946.6074) / 100,
		})
	}
	var at []float64
	for _, n := range g.Pieces[0].NotchesAlong() {
		at = append(at, n.Along)
	}
	if len(at) != 2 || math.Abs(at[0]-380) > 1e-4 || math.Abs(at[1]-100) > 1e-4 {
		t.Errorf("the notches lie at %v, want 380 and 100", at)
	}
	said := garment.ChangeWords(&g.Build.Fittings[0].Change[0], measure.Style{})
	if said != "slashed from waist to hem, opened 80 mm at hem" {
		t.Errorf("said: %s", said)
	}
}

// A puffed sleeve is like a plain one of 240 by 450, slashed down its middle and spread by
// 60 at the head and 40 at the wrist: 300 and 280, and the trapezoid between, 50 × √(450² −
// 10²) = 22 494.4438 mm², more in area. A slash through the middle of a dart is told.
func TestSlashOfAPieceLikeAnother(t *testing.T) {
	const sleeves = `
cloth: {shell: linen}
pieces:
  sleeve: {cut: 1, rectangle: [240, 450], allowance: 10, edges: {top: head, bottom: wrist}}
  puffed: {like: sleeve, change: {puffed: {slash: head at middle to wrist at middle, spread: [60, 40]}}DARTS}
finishes: {edge: {of: [sleeve.head, puffed.head, sleeve.wrist, puffed.wrist, sleeve.left, sleeve.right, puffed.left, puffed.right], type: raw}}
`
	g := deriveAsked(t, strings.Replace(sleeves, "DARTS", "", 1))
	g.is(t, 1e-5, map[string]float64{
		"piece.puffed.edge.head.length": 300, "piece.puffed.edge.wrist.length": 280, "piece.puffed.edge.left.length": 450,
		"piece.puffed.area": (240*450 + 22494.4438) / 100, "piece.sleeve.edge.head.length": 240,
	})
	g, _ = roomWith(t).desk().derive(t, head+strings.Replace(sleeves, "DARTS", ", darts: {head: {at: 118, width: 20, length: 90}}", 1))
	if len(g.Faults) != 2 || !strings.HasSuffix(g.Faults[1].Message, "the slash of puffed meets its head dart") {
		t.Errorf("faults: %v", g.Faults)
	}
}

// deriveAsked derives a build of two pieces of which no seam says how they lie to each
// other: that is asked, and nothing else is wrong.
func deriveAsked(t *testing.T, text string) *Garment {
	t.Helper()
	g, _ := roomWith(t).desk().derive(t, head+text+"\nusual: {truing: {angle: 180, lining: 5 m}}\n")
	if len(g.Faults) != 1 || !strings.HasSuffix(g.Faults[0].Message, "does it lie beside it or behind it") {
		t.Errorf("faults: %v", g.Faults)
	}
	return g
}

// A bodice front of 220 by 400 on the fold is lengthened by 25 above the waist: the fold
// and the side are 25 longer, and a bust level 300 up lies at 325. A dart at the side whose
// mouth lies below the slash stays where it is, one above it moves.
func TestSlashLengthensOnTheFold(t *testing.T) {
	g := deriveAsked(t, `
cloth: {shell: linen}
pieces:
  front:
    outline: {waist: [220, 0], side: [220, 400], neck: [0, 400], centre: fold}
    levels: {bust: 300, ribs: 60}
    darts: {side: [{at: 280, width: 20, length: 90, name: bust}, {at: 60, point: [100, 60], width: 16, name: low}]}
  longer: {like: front, change: {longer: {slash: centre at 200 from waist to side at 200 from waist, spread: 25}}}
finishes: {edge: {of: [front.waist, front.side, front.neck, longer.waist, longer.side, longer.neck], type: raw}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.longer.edge.centre.length": 425, "piece.longer.edge.side.length": 425, "piece.longer.edge.neck.length": 220})
	p := g.Pieces[1]
	for _, l := range p.AtLevels {
		if want := map[string]float64{"bust": 325, "ribs": 60}[l.Level]; l.Y != want {
			t.Errorf("%s lies at %v, want %v", l.Level, l.Y, want)
		}
	}
	for k, want := range []float64{305, 60} {
		if d := p.Darts[k].Plan; math.Abs((d.Begin.Y+d.End.Y)/2-want) > 1e-6 || math.Abs(d.Point.Y-want) > 1e-6 {
			t.Errorf("dart %d lies from %v to %v, want it at %v", k+1, d.Begin, d.Point, want)
		}
	}
}
