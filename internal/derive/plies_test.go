package derive

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/garment"
)

// A back and two fronts of 240 with a double yoke, in corners only. Yoke, half:
// 200 along its lower edge, 60 up the armhole, 120 along the shoulder, 80 of neck
// (elementary arithmetic).
const yoked = `
cloth: {shell: linen}
thread: {white: {colour: white}}
pieces:
  back:
    outline: {hem: [240, 0], side: [240, 260], armhole: [200, 400], yoke: [0, 400], centre: fold}
    levels: {chest: 200}
  yoke:
    outline: {lower: [200, 0], armhole: [200, 60], shoulder: [80, 60], neck: [0, 60], centre: fold}
  inner yoke: {like: yoke}
  front:
    cut: 2
    outline: {hem: [240, 0], side: [240, 260], armhole: [200, 400], shoulder: [80, 400], neck: [0, 330], edge: [0, 0]}
    levels: {chest: 200}
seams:
  sides: [front.side, back.side]
  back yoke: [yoke.lower, back.yoke, inner yoke.lower]
  front yoke: [front.shoulder, inner yoke.shoulder, yoke.shoulder]
`

func TestDoubleYokeSewn(t *testing.T) {
	g := deriveClean(t, roomWith(t), yoked)
	// Chest: 4 · 240 = 960, the yokes are not at it. Sewn: sides 2 · 260 = 520; the
	// back yoke once, 2 · 200 = 400, though three plies lie in it; the front yoke
	// 2 · 120 = 240: 1160 in all; the inner yoke is held half against half, 200. Both seams plain, one row through three plies. All
	// the edges in a seam are cut with 15, the usual.
	for _, c := range []struct {
		id   string
		want float64
	}{
		{"level.chest.finished", 960}, {"total.sewn", 1.16}, {"seam.back-yoke.total", 0.4}, {"seam.front-yoke.total", 0.24},
		{"seam.back-yoke.side-3", 200}, {"seam.back-yoke.side-3.beside", 200}, {"seam.back-yoke.difference-3", 0},
		{"piece.inner-yoke.edge.lower.allowance", 15},
	} {
		g.is(t, 1e-6, map[string]float64{c.id: c.want})
	}
	for _, r := range g.Rows {
		if n := len(g.RowsOf(r.Kind, r.Of)); n != 1 {
			t.Errorf("%s: %d rows", r.Of, n)
		}
	}
	for _, r := range roomWith(t).desk().tailor.Through(g.Garment) {
		want := map[string]float64{"sides": 2, "back yoke": 3, "front yoke": 3}[r.Row.Of]
		if got := r.Plies.Value.Number; got != want {
			t.Errorf("%s passes %v plies, not %v", r.Row.Of, got, want)
		}
	}
}

func TestPliesAgree(t *testing.T) {
	const inner, back = "inner yoke: {like: yoke}", "back yoke: [yoke.lower, back.yoke, inner yoke.lower]"
	for _, c := range []struct{ name, from, to, want, hint string }{
		// A half of the inner yoke is 195 below where the yoke has 200.
		{"shorter", inner, "inner yoke: {outline: {lower: [195, 0], armhole: [200, 60], shoulder: [80, 60], neck: [0, 60], centre: fold}}",
			"back yoke: inner yoke.lower is 5 mm shorter than yoke.lower, which it lies behind (195, 200)", "make both the same length"},
		// Two of the three have 15, one 10, and the seam takes 8.
		{"uneven", inner + "|" + back, "inner yoke: {like: yoke, edges: {lower: {allowance: 10}}}|back yoke: {join: [yoke.lower, back.yoke, inner yoke.lower], type: plain, allowance: 8}",
			"back yoke: yoke.lower has 8 mm of allowance, inner yoke.lower 10 mm", "give both the same allowance, or pin seam line to seam line"},
		// The seam takes 15 of each.
		{"too little", inner + "|" + back, "inner yoke: {like: yoke, edges: {lower: {allowance: 10}}}|back yoke: {join: [yoke.lower, back.yoke, inner yoke.lower], type: plain, allowance: 15}",
			"back yoke: it uses 15 mm a side, inner yoke.lower has 10 mm", "allowance: 15 at the edge, or a narrower seam"},
		// The fronts' hems, 240 and 240, on a strip of 480: they were to be sewn in a row.
		{"in a row", "seams:", "  strip: {cut: 1, rectangle: [480, 20]}\n  tab: {cut: 1, rectangle: [240, 20]}\n  flap: {cut: 1, rectangle: [240, 20]}\nseams:\n  below: [tab.bottom, flap.bottom, strip.top]",
			"below: edges sewn end to end stand in square brackets of their own", "write [[tab.bottom, flap.bottom], strip.top]"},
	} {
		build := yoked
		froms, tos := strings.Split(c.from, "|"), strings.Split(c.to, "|")
		for i := range froms {
			if !strings.Contains(build, froms[i]) {
				t.Fatalf("%s: no %q", c.name, froms[i])
			}
			build = strings.Replace(build, froms[i], tos[i], 1)
		}
		g, faults := roomWith(t).desk().derive(t, head+build)
		told := false
		for _, f := range append(faults, g.Faults...) {
			told = told || f.Message == c.want && f.Hint == c.hint
		}
		if !told {
			t.Errorf("%s: %v, want %q, %q", c.name, append(faults, g.Faults...), c.want, c.hint)
		}
	}
}

// A skirt of two panels of 400 with a waistband of two halves and its facing, all cut
// with 25 but the facing, which has 12; side seams plain.
const banded = `
cloth: {shell: linen}
pieces:
  panel: {cut: 2 alike, allowance: 25, rectangle: [400, 500], edges: {top: {level: waist}}}
  band: {cut: 2 alike, allowance: 25, rectangle: [400, 40]}
  band facing: {like: band, allowance: 12}
seams:
  sides: {join: [panel.right, panel.left], type: plain}
  band ends: {join: [band.right, band.left], type: plain}
  facing ends: {join: [band facing.right, band facing.left], type: plain}
  waist: {join: [panel.top, band.bottom, band facing.bottom], type: plain, allowance: 12}
  top: {join: [band.top, band facing.top], type: enclosed}
`

func TestBandWithItsFacing(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+banded)
	if len(g.Faults) != 1 || g.Faults[0].Message != "waist: band.bottom has 25 mm of allowance, band facing.bottom 12 mm" || len(g.Asked) > 0 {
		t.Errorf("faults %v, questions %v", g.Faults, g.Asked)
	}
	// Waist: 2 · 400 = 800, though two more lie there. Let out: two side seams of two
	// sides, 25 − 6 = 19 each: 76; the band's two ends 76 as well; the facing's ends
	// 12 − 6 = 6 each: 24. The least counts.
	g.is(t, 1e-6, map[string]float64{"level.waist.finished": 800})
	g.is(t, 1e-6, map[string]float64{"level.waist.let-out": 24})
}

const doubled = `
cloth: {shell: linen, fusing: linen}
pieces:
  body: {of: shell, rectangle: [400, 500]}
  stand: {of: [shell, fusing, shell], rectangle: [400, 30]}
  collar: {of: [shell, fusing, shell], rectangle: [400, 60]}
seams:
  back: {join: [body.left, body.right], type: plain, allowance: 10}
  neck: {join: [body.top, stand.bottom], type: plain, allowance: 10}
  collar: {join: [collar.bottom, stand.top], type: plain, allowance: 10}
finishes:
  hem: {of: body.bottom, type: double-turned-hem, depth: 20}
work:
  body: {sews: [back, hem], takes: 10 min}
  neck: 10 min
  collar: 20 min
`

func TestTwoPliesSewnAsOne(t *testing.T) {
	g := deriveClean(t, roomWith(t), doubled)
	// Allowances: 10 at every edge in a seam, 15 at the free ones. Stand as cut: 430 ·
	// 50 = 21 500 mm²; collar: 430 · (60 + 10 + 15 = 85) = 36 550. In the shell each
	// twice, in the fusing once: fusing 58 050 mm²; shell 116 100 and the body, 420 ·
	// (500 + 10 + 40) = 231 000: 347 100.
	g.is(t, 1e-6, map[string]float64{"cloth.fusing.pieces-cut": 0.05805})
	g.is(t, 1e-6, map[string]float64{"cloth.shell.pieces-cut": 0.3471})
	// Free edges: of the stand its two ends, 2 · 30 = 60; of the collar 2 · 60 + 400 =
	// 520. Sewn: back 500, neck 400, collar 400, hem 400, and those: 2280.
	g.is(t, 1e-6, map[string]float64{"piece.stand.turned": 0.06})
	g.is(t, 1e-6, map[string]float64{"piece.collar.turned": 0.52})
	g.is(t, 1e-6, map[string]float64{"total.sewn": 2.28})
	// Rows: the neck passes the body and the stand's three, the collar's seam twice
	// three, its free edges three.
	for _, r := range roomWith(t).desk().tailor.Through(g.Garment) {
		key := string(r.Row.Kind) + " " + r.Row.Of
		want := map[string]float64{"seam back": 2, "seam neck": 4, "seam collar": 6, "turning stand": 3, "turning collar": 3, "finish hem": 3}[key]
		if got := r.Plies.Value.Number; got != want {
			t.Errorf("%s passes %v plies, not %v", key, got, want)
		}
	}
	if len(g.Loose) > 0 {
		t.Errorf("loose: %v", g.Loose)
	}
	words := map[string]string{}
	for _, p := range g.Pieces {
		words[p.Name] = p.CutWords()
	}
	if words["stand"] != "cut 1: 2 in shell, 1 in fusing" || words["body"] != "cut 1 in shell" {
		t.Errorf("cut: %v", words)
	}
	// Its free edges are sewn where it is sewn first.
	k := slices.IndexFunc(g.Rows, func(r garment.Row) bool { return r.Kind == garment.TurnRow && r.Of == "collar" })
	if k < 0 || !slices.Equal(g.Rows[k].Steps(), []int{2}) {
		t.Errorf("the collar's free edges are not sewn in the step that sews the collar")
	}
}
