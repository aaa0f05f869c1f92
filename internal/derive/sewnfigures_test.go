package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/record"
)

// TestWashedCloth: a square metre is weighed, and a metre is paid for, before the
// cloth is washed. 150 g/m² that shrinks 3 % and 2 % weighs 150 ÷ (0.97 × 0.98) =
// 157.80 g/m² afterwards; 245 g that shrinks 5 % and 4 %, 268.64 g. A metre of cloth
// a metre wide at 10.86 EUR of which 5 % go costs 10.86 ÷ 0.95 = 11.43 EUR.
func TestWashedCloth(t *testing.T) {
	for _, c := range []struct {
		cloth string
		mass  float64
		cost  string
	}{
		{"width: 1000\nweight: 150 g/m2\nprice: 10.86 EUR\nshrink: {along: 3, across: 2}\n", 157.80, "11.42 EUR"}, // ÷ 0.98 m ÷ 0.97
		{"width: 1000\nweight: 245 g/m2\nprice: 10.86 EUR\nshrink: {along: 5}\n", 257.89, "11.43 EUR"},
		{"width: 1000\nweight: 245 g/m2\nprice: 10.86 EUR\nshrink: {along: 5, across: 4}\n", 268.64, "11.91 EUR"}, // ÷ 0.96 m ÷ 0.95
		{"width: 1000\nweight: 245 g/m2\nweighed: washed\nprice: 10.86 EUR\nshrink: {along: 5, across: 4}\n", 245, "11.91 EUR"},
		{"width: 1000\nweight: 245 g/m2\nweighed: unwashed\nprice: 10.86 EUR\nshrink: {along: 5}\n", 257.89, "11.43 EUR"},
	} {
		r := roomWith(t).file("content/workroom.yaml", "name: Test workroom\ncurrency: EUR\n").
			file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\n"+c.cloth)
		g := deriveClean(t, r, "cloth: {shell: linen}\npieces: {all: {rectangle: [800, 1250], allowance: 0}}\n")
		g.is(t, 0.005, map[string]float64{"total.mass": c.mass})
		for _, kept := range g.PrivateFigures() {
			if f := kept.Open(record.ToTheMaker); f.ID == "cost.cloth.shell" && f.Value.Money.String() != c.cost {
				t.Errorf("%s: %s, not %s", c.cloth, f.Value.Money, c.cost)
			}
		}
	}
}

// TestLevelMeetsTheNext: a level of the front that meets the back's more than 5 higher
// or lower at the seam is told of, with how much.
func TestLevelMeetsTheNext(t *testing.T) {
	for back, told := range map[string]string{"400": "", "395.5": "", "409.9": "meets front at a height of 409.9 mm"} {
		g, _ := roomWith(t).desk().derive(t, head+`cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [480, 500], levels: {bust: 400}}
  back: {of: shell, cut: 1, rectangle: [480, 500], levels: {bust: `+back+`}}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
`)
		got := ""
		for _, f := range g.Faults {
			if strings.Contains(f.Message, "bust") {
				got += f.Message
			}
		}
		if (got == "") != (told == "") || !strings.Contains(got, told) {
			t.Errorf("a back at %s: %q", back, got)
		}
	}
}

// TestGodetInASlit: four gores of 200 with godets of 250 and 240 round their hem in
// the seams make a hem of 4 × (200 + 240) = 1760, and no corner of 180° is told of
// where a godet's hem and a gore's meet square.
func TestGodetInASlit(t *testing.T) {
	g := deriveClean(t, roomWith(t), godetSkirt)
	g.is(t, 0.01, map[string]float64{"level.hem.finished": 1760, "seam.gores.total": 1.8, "seam.godets.total": 1, "seam.other-side.total": 1, "opening.hem": 1760})
	for _, f := range g.Faults {
		if strings.Contains(f.Message, "hollow") || strings.Contains(f.Message, "point") {
			t.Error(f.Message)
		}
	}
}

const godetSkirt = `cloth: {shell: linen}
pieces:
  gore:
    cut: 4 alike
    rectangle: [200, 700]
    edges: {bottom: {name: hem, level: hem}, top: {name: waist}}
    notches: {right: {at: 250 from hem, name: head}, left: {at: 250 from hem, name: head}}
  godet: {cut: 4 alike, godet: {height: 250, hem: 240}, edges: {hem: {level: hem}}}
seams:
  gores: {join: [gore.right from head to waist, gore.left from head to waist], type: plain}
  godets: {join: [gore.right from hem to head, godet.left], type: plain}
  other side: {join: [gore.left from hem to head, godet.right], type: plain}
`

// TestLetOutOfASleeve: a sleeve of one plain seam, its allowances 13, gives 2 × (13 − 6)
// = 14 at wrist and upper arm: that of one arm, not of both.
func TestLetOutOfASleeve(t *testing.T) {
	g := deriveClean(t, roomWith(t), `cloth: {shell: linen}
pieces: {sleeve: {cut: 2, allowance: 13, rectangle: [300, 500], levels: {upper arm: 480, wrist: 20}}}
seams: {sleeves: {join: [sleeve.right, sleeve.left], type: plain, allowance: 13}}
`)
	for _, name := range []string{"upper arm", "wrist"} {
		if l := g.level(t, name); l.Finished.Value.Number != 300 || l.LetOut.Value.Number != 14 {
			t.Errorf("%s: %v, let out by %v %s", name, l.Finished.Value, l.LetOut.Value, l.LetOut.Value.Why)
		}
	}
}

// TestTaperedHemFolds: a leg that widens from 260 to 400 over 500 is 260 + 140 · 60 ÷ 500
// = 276.8 wide where the raw edge of a hem of 60 lies when it is turned up. So it is cut
// as wide there, and not 260 − 16.8 = 243.2, which was 33.6 too narrow once.
func TestTaperedHemFolds(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  leg: {cut: 1, allowance: 0, outline: {from: [-130, 0], hem: [130, 0], right: [200, 500], top: [-200, 500], left: [-130, 0]}}
finishes:
  hem: {of: leg.hem, type: single-turned-hem, depth: 60}
`)
	least, most := math.Inf(1), math.Inf(-1)
	for _, q := range g.Pieces[0].Cut.Ring {
		if math.Abs(q.Y+60) < 0.01 {
			least, most = math.Min(least, q.X), math.Max(most, q.X)
		}
	}
	if math.Abs(most-least-276.8) > 0.01 {
		t.Errorf("cut %.2f wide at the raw edge, not 276.80", most-least)
	}
}

// TestLevelThatIsGathered: two panels of 1000 gathered into a band of 730 that laps 30 are
// 700 round, and not 2000; two sleeves of 340 at the wrist, gathered into cuffs of 230 that
// lap 30, 200 each.
func TestLevelThatIsGathered(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  panel: {cut: 2 alike, rectangle: [1000, 600], edges: {top: {level: waist}}}
  band: {rectangle: [730, 30]}
  sleeve: {cut: 2, outline: {from: [-170, 0], wrist: {to: [170, 0], level: wrist}, front: [200, 420], head: [-200, 420], back: [-170, 0]}}
  cuff: {cut: 2, rectangle: [230, 60]}
seams:
  sides: [panel.right, panel.left]
  waist: {join: [band.bottom, panel.top], gather: 2.857, overlap: 30}
  underarms: [sleeve.front, sleeve.back]
  cuffs: {join: [cuff.bottom, sleeve.wrist], gather: 1.7, overlap: 30}
`)
	g.is(t, 0.01, map[string]float64{"level.waist.finished": 700, "level.wrist.finished": 200, "opening.wrist": 200})
	// What laps has nothing gathered to it: the band is sewn for 730 − 30, each cuff for 200,
	// and 2000 ÷ 700 and 340 ÷ 200 is how full they are.
	g.is(t, 0.001, map[string]float64{"seam.waist.total": 0.7, "seam.cuffs.total": 0.4, "seam.waist.fullness": 2.857, "seam.cuffs.fullness": 1.7})
}

// TestLetOutOfThreeFrenchSeams: three panels sewn to a ring by French seams of 6 and 9,
// trimmed to 3. Each of six edges keeps 9 + 3 = 12 and holds 2 · 3 + 1 = 7 of it: 6 · 5 =
// 30. Of plain seams 5 must stay in this workroom: 6 · (12 − 5) = 42. All of the second
// line and what lies beyond it, 60, was told once.
func TestLetOutOfThreeFrenchSeams(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nusual: {least-margin: 5}\n")
	g := deriveClean(t, r, `cloth: {shell: linen}
pieces: {panel: {cut: 3, rectangle: [300, 600], levels: {hip: 400}}}
seams: {panels: {join: [panel.right, panel.left], type: french, first: 6, trim: 3, second: 9}}
`)
	g.is(t, 1e-9, map[string]float64{"level.hip.finished": 900, "level.hip.let-out": 30, "level.hip.let-out-plain": 42})
}

// TestLapIsTakenOffOnce: fronts of 320 whose buttons stand 15 inside their edges lap by 30,
// and so does the band: 2 · 320 + 2 · 340 − 30 = 1290 at the waist, along the edge and
// along the band, and at the hip. 1260 were told once.
func TestLapIsTakenOffOnce(t *testing.T) {
	g := deriveClean(t, roomWith(t), `cloth: {shell: linen}
pieces:
  front: {cut: 2, outline: {hem: [320, 0], side: [320, 700], top: {to: [0, 700], level: waist}, edge: [0, 0]}, levels: {hip: 400}}
  back: {cut: 1 on fold, outline: {hem: [340, 0], side: [340, 700], top: {to: [0, 700], level: waist}, centre: fold}, levels: {hip: 400}}
  waistband: {band: {width: 40, folded: true, lap: 30}}
seams:
  sides: [front.side, back.side]
  band: {join: [waistband.bottom, [front.top, back.top]], type: band}
finishes:
  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 20}
  edges: {of: front.edge, type: bound-edge}
notions: {buttons: {along: 15 inside front.edge, first: 20 from top, last: 20 from hem, count: 5, size: 15}}
`)
	g.is(t, 0.01, map[string]float64{"level.waist.finished": 1290, "level.hip.finished": 1290})
}
