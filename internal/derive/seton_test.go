package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// A patch pocket worked by hand (geometry, exact). It is 115 wide and 130 high, its top is
// turned, and it is set on the left front with its upper left corner at (40, 260): it lies
// from 40 to 155 across and from 130 to 260 up. What is sewn is 130 + 115 + 130 = 375, once:
// 0.375 m; its place is 490 all round. Turned by 90° about that corner it lies from 40 to
// 170 across and from 260 up to 375, over the top, which is at 300, by 75. The row goes
// through what is turned in, the pocket and the front: three plies.
const patched = `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 2, rectangle: [200, 300], allowance: 10, lines: {centre: 18 inside right}}
  pocket: {cut: 1, allowance: 10, rectangle: [115, 130]}
seams:
  pocket: {join: [pocket, left front], at: [40, 260]}
finishes:
  pocket top: {of: pocket.top, type: turned-edge}
`

func TestPatchPocket(t *testing.T) {
	g := deriveClean(t, roomWith(t), patched)
	g.is(t, 1e-6, map[string]float64{"seam.pocket.side-1": 375, "seam.pocket.side-2": 375, "seam.pocket.length": 375, "seam.pocket.total": 0.375, "seam.pocket.difference": 0,
		"piece.front.line.pocket.length": 490, "piece.pocket.edge.left.allowance": 10})
	l := g.Pieces[0].Lines[1]
	least, most := shape.Ring(l.Points).Bounds()
	if least != (shape.Point{X: 40, Y: 130}) || most != (shape.Point{X: 155, Y: 260}) || l.Says() != "on the left one only" || l.Kind() != "place of" {
		t.Errorf("%s %s, %s, lies from %v to %v", l.Kind(), l.Name, l.Says(), least, most)
	}
	if g.Seams[0].Type.Name != "lapped-turned" || g.Seams[0].Times != 1 || len(g.Loose) != 0 && strings.Contains(g.LooseWords(), "pocket") {
		t.Errorf("%s, sewn %d times; loose: %s", g.Seams[0].Type.Name, g.Seams[0].Times, g.LooseWords())
	}
	net := g.Sewn.Net("outer")
	for i := range net.Laid { // the pocket lies in a group of its own, and is joined by a seam
		name, want := g.Sewn.Copies[net.Laid[i].Copy].Name, sewn.Body
		if name == "pocket" {
			want = sewn.Onto
		}
		if net.Laid[i].Group != want {
			t.Errorf("%s is drawn in group %d, want %d", name, net.Laid[i].Group, want)
		}
	}
	both := deriveClean(t, roomWith(t), strings.NewReplacer("left front", "front", "pocket: {cut: 1", "pocket: {cut: 2").Replace(patched))
	both.is(t, 1e-6, map[string]float64{"seam.pocket.total": 0.75})
	over, _ := roomWith(t).desk().derive(t, strings.Replace(patched, "at: [40, 260]", "at: [40, 260], angle: 90", 1))
	if f := over.Faults; len(f) == 0 || f[0].Message != "pocket reaches 75 mm over front.top" {
		t.Errorf("turned over the top: %v", f)
	}
}

// A pocket cut on the fold, half 80 wide and 120 high, lies about the fold of the front.
func TestPocketOnTheFold(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {white: white}
pieces:
  front: {cut: 1 on fold, rectangle: [200, 300], edges: {left: {fold: true}}}
  pocket: {cut: 1 on fold, rectangle: [80, 120], edges: {left: {fold: true}}}
seams:
  pocket: {join: [pocket, front], at: [-80, 200]}
`)
	g.is(t, 1e-6, map[string]float64{"seam.pocket.total": 0.56}) // 160 + 120 + 160 + 120
	least, most := shape.Ring(g.Pieces[0].Lines[0].Points).Bounds()
	if math.Abs(least.X+80) > 1e-6 || math.Abs(most.X-80) > 1e-6 || math.Abs(most.Y-200) > 1e-6 || math.Abs(least.Y-80) > 1e-6 {
		t.Errorf("it lies from %v to %v", least, most)
	}
}

// A round sets the pocket 20 lower and 6 further in, and turns it by 90° about its corner,
// so that it lies from 46 to 176 across and from 240 up to 355: too far; unturned it lies from
// 46 to 161 across and from 110 to 240 up. Before the round it lies as it was drawn.
func TestRoundMovesPocket(t *testing.T) {
	text := patched + "fittings:\n  - {day: 2027-01-04, saw: too high, agreed: maker, change: {pocket: {at: [46, 240]}}}\n"
	g := deriveClean(t, roomWith(t), text)
	least, most := shape.Ring(g.Pieces[0].Lines[1].Points).Bounds()
	if least != (shape.Point{X: 46, Y: 110}) || most != (shape.Point{X: 161, Y: 240}) {
		t.Errorf("it lies from %v to %v", least, most)
	}
	g.is(t, 1e-6, map[string]float64{"seam.pocket.total": 0.375})
	over, _ := roomWith(t).desk().derive(t, strings.Replace(text, "at: [46, 240]", "at: [46, 240], angle: 90", 1))
	if f := over.Faults; len(f) == 0 || f[0].Message != "pocket reaches 55 mm over front.top" {
		t.Errorf("turned over the top: %v", f)
	}
	along, _ := roomWith(t).desk().derive(t, strings.Replace(text, "at: [46, 240]", "at: left at 100", 1)) // 100 down that edge from the top
	if least, most := shape.Ring(along.Pieces[0].Lines[1].Points).Bounds(); least != (shape.Point{Y: 70}) || most != (shape.Point{X: 115, Y: 200}) {
		t.Errorf("set at a place on an edge it lies from %v to %v", least, most)
	}
	if said := garment.ChangeWords(&g.Build.Fittings[0].Change[0], measure.Style{}); said != "pocket set at 46 mm across, 240 mm up" {
		t.Errorf("said: %s", said)
	}
}
