package derive

import (
	"math"
	"strings"
	"testing"
)

// A skirt of two panels with a band, worked by hand: the panels are 380 at the
// waist, so that the waist is 760; the band is 790, 30 of it lapped, and its open
// end goes once round 760. The hems are 460 each, 920 all round. The zip of 200
// opens the left side, √(40² + 600²) = 601.33 long.
const bandedSkirt = `
cloth: {shell: linen}
pieces:
  panel:
    of: shell
    cut: 2
    outline:
      hem: [460, 0]
      right: [420, 600]
      top: [40, 600]
      left: [0, 0]
  band: {of: shell, cut: 1, rectangle: [790, 40]}
  band facing: {like: band, of: shell}
  tie: {of: shell, cut: 2, rectangle: [60, 300]}
seams:
  sides: {join: [panel.left, panel.right], type: plain}
  waist: {join: [[band.bottom], [panel.top]], overlap: 30, type: plain-to-one-side}
  band top: {join: [band.top, band facing.top], type: enclosed, allowance: 15}
finishes:
  hem: {of: panel.hem, type: double-turned-hem, depth: 20}
notions:
  zip: {length: 200, along: panel.left, where: side}
`

// TestWhatANotionIs: a zip opens its edge by whatever name, and what only has the
// word in its name does not.
func TestWhatANotionIs(t *testing.T) {
	for notion, want := range map[string]string{
		"skirt zip: {":              "; one slit at panel left",
		"the long one: {what: zip,": "; one slit at panel left",
		"zip stay: {":               "",
	} {
		g := deriveClean(t, roomWith(t), strings.Replace(bandedSkirt, "zip: {", notion, 1))
		if _, slit, _ := strings.Cut(g.OpeningWords(), "; "); (slit != "") != (want != "") || want != "" && "; "+slit != want {
			t.Errorf("%s: %q, not with %q", notion, g.OpeningWords(), want)
		}
	}
}

func TestOpenings(t *testing.T) {
	build := strings.Replace(bandedSkirt, "top: [40, 600]", "top: {to: [40, 600], level: waist}", 1)
	build = strings.Replace(build, "hem: [460, 0]", "hem: {to: [460, 0], allowance: 40}", 1)
	g := deriveClean(t, roomWith(t), build)
	if got, want := g.OpeningWords(), "two openings: waist, hem; one slit at panel left"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for id, want := range map[string]float64{"opening.waist": 760, "opening.hem": 920, "slit.panel-left": 200} {
		if got := g.find(t, id).Value.Number; math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.2f, not %.2f", id, got, want)
		}
	}
	if got, want := g.LooseWords(), "band facing.bottom; in no seam: tie"; got != want {
		t.Errorf("loose are %q, not %q", got, want)
	}
}

// TestLacedStays: a busk and a laced back close the edges they are sewn to, so
// that two halves are one garment with two slits: each 300 long, round 2 × (120 + 80).
func TestLacedStays(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 2, outline: {bottom: [110, 0], right: [120, 300], top: {to: [0, 300], level: bust}, left: [0, 0]}}
  back: {of: shell, cut: 2, outline: {bottom: [70, 0], right: [70, 300], top: {to: [-10, 300], level: bust}, left: [0, 0]}}
seams: {sides: [front.right, back.left]}
finishes: {edges: {of: [front.top, front.bottom, back.top, back.bottom], type: bound-edge}}
notions: {busk: {length: 280, along: front.left}, eyelets: {count: 12, along: back.right}}
`)
	if got, want := g.OpeningWords(), "two openings: bottom, bust; two slits at front left and back right"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for id, want := range map[string]float64{"level.bust.finished": 400, "opening.bust": 400, "slit.front-left": 300, "slit.back-right": 300} {
		if got := g.find(t, id).Value.Number; math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.2f, not %.2f", id, got, want)
		}
	}
}

// TestLooseEdge: an edge that was forgotten among finished ones is told where it is
// drawn, and not in a record that has not come so far.
func TestLooseEdge(t *testing.T) {
	const dress = `
cloth: {shell: linen}
pieces:
  front:
    of: shell
    cut: 1 on fold
    outline:
      hem: [240, 0]
      side: [240, 600]
      armhole: [180, 800]
      shoulder: [100, 820]
      neck: [0, 740]
      fold: fold
  back: {like: front}
seams:
  sides: {join: [front.side, back.side], type: plain}
  shoulders: {join: [front.shoulder, back.shoulder], type: plain}
finishes:
  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 10}
  armholes: {of: [front.armhole, back.armhole], type: double-turned-hem, depth: 5}
  front neck: {of: front.neck, type: double-turned-hem, depth: 5}
`
	g, faults := roomWith(t).desk().derive(t, head+dress)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	var told []string
	for _, f := range g.Faults {
		if strings.HasSuffix(f.Message, looseEdge) {
			told = append(told, f.String())
		}
	}
	if len(told) != 1 || !strings.Contains(told[0], "back.neck is joined to nothing") {
		t.Errorf("told of loose edges: %q", told)
	}
	begun, _, _ := strings.Cut(dress, "finishes:")
	g, _ = roomWith(t).desk().derive(t, head+begun)
	for _, f := range g.Faults {
		if strings.HasSuffix(f.Message, looseEdge) {
			t.Errorf("a record without finishes is told of %s", f)
		}
	}
	if got, want := g.OpeningWords(), "four openings: neck, two armholes, hem"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
}

// TestTwoCuffs: each of two cuffs of 260 laps 20 over its sleeve of 240, and its open
// end is 240 round, at the cuff's other edge as well.
func TestTwoCuffs(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  sleeve: {cut: 2, rectangle: [240, 500], edges: {bottom: {name: end}, top: {name: head}}}
  cuff: {cut: 2, rectangle: [260, 60], edges: {bottom: {name: wrist, level: wrist}}}
seams:
  sleeves: [sleeve.right, sleeve.left]
  cuffs: {join: [cuff.top, sleeve.end], overlap: 20}
finishes: {edges: {of: [cuff.wrist, sleeve.head], type: bound-edge}}
`)
	if got, want := g.OpeningWords(), "four openings: two wrists, two heads"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for id, want := range map[string]float64{"level.wrist.finished": 240, "opening.wrist": 240, "opening.wrist-2": 240, "seam.cuffs.total": 0.48} {
		if got := g.find(t, id).Value.Number; math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.2f, not %.2f", id, got, want)
		}
	}
}

// TestLapOfABand: a band of 790 laps 30 over panels of 760: at either of its edges the
// waist is 760.
func TestLapOfABand(t *testing.T) {
	for _, edge := range []string{"bottom", "top"} {
		band := strings.Replace(bandedSkirt, "rectangle: [790, 40]}\n", "rectangle: [790, 40], edges: {"+edge+": {level: waist}}}\n", 1)
		g, _ := roomWith(t).desk().derive(t, head+band)
		if v := g.level(t, "waist").Finished.Value; math.Abs(v.Number-760) > 0.01 {
			t.Errorf("at its %s the waist is %v %s", edge, v, v.Why)
		}
	}
}

// TestButtonedFrontLaps: a front of 320 whose buttons stand 30 inside its edge laps 30 on
// either side; the hem goes round 2 · 320 + 2 · 340 − 2 · 30 = 1260, and so does the hip.
func TestButtonedFrontLaps(t *testing.T) {
	const back = "{cut: 1 on fold, outline: {hem: [340, 0], side: [340, 700], top: [0, 700], centre: fold}, levels: {hip: 400}}"
	for _, pieces := range []string{
		"  front: {cut: 2, outline: {hem: [320, 0], side: [320, 700], top: [0, 700], edge: [0, 0]}, levels: {hip: 400}}\n  back: " + back,
		"  front: {cut: 2, rectangle: [320, 700], edges: {bottom: {name: hem}, right: {name: side}, left: {name: edge}}, levels: {hip: 400}}\n  back: " + back,
	} {
		g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
`+pieces+`
seams: {sides: [front.side, back.side]}
finishes:
  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 20}
  tops: {of: [front.top, back.top], type: bound-edge}
  edges: {of: front.edge, type: bound-edge}
notions: {buttons: {along: 30 inside front.edge, first: 20 from top, last: 20 from hem, count: 5, size: 15}}
`)
		for id, want := range map[string]float64{"opening.hem": 1260, "level.hip.finished": 1260} {
			if got := g.find(t, id).Value.Number; math.Abs(got-want) > 0.01 {
				t.Errorf("%s is %.2f, not %.2f", id, got, want)
			}
		}
	}
}

// TestClosedAtBothEnds: two rectangles of 500 that are joined by nothing but the buttons at
// both their ends, 20 inside, go round 2 · 500 − 4 · 20 = 920 with two slits of 300.
func TestClosedAtBothEnds(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  half: {cut: 2, rectangle: [500, 300], levels: {hip: 150}}
finishes:
  edges: {of: [half.bottom, half.top, half.left, half.right], type: bound-edge}
notions:
  buttons: {along: 20 inside half.left, first: 20 from top, last: 20 from bottom, count: 3, size: 15}
  more buttons: {along: 20 inside half.right, first: 20 from top, last: 20 from bottom, count: 3, size: 15}
`)
	if got, want := g.OpeningWords(), "two openings: bottom, top; two slits at half left and half right"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for id, want := range map[string]float64{"opening.bottom": 920, "opening.top": 920, "level.hip.finished": 920} {
		if got := g.find(t, id).Value.Number; math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.2f, not %.2f", id, got, want)
		}
	}
}
