package derive

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/shape"
)

const fused = `
cloth: {shell: linen, fusing: {use: linen, allowance: 0}}
thread: {white: white}
usual: {allowance: 10}
pieces:
  front:
    cut: 2
    rectangle: [300, 600]
    lines: {slit: {from: bottom at 90, length: 120, slit: true}}
  pocket: {cut: 1, rectangle: [115, 130]}
  cuff: {of: [shell, fusing, shell], cut: 2, rectangle: [250, 65], edges: {top: 4}}
  stand: {of: [shell, fusing], cut: 1 on fold, outline: {lower: [200, 0], end: [190, 40], upper: [0, 40], centre: fold}}
  hole stay: {of: fusing, block: {behind: buttons, beyond: 8}}
  pocket stay: {of: fusing, block: pocket}
  slit stay: {of: fusing, block: {behind: front.slit, beyond: 12}}
  front stay: {of: fusing, border: {along: front.left, width: 30}}
seams: {pocket: {join: [pocket, left front], at: [100, 445]}, cuffs: {join: [cuff.left, cuff.right]}, side: [front.right, front.right]}
finishes: {slits: {of: front.slit, type: overlocked-edge}}
notions:
  buttons: {along: 18 inside front.left, first: 65 from top, last: 150 from bottom, count: 6, size: 11, holes: upright}
`

// TestFusing works interfacing by hand. A cuff of 250 by 65 and a stand are cut in the shell
// with 10 mm, of which the cuff's top has 4, and their fusing as large as the sewing line. A
// hole of 11 + 3 begins 3.175 beyond its place and ends 10.825 on the other side; with a
// button of 11 that reaches 5.5 beyond, the block behind both is 5.5 + 10.825 + 2 × 8 long and
// 11 + 2 × 8 wide: one behind each of 6 on both fronts, 12. The pocket's is 115 + 20 by 130 +
// 20, once; the slit's 120 + 12 by 24, as it ends at the edge; the strip 30 by 600. The hole
// is that of "Buttons and Buttonholes" (University of Minnesota Agricultural Extension, 1965),
// all else elementary geometry.
func TestFusing(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+fused)
	for _, f := range append(faults, g.Faults...) {
		if f.Severity == fault.Error {
			t.Errorf("fault: %s", f)
		}
	}
	named := map[string]*garment.Piece{}
	for _, p := range g.Pieces {
		named[p.Name] = p
	}
	for name, want := range map[string]struct {
		across, along float64
		many          int
	}{
		"fusing of cuff": {250, 65, 2}, "fusing of stand": {400, 40, 1}, "hole stay": {27, 32.325, 12},
		"pocket stay": {135, 150, 1}, "slit stay": {24, 132, 2}, "front stay": {30, 600, 2},
	} {
		p := named[name]
		if p == nil {
			t.Errorf("there is no %s", name)
			continue
		}
		if math.Abs(p.Width.Value.Number-want.across) > 1e-6 || math.Abs(p.Height.Value.Number-want.along) > 1e-6 || p.CutIn("fusing") != want.many || p.CutIn("shell") != 0 {
			t.Errorf("%s is %v by %v, %d of it; want %+v", name, p.Width.Value, p.Height.Value, p.CutIn("fusing"), want)
		}
	}
	if c := named["cuff"]; c.CutIn("fusing") != 0 || c.CutIn("shell") != 4 || math.Abs(c.Height.Value.Number-(65+10+4)) > 1e-6 {
		t.Errorf("the cuff is cut %d and %d times, %v long", c.CutIn("fusing"), c.CutIn("shell"), c.Height.Value)
	}
	g.is(t, 1e-6, map[string]float64{"piece.fusing-of-cuff.edge.top.allowance": 0})
	drawn := map[string]int{}
	for _, l := range named["front"].Lines {
		drawn[l.Place]++
		if l.Name == "pocket stay" {
			least, most := shape.Ring(l.Points).Bounds()
			if least.Apart(shape.Point{X: 90, Y: 305}) > 1e-6 || most.Apart(shape.Point{X: 225, Y: 455}) > 1e-6 || l.Hand != "left" {
				t.Errorf("the pocket's lies from %v to %v on the %s one", least, most, l.Hand)
			}
		}
	}
	if drawn["hole stay"] != 6 || drawn["pocket stay"] != 1 || drawn["slit stay"] != 1 || drawn["front stay"] != 1 {
		t.Errorf("drawn on the front: %v", drawn)
	}
	wide := strings.Replace(fused, "allowance: 0", "allowance: 6", 1)
	g, _ = roomWith(t).desk().derive(t, head+wide)
	g.is(t, 1e-6, map[string]float64{"piece.fusing-of-cuff.edge.top.allowance": 4, "piece.fusing-of-cuff.edge.bottom.allowance": 6, "piece.front-stay.edge.left.allowance": 6})
	for old, c := range map[string][2]string{
		"behind: buttons":    {"behind: butons", `there is no place "butons"`},
		"behind: front.slit": {"behind: front.slot", `"slot" is no line of front`},
		"block: pocket":      {"block: side", "side has no place that a block could lie behind"},
		"beyond: 8":          {"beyond: 60", "hole stay reaches"},
		"block: {behind: b":  {"rectangle: [20, 20], block: {behind: b", `the piece "hole stay" has 2 forms`},
	} {
		g, faults := roomWith(t).desk().derive(t, head+strings.Replace(fused, old, c[0], 1))
		if all := append(faults, g.Faults...); !slices.ContainsFunc(all, func(f fault.Fault) bool { return strings.Contains(f.Message, c[1]) }) {
			t.Errorf("%s: want %q, told %v", c[0], c[1], all)
		}
	}
}
