package derive

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// A skirt drawn as it lies folded, worked by hand. The front has two box pleats 40 deep,
// each of which takes 4 × 40 = 160: it opens from 372 to 372 + 2 × 160 = 692. Each has
// two folds, and each fold is stitched from the waist at 600 down to the hip at 420, 180:
// 4 × 180 = 0.72 m. The back has three knife pleats 20 deep that take 2 × 20 each: 372 +
// 120 = 492, stitched 60: 0.18 m (pattern width = section + 2 × depth × folds: CITS Dress
// Making, Trade Practical vol. 2, National Instructional Media Institute, pages 203, 204).
// At the hip the front is closed and the back open: 372 + 492 = 864; at the knee both are
// open: 692 + 492 = 1184. A notch drawn 200 from where the waist begins, which runs from
// right to left, lies beyond one box pleat: 200 + 160 = 360.
const pleatedSkirt = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front:
    cut: 1
    rectangle: [372, 600]
    allowance: 10
    edges: {top: waist, bottom: hem}
    levels: {hip: 420, knee: 100}
    notches: {waist: {at: 200, name: middle}}
    pleats: {waist: {kind: box, count: 2, depth: 40, stitched: to hip}}
  back:
    cut: 1
    rectangle: [372, 600]
    allowance: 10
    edges: {top: waist, bottom: hem}
    levels: {hip: 420, knee: 100}
    pleats: {waist: {count: 3, depth: 20, towards: right, stitched: 60}}
seams:
  left side: [front.right, back.left]
  right side: [front.left, back.right]
finishes:
  hem: {of: [front.hem, back.hem], type: raw}
  waist: {of: [front.waist, back.waist], type: raw}
`

func TestPleatedSkirt(t *testing.T) {
	g := deriveClean(t, roomWith(t), pleatedSkirt)
	g.is(t, 1e-5, map[string]float64{
		"piece.front.edge.waist.length": 692, "piece.front.edge.waist.intake": 320, "piece.front.edge.waist.sewn": 372, "piece.front.edge.hem.length": 692,
		"piece.back.edge.waist.length": 492, "piece.back.edge.waist.sewn": 372, "piece.front.area": 692 * 600 / 100, "piece.front.width": 692 + 20,
		"piece.front.pleats": 0.72, "piece.back.pleats": 0.18, "level.waist.finished": 744, "level.hip.finished": 864, "level.knee.finished": 1184,
	})
	front := g.Pieces[0]
	if at := front.NotchesAlong()[0].Along; math.Abs(at-360) > 1e-9 { // 200 as drawn, beyond one box pleat
		t.Errorf("the notch lies %v along", at)
	}
	// Box pleats in the middle of either half, 93 and 279 from the right, faces 80 wide.
	// Laid open from the right: the place at 93 − 40 = 53, folds at 53 + 80 = 133 and 213,
	// the other place at 293; then 160 farther than drawn, 239 + 160 = 399 and so on.
	want := [][2]float64{{53, 133}, {293, 213}, {399, 479}, {639, 559}}
	for k, q := range front.PleatFolds {
		_, most := front.Outline.Bounds()
		if right := most.X; math.Abs(right-q.Lines.Place[0].X-want[k][0]) > 1e-6 || math.Abs(right-q.Lines.Outer[0].X-want[k][1]) > 1e-6 || q.Stitched != 180 {
			t.Errorf("fold %d: place %v, fold %v of %v, stitched %v", k+1, right-q.Lines.Place[0].X, right-q.Lines.Outer[0].X, want[k], q.Stitched)
		}
	}
	said := strings.Join(append(front.PleatWords(measure.Style{}), g.Pieces[1].PleatWords(measure.Style{})...), "; ")
	if said != "waist: 2 box pleats 40 mm deep, stitched down 180 mm; waist: 3 knife pleats 20 mm deep, stitched down 60 mm" {
		t.Errorf("said: %s", said)
	}
}

// A growth tuck 10 deep across a panel 300 long takes 20 of its length, and is sewn all
// across, 200; both sides are 20 longer as cut and 300 as sewn, and let out the panel is
// 320 long (letting out one growth tuck of depth t lengthens by 2 t: geometry). A level
// above it lies 20 higher.
func TestGrowthTuck(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {white: white}
pieces:
  panel: {cut: 1, allowance: 10, rectangle: [200, 300], levels: {hip: 200}, pleats: {right: {kind: growth tuck, depth: 10, at: 100}}}
seams: {round: [panel.left, panel.right]}
finishes: {hem: {of: [panel.bottom, panel.top], type: raw}}
`)
	g.is(t, 1e-5, map[string]float64{
		"piece.panel.edge.right.length": 320, "piece.panel.edge.right.sewn": 300, "piece.panel.edge.left.length": 320, "piece.panel.edge.left.sewn": 300,
		"piece.panel.pleats": 0.2, "level.hip.finished": 200, "piece.panel.area": 200 * 320 / 100,
	})
	if y := g.Pieces[0].AtLevels[0].Y; y != 220 {
		t.Errorf("the hip lies at %v", y)
	}
}

// The back of a shirt cut on the fold, with a box pleat 20 deep at the centre. In the half
// its face is 20 wide and one fold takes 40: 213 + 40 = 253. After a round of fitting it is
// 25 deep, in the half 213 + 50 = 263, and stitched 30 down, once in either half.
func TestPleatAtTheFoldFollowsARound(t *testing.T) {
	back := `
cloth: {shell: linen}
thread: {white: white}
pieces:
  back:
    allowance: 10
    outline: {hem: [213, 0], side: [213, 680], yoke: [0, 680], centre: fold}
    pleats: {yoke: {kind: box, at: centre, depth: 20, stitched: 60}}
  lining: {like: back}
finishes:
  hem: {of: [back.hem, back.yoke, back.side, lining.hem, lining.yoke, lining.side], type: raw}
`
	g := deriveClean(t, roomWith(t), back)
	g.is(t, 1e-5, map[string]float64{"piece.back.edge.yoke.length": 253, "piece.back.edge.yoke.sewn": 213, "piece.back.pleats": 0.12})
	g = deriveClean(t, roomWith(t), back+`
fittings:
  - {day: 2026-03-01, saw: it opens half way, agreed: both, change: {back.yoke pleat: {depth: 25, stitched: 30}}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.back.edge.yoke.length": 263, "piece.back.edge.yoke.sewn": 213, "piece.lining.edge.yoke.length": 263, "piece.back.pleats": 0.06})
}

// The front of a top on the fold with a box pleat 20 deep at the centre of its curved neck:
// what goes under meets behind the centre, straight across, though 20 along the curve are
// less than that. In the half the hem goes on by the two depths of a fold, 222 + 40 = 262,
// and the neck is sewn as long as it was; after a round 25 deep, 222 + 50 = 272.
func TestPleatAtACurvedNeck(t *testing.T) {
	front := `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front:
    allowance: 10
    outline: {hem: [222, 0], side: [218, 590], shoulder: [92, 625], neck: {to: [0, 525], curve: [[73.5, 573.2], [50, 525]]}, centre: fold}
`
	finish := `
finishes:
  raw: {of: [front.hem, front.side, front.shoulder, front.neck], type: raw}
`
	neck := deriveClean(t, roomWith(t), front+finish).find(t, "piece.front.edge.neck.length").Value.Number
	front += "    pleats: {neck: {kind: box, at: centre, depth: 20, stitched: 60}}\n" + finish
	g := deriveClean(t, roomWith(t), front)
	g.is(t, 1e-5, map[string]float64{"piece.front.edge.hem.length": 262, "piece.front.edge.neck.sewn": neck, "piece.front.pleats": 0.12})
	g = deriveClean(t, roomWith(t), front+`
fittings:
  - {day: 2026-03-01, saw: it pulls, agreed: both, change: {front.neck pleat: {depth: 25}}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.front.edge.hem.length": 272, "piece.front.edge.neck.sewn": neck})
}

// A check repeats every 100 as it is bought and shrinks by 9 % across, to 91 as it is cut.
// Twelve repeats of 91 are 1092; six box pleats with two repeats each that close to 365
// take (1092 − 365) ÷ 24 = 30.29 each. Two of their folds, 60.58, fit behind the 60.83
// from one to the next. Closed to 360 they do not: 30.5 deep and 60 apart.
func TestPleatsToTheRepeat(t *testing.T) {
	skirt := func(into string) string {
		return `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front:
    cut: 1
    rectangle: [12 repeats, 560]
    allowance: 10
    pleats: {top: {kind: box, count: 6, every: 2 repeats, drawn: true, into: ` + into + `}}
seams: {back: [front.left, front.right]}
finishes: {hem: {of: [front.bottom, front.top], type: raw}}
`
	}
	room := func() *testRoom { return roomWith(t).file("content/cloth/linen.yaml", checked) }
	g := deriveClean(t, room(), skirt("365"))
	g.is(t, 1e-5, map[string]float64{"piece.front.edge.top.length": 1092, "piece.front.edge.top.sewn": 365})
	if d := g.Pieces[0].PleatFolds[0].Depth; math.Abs(d-727.0/24) > 1e-9 {
		t.Errorf("each is %v deep", d)
	}
	g, _ = room().desk().derive(t, head+skirt("360"))
	found := false
	for _, f := range g.Faults {
		found = found || strings.HasPrefix(f.Message, "pleats overlap behind by 1.0 mm: 30.5 mm deep, 60.0 mm apart once folded") && f.Hint == "depth at most 30"
	}
	if !found {
		t.Errorf("faults: %v", g.Faults)
	}
}

const checked = "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 1400\nselvedge: 10\nshrink: {along: 4, across: 9}\nrepeat: {across: 100, along: 125}\n"

// A kilt is pleated to the sett where each pleat takes up one whole repeat: with one of
// 13 1/2 in and 3/4 in of it seen, each of 27 goes (13.5 − 0.75) ÷ 2 = 6.375 in deep, and
// they take 27 × 13.5 = 364.5 in, 10.1 yd, of which 27 × 0.75 = 20.25 in are seen (cloth:
// Half-repeat pleating, X Marks the Scot forum, 2011; depth: geometry). On a piece that is
// cut across the cloth its repeat along counts: 2 × 125 × 0.96 = 240 mm.
func TestPleatsToTheSett(t *testing.T) {
	g := deriveClean(t, roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 15000\nrepeat: {across: 13 1/2 in}\n"), `
cloth: {shell: linen}
units: in
pieces:
  back:
    cut: 1
    rectangle: [27 repeats, 24]
    allowance: 1/2
    pleats: {top: {count: 27, every: 1 repeat, drawn: true, into: 20 1/4}}
finishes: {edge: {of: [back.top, back.bottom, back.left, back.right], type: raw}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.back.edge.top.length": 364.5 * 25.4, "piece.back.edge.top.sewn": 20.25 * 25.4})
	if q := g.Pieces[0].PleatFolds; len(q) != 27 || math.Abs(q[0].Depth-6.375*25.4) > 1e-9 {
		t.Errorf("%d folds, %v deep", len(q), q[0].Depth)
	}
	g = deriveClean(t, roomWith(t).file("content/cloth/linen.yaml", checked), `
cloth: {shell: linen}
pieces: {band: {cut: 1, grain: across, rectangle: [2 repeats, 1 repeat]}}
finishes: {edge: {of: [band.top, band.bottom, band.left, band.right], type: raw}}
`)
	g.is(t, 1e-5, map[string]float64{"piece.band.edge.top.length": 240, "piece.band.edge.left.length": 91})
}

// Six box pleats of two repeats each, 91 long, close 1092 to 365 at the waist and to 515 at
// the hip, 200 below it. At the waist each fold goes (1092 − 365) ÷ 24 = 30.2917 under, at
// the hip (1092 − 515) ÷ 24 = 24.0417 (cloth to take up is found apart at waist and hip: I.
// D. Conover, A Complete Course in Dressmaking, vol. 5, 1922, scan p. 67). The first pleat's
// middle lies 91 from the side, its places 3 × 30.2917 = 90.875 from that, straight on the
// grain; the fold comes from 0.125 + 2 × 30.2917 = 60.7083 at the waist to 0.125 + 2 ×
// 24.0417 = 48.2083 at the hip, and runs straight from there.
func TestTaperingPleats(t *testing.T) {
	skirt := `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front:
    cut: 1
    rectangle: [12 repeats, 560]
    allowance: 10
    edges: {top: waist, bottom: hem}
    levels: {hip: 360, knee: 100}
    pleats: {waist: {kind: box, count: 6, every: 2 repeats, drawn: true, into: {waist: 365, hip: 515}, stitched: to hip}}
  back: {like: front}
seams: {left side: [front.right, back.left], right side: [front.left, back.right]}
finishes: {hem: {of: [front.hem, back.hem], type: raw}, waist: {of: [front.waist, back.waist], type: raw}}
`
	g := deriveClean(t, roomWith(t).file("content/cloth/linen.yaml", checked), skirt)
	g.is(t, 1e-5, map[string]float64{
		"piece.front.edge.waist.sewn": 365, "level.waist.finished": 730, "level.hip.finished": 1030, "level.knee.finished": 2184,
		"piece.front.pleats": 12 * 0.2,
	})
	p := g.Pieces[0]
	if len(p.PleatFolds) != 12 {
		t.Fatalf("%d folds", len(p.PleatFolds))
	}
	lowest := p.PleatFolds[0] // the waist runs from right to left
	for k, want := range map[string][]float64{"place": {0.125, 0.125}, "fold": {60.708333, 48.208333, 48.208333}} {
		line := lowest.Lines.Place
		if k == "fold" {
			line = lowest.Lines.Outer
		}
		if len(line) != len(want) {
			t.Fatalf("%s: %v", k, line)
		}
		for i, x := range want {
			if math.Abs(1092-line[i].X-x) > 1e-5 {
				t.Errorf("%s bends at %v from the right, want %v", k, 1092-line[i].X, x)
			}
		}
	}
	if said := strings.Join(p.PleatWords(measure.Style{}), "; "); said != "waist: 6 box pleats 30 mm deep, tapering to 24 mm at hip, stitched down 200 mm" {
		t.Errorf("said: %s", said)
	}
}

// TestPleatsRunOut: a wrist drawn 300 wide has two pleats of 15, 110 and 155 from where it
// begins: it closes to 300 − 4 × 15 = 240. They run out 120 above it: place and fold meet there,
// so that the cloth at the elbow, 200 above, is as wide as it is drawn. A cuff is as long as
// what they close to. What is like the sleeve has them too; a round lets them run to the elbow.
func TestPleatsRunOut(t *testing.T) {
	const sleeve = `
pieces:
  sleeve:
    cut: 2
    outline: {from: [-150, 0], wrist: [150, 0], underarm front: [150, 400], head: [-150, 400], underarm back: [-150, 0]}
    levels: {elbow: 200}
    pleats: {wrist: {count: 2, depth: 15, first: 110 from underarm back, every: 45, towards: underarm back, drawn: true, runs: 120}}
  sleeve lining: {like: sleeve, of: lining}
  cuff: {cut: 2, band: 60}
cloth: {shell: linen, lining: linen}
seams: {cuffs: [sleeve.wrist, cuff.bottom]}
`
	g, faults := roomWith(t).desk().derive(t, head+sleeve)
	for _, f := range append(faults, g.Faults...) {
		t.Errorf("fault: %s", f)
	}
	g.is(t, 1e-6, map[string]float64{"piece.sleeve.edge.wrist.sewn": 240, "piece.sleeve-lining.edge.wrist.sewn": 240, "piece.cuff.edge.bottom.length": 240})
	for _, p := range g.Pieces[:2] {
		if len(p.PleatFolds) != 2 {
			t.Fatalf("%s has %d folds", p.Name, len(p.PleatFolds))
		}
		for k, at := range []float64{110, 155} {
			l := p.PleatFolds[k].Lines
			place, end, fold := shape.Point{X: at - 150}, shape.Point{X: at - 150, Y: 120}, shape.Point{X: at - 120}
			if l.Place[0].Apart(place) > 1e-6 || l.Place[1].Apart(end) > 1e-6 || l.Outer[0].Apart(fold) > 1e-6 || l.Outer[1].Apart(end) > 1e-6 || len(l.Outer) != 2 {
				t.Errorf("%s, pleat %d: %v", p.Name, k+1, l)
			}
		}
		if said := strings.Join(p.PleatWords(measure.Style{}), "; "); said != "wrist: 2 knife pleats 15 mm deep, running out 120 mm inside the edge" {
			t.Error(said)
		}
	}
	round := sleeve + "fittings:\n  - {day: 2027-01-02, saw: It pulls., change: {sleeve.wrist pleat: {runs: to elbow}}}\n"
	g, faults = roomWith(t).desk().derive(t, head+round)
	for _, f := range append(faults, g.Faults...) {
		t.Errorf("fault: %s", f)
	}
	if end := g.Pieces[0].PleatFolds[1].Lines.Outer[1]; end.Apart(shape.Point{X: 5, Y: 200}) > 1e-6 {
		t.Errorf("after the round the second fold ends at %v", end)
	}
	for old, c := range map[string][2]string{
		"runs: 120":       {"runs: 520", "pleats on sleeve.wrist that run in 520 mm leave the piece"},
		"drawn: true, ":   {"", "pleats that run out within sleeve leave the rest as wide as it is drawn"},
		"runs: 120}":      {"runs: 120, stitched: 150}", "the pleats on sleeve.wrist are 120 mm long, stitched: says 150 mm"},
		"drawn: true, r":  {"drawn: true, stitched: all, r", "tucks keep one depth all their length"},
		"runs: to elbow":  {"runs: to elbows", `"elbows" is no level of sleeve`},
		"runs: to elbow}": {"stitched: 130}", "the pleats on sleeve.wrist are 120 mm long, stitched: says 130 mm"},
	} {
		was := sleeve
		if !strings.Contains(was, old) {
			was = round
		}
		g, faults := roomWith(t).desk().derive(t, head+strings.Replace(was, old, c[0], 1))
		if all := append(faults, g.Faults...); !slices.ContainsFunc(all, func(f fault.Fault) bool { return strings.Contains(f.Message, c[1]) }) {
			t.Errorf("%s: want %q, told %v", c[0], c[1], all)
		}
	}
}

// TestPleatAsDeepAsItsNeck: a box pleat at the centre of a neck that is 92 wide from the fold
// is told how deep it can be, where it goes under exactly as much as lies there, or more.
func TestPleatAsDeepAsItsNeck(t *testing.T) {
	for _, depth := range []string{"92", "120"} {
		g, faults := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen}
pieces:
  front:
    allowance: 10
    outline: {hem: [222, 0], side: [218, 590], shoulder: [92, 625], neck: {to: [0, 525], curve: [[73.5, 573.2], [50, 525]]}, centre: fold}
    pleats: {neck: {kind: box, at: centre, depth: `+depth+`}}
finishes:
  raw: {of: [front.hem, front.side, front.shoulder, front.neck], type: raw}
`)
		if all := append(faults, g.Faults...); !slices.ContainsFunc(all, func(f fault.Fault) bool { return strings.HasPrefix(f.Hint, "depth at most 91.") }) {
			t.Errorf("%s deep: %v", depth, all)
		}
	}
}

// TestShallowPleatMadeDeeper: an old pleat of 2 that a fitting made 6.5 deep was one; made
// 25 deep it was written in centimetres.
func TestShallowPleatMadeDeeper(t *testing.T) {
	const lining = `
cloth: {shell: linen}
pieces:
  back: {cut: 1, rectangle: [400, 600], pleats: {top: {kind: inverted, at: middle, depth: 2}}}
fittings:
  - {day: 2026-08-09, saw: tight, change: {back.top pleat: {depth: NOW}}}
`
	for now, asked := range map[string]bool{"6.5": false, "25": true, "3": true} {
		g, _ := roomWith(t).desk().derive(t, head+strings.Replace(lining, "NOW", now, 1))
		if got := slices.ContainsFunc(g.Faults, func(f fault.Fault) bool { return strings.Contains(f.Message, "little for a pleat") }); got != asked {
			t.Errorf("made %s deep: asked about %t (%v)", now, got, g.Faults)
		}
	}
}
