package derive

import (
	"math"
	"testing"
)

// A frill of 5.40 m for 1.80 m, three times as full, and one of 4 m reduced to 2/5, 1.60 m:
// 2.5 times (CITS Dress Making, Trade Practical vol. 2, National Instructional Media
// Institute, page 212). Two rows 1/4 in apart ("Technique: Straight Ruffle", Utah State
// University Extension): in an allowance of 15 they lie 3.175 and 9.525 beyond the seam.
const frilled = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  frill: {cut: 1, allowance: 15, grain: across, rectangle: [5400, 150], gathers: {top: 3}}
  other: {cut: 1, allowance: 15, grain: across, rectangle: [4000, 150], gathers: {top: {into: 1600, rows: 3}}}
  band: {cut: 1, allowance: 15, grain: across, rectangle: [1800, 40]}
  strip: {cut: 1, allowance: 15, grain: across, rectangle: [1600, 40]}
seams:
  frill: [frill.top, band.bottom]
  other: [other.top, strip.bottom]
finishes:
  edges: {of: [frill.left, frill.right, frill.bottom, other.left, other.right, other.bottom, band.left, band.right, band.top, strip.left, strip.right, strip.top], type: raw}
`

func TestFrillsAreGathered(t *testing.T) {
	g := deriveClean(t, roomWith(t), frilled)
	g.is(t, 1e-5, map[string]float64{
		"piece.frill.edge.top.intake": 3600, "piece.frill.edge.top.sewn": 1800, "piece.frill.edge.top.gathers.full": 3, "piece.frill.edge.top.gathers.sewn": 5.4,
		"piece.other.edge.top.sewn": 1600, "piece.other.edge.top.gathers.full": 2.5, "piece.other.edge.top.gathers.sewn": 4,
		// two rows along 5.4 and three along 4, and the seams and nothing else: × 1.25 above
		"thread.white.needle": (2*5.4 + 3*4 + 1.8 + 1.6) * 1.25,
	})
	lines := g.Pieces[0].Gathered[0].Lines
	if len(lines) != 2 || len(lines[0]) != 2 || math.Abs(lines[0][0].Y-153.175) > 1e-9 || math.Abs(lines[1][0].Y-159.525) > 1e-9 {
		t.Errorf("rows lie at %v", lines)
	}
}

// A panel of 800 shirred with five rows of elastic thread 10 apart, the first 20 inside its
// top, is drawn to half (common practice, no source): the top goes round 2 × 400, each row
// holds 0.4 m of elastic, on both panels 2 × 5 × 0.4 = 4 m. A round makes it 350 and six.
func TestShirring(t *testing.T) {
	const top = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  panel: {cut: 2 alike, allowance: 15, rectangle: [800, 400], edges: {top: {level: bust}}, gathers: {top: {elastic: true, rows: 5, apart: 10, inside: 20}}}
seams: {sides: [panel.left, panel.right]}
finishes: {edges: {of: [panel.top, panel.bottom], type: raw}}
`
	g := deriveClean(t, roomWith(t), top)
	g.is(t, 1e-5, map[string]float64{"piece.panel.edge.top.sewn": 400, "piece.panel.edge.top.gathers.elastic": 4, "piece.panel.edge.top.gathers.sewn": 1.6, "level.bust.finished": 800})
	lines := g.Pieces[0].Gathered[0].Lines
	if len(lines) != 5 || math.Abs(lines[4][0].Y-(400-60)) > 1e-9 {
		t.Errorf("rows lie at %v", lines)
	}
	g = deriveClean(t, roomWith(t), top+`
fittings:
  - {day: 2026-03-01, saw: too wide, agreed: both, change: {panel.top gathers: {into: 350, rows: 6}}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.panel.edge.top.sewn": 350, "piece.panel.edge.top.gathers.elastic": 4.2, "level.bust.finished": 700})
}

// TestGatheredIntoOverTheFold: an edge that runs on over the fold is both halves of it, a
// side each: the waist, 2 × 300, into 400 is 200 of the half, the side, 500, into 400 is 400.
func TestGatheredIntoOverTheFold(t *testing.T) {
	g := deriveClean(t, roomWith(t), `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1 on fold, outline: {from: [0, 0], hem: [300, 0], side: [300, 500], waist: [0, 500], centre: fold}, gathers: {waist: {into: 400}, side: {into: 400}}}
`)
	g.is(t, 0.005, map[string]float64{"piece.front.edge.waist.sewn": 200, "piece.front.edge.side.sewn": 400})
}
