package derive

import (
	"strings"
	"testing"
)

const unequalRuns = `
cloth: {shell: linen}
pieces:
  gore: {of: shell, cut: 3, rectangle: [100, 400]}
  front: {of: shell, cut: 1, rectangle: [160, 400], edges: {top: {name: waist}}}
  side: {of: shell, cut: 2, rectangle: [70, 400], edges: {top: {name: waist}}}
  band:
    of: shell
    cut: 1 on fold
    outline:
      from: [0, 0]
      lower: [150, 0]
      back: [150, 40]
      upper: [0, 40]
      centre: {to: [0, 0], fold: true}
    notches: {lower: {at: AT NAME}}
  yoke: {of: shell, cut: 1, rectangle: [300, 50], notches: {top: [{at: 70}, {at: 231}]}}
seams: {waist: {join: JOIN, type: plain}}
`

func unequal(t *testing.T, at, name, join string) *Garment {
	t.Helper()
	if name != "" {
		name = ", name: " + name
	}
	g, _ := roomWith(t).desk().derive(t, head+strings.NewReplacer(" NAME", name, "AT", at, "JOIN", join).Replace(unequalRuns))
	return g
}

// TestUnequalRuns walks runs whose edges occur unequally often. A band of
// 2 × 150 on the fold, notched 52 from the fold, has its notches at
// 150 − 52 = 98 and 150 + 52 = 202.
func TestUnequalRuns(t *testing.T) {
	for _, c := range []struct {
		name, at, join string
		want           map[string]float64
	}{
		// Three gores of 100 meet at 100 and 200.
		{"equal panels", "52", "[band.lower, gore.top]", map[string]float64{
			"truing.waist.notch-1": -2, "truing.waist.notch-2": 2, "truing.waist.stretch-1": -2, "truing.waist.stretch-2": 4, "truing.waist.stretch-3": -2}},
		{"from the panels", "52", "[gore.top, band.lower]", map[string]float64{"truing.waist.notch-1": 2, "truing.waist.notch-2": -2}},
		// A side of 70, the front of 160, a side: they meet at 70 and 230.
		{"about a single front", "80", "[band.lower, [front.waist, side.waist]]", map[string]float64{
			"truing.waist.notch-1": 0, "truing.waist.notch-2": 0}},
		{"the front last", "82", "[band.lower, [side.waist, front.waist]]", map[string]float64{
			"truing.waist.notch-1": -2, "truing.waist.notch-2": 2}},
		// The yoke is walked as it lies beside the band: its notches are at 300 − 231 and 300 − 70.
		{"notch to notch", "82", "[band.lower, yoke.top]", map[string]float64{
			"truing.waist.notch-1": -1, "truing.waist.notch-2": 2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := unequal(t, c.at, "", c.join)
			g.is(t, 1e-6, c.want)
			if n := faultsSaying(g, "not compared from notch to notch"); n != 0 {
				t.Errorf("%v", g.Faults)
			}
		})
	}
}

// TestUnequalNotchNames: notches of one name meet one after the other.
func TestUnequalNotchNames(t *testing.T) {
	text := strings.NewReplacer(" NAME", ", name: side", "AT", "82", "JOIN", "[band.lower, yoke.top]", "at: 70", "at: 70, name: side", "at: 231", "at: 231, name: side").Replace(unequalRuns)
	g, _ := roomWith(t).desk().derive(t, head+text)
	g.is(t, 1e-6, map[string]float64{"truing.waist.notch-1": -1, "truing.waist.notch-2": 2})
	if c := g.Truing; len(c) == 0 || !strings.Contains(whatOf(g, "truing.waist.notch-2"), "notch side (2)") {
		t.Errorf("the second is called %q", whatOf(g, "truing.waist.notch-2"))
	}
	text = strings.Replace(text, ", {at: 231, name: side}", "", 1)
	g, _ = roomWith(t).desk().derive(t, head+text)
	if faultsSaying(g, `have 2 and 1 notches called "side"`) != 1 {
		t.Errorf("a missing notch is answered with %v", g.Faults)
	}
}

func whatOf(g *Garment, id string) string {
	for _, c := range g.Truing {
		if c.Off.ID == id {
			return c.What
		}
	}
	return ""
}

// TestNotWalked: where the order of a run is not known, that is told.
func TestNotWalked(t *testing.T) {
	text := strings.NewReplacer(" NAME", "", "AT", "80", "JOIN", "[band.lower, [gore.top, front.waist]], ease: 160, tolerance: 500").Replace(unequalRuns)
	text = strings.Replace(text, "rectangle: [160, 400], edges", "rectangle: [160, 400], notches: {top: 80}, edges", 1)
	g, _ := roomWith(t).desk().derive(t, head+text)
	if faultsSaying(g, `waist: not compared from notch to notch: nothing says how gore.top (3 times) and front.waist (once) follow each other`) != 1 {
		t.Errorf("it is answered with %v", g.Faults)
	}
}
