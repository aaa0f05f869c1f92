package derive

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// pocketed is a skirt whose sides, 100 long, are open for a pocket along PART; its
// bags are as long as that.
const pocketed = `
usual: {truing: {angle: 100, step: 500}}
cloth: {shell: linen}
thread: {grey: grey}
pieces:
  front:
    cut: 2
    outline: {waist: [180, 0], side: [240, 80], top: [0, 80], centre: [0, 0]}
    levels: {hip: 20}
    notches: {side: [{at: 30, name: mouth}, {at: 70, name: end}]}
  back: {like: front}
  bag: {cut: 2, rectangle: [120, LONG]}
seams:
  sides: {join: [front.side, back.side], type: plain, allowance: 25}
  bags front: {join: [front.side PART, bag.left], type: plain}
  bags back: {join: [back.side PART, bag.right], type: plain}
lengths: {side: front.side}
`

// TestPartOfAnEdge: the seam of the whole edge stops where the part begins, and
// lengths, allowances and thread follow; by hand.
func TestPartOfAnEdge(t *testing.T) {
	for _, c := range []struct {
		part, id   string
		long, rest float64
	}{
		{"from waist for 60", "from-waist-for-60", 60, 40},
		{"from top for 60", "from-top-for-60", 60, 40},
		{"from waist to end", "from-waist-to-end", 70, 30},
		{"from end to waist", "from-end-to-waist", 70, 30},
		{"from hip to top", "from-hip-to-top", 75, 25},
		{"from mouth to end", "from-mouth-to-end", 40, 60},
		{"from mouth for 2 cm", "from-mouth-for-2-cm", 20, 80},
	} {
		text := strings.ReplaceAll(strings.ReplaceAll(pocketed, "PART", c.part), "LONG", fmt.Sprint(c.long))
		g, faults := roomWith(t).desk().derive(t, head+text)
		for _, f := range append(faults, g.Faults...) {
			t.Errorf("%s: %s\n    %s", c.part, f, f.Hint)
		}
		garmentIs(t, g, map[string]float64{
			"piece.front.edge.side-" + c.id + ".length":    c.long,
			"piece.front.edge.side-" + c.id + ".allowance": 15,
			"piece.front.edge.side.allowance":              25,
			"seam.bags-front.length":                       c.long,
			"seam.sides.length":                            c.rest,
			"length.side.finished":                         100,
		})
		front := g.Pieces[0]
		if got := front.Outline.Perimeter(); math.Abs(got-(180+100+240+80)) > 1e-6 {
			t.Errorf("%s: the outline is %v round", c.part, got)
		}
	}
}

// TestPartsThatAreWrong: each is told where it stands.
func TestPartsThatAreWrong(t *testing.T) {
	desk := roomWith(t).desk()
	for _, c := range [][2]string{
		{"from waist for 160", "160 mm from waist is past the end: front.side is 100 mm long"},
		{"from mouth to mouth", "front.side from mouth to mouth is nothing"},
		{"from waist to elbow", `"elbow" is no edge, notch, line or level of front`},
		{"from waist", "does not say where it ends"},
	} {
		g, faults := desk.derive(t, head+strings.ReplaceAll(strings.ReplaceAll(pocketed, "PART", c[0]), "LONG", "60"))
		found := false
		for _, f := range append(faults, g.Faults...) {
			found = found || strings.Contains(f.Message, c[1])
		}
		if !found {
			t.Errorf("%s: nothing says %q of %v %v", c[0], c[1], faults, g.Faults)
		}
	}
	text := strings.ReplaceAll(strings.ReplaceAll(pocketed, "PART", "from waist for 60"), "LONG", "60")
	text += "finishes: {mouths: {of: front.side from waist to end, type: single-turned-hem}}\n"
	g, _ := desk.derive(t, head+text)
	if faultsSaying(g, "front.side from waist for 60 and front.side from waist to end lie over each other for 60 mm") != 1 {
		t.Errorf("parts that lie over each other: %v", g.Faults)
	}
	text = strings.ReplaceAll(strings.ReplaceAll(pocketed, "PART", "from waist to top"), "LONG", "100")
	g, _ = desk.derive(t, head+text)
	if faultsSaying(g, "all of front.side is sewn elsewhere, part by part") != 1 {
		t.Errorf("an edge of which nothing is left: %v", g.Faults)
	}
}
