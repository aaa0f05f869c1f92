package derive

import (
	"strings"
	"testing"
)

// A waistcoat 250 wide to a quarter, whose back is cut from the lining and stands in for
// the shell: its chest is 4 × 250 = 1 000, and so is that of the lining behind it, which is
// like it. A body of 920 leaves 80 of ease.
const liningBacked = `
cloth: {shell: linen, lining: linen}
drafted-for: {chest: 920}
pieces:
  front: {cut: 2, outline: {from: [0, 0], hem: [250, 0], side: [250, 280], armhole: [180, 500], shoulder: [80, 540], neck: [0, 460], centre: [0, 0]}, levels: {chest: 280}}
  back: {of: lining, outline: {from: [0, 0], hem: [250, 0], side: [250, 280], armhole: [180, 500], shoulder: [80, 540], neck: [0, 520], centre: fold}, levels: {chest: 280}}
  front lining: {like: front, of: lining}
  back lining: {like: back, of: lining}
seams:
  shoulders: [front.shoulder, back.shoulder]
  sides: [front.side, back.side]
  lining shoulders: [front lining.shoulder, back lining.shoulder]
  lining sides: [front lining.side, back lining.side]
  fronts: [front.centre, front.centre]
  lining fronts: [front lining.centre, front lining.centre]
  armholes: {join: [[front.armhole, back.armhole], [front lining.armhole, back lining.armhole]], type: enclosed}
`

func TestBackFromTheLining(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+liningBacked)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	g.is(t, 1e-6, map[string]float64{"level.chest.finished": 1000, "level.chest.ease": 80, "truing.lining.chest": 0})
	for name, want := range map[string]string{"front": "outer", "back": "outer", "front lining": "lining", "back lining": "lining"} {
		if got := g.Sewn.LayerOf(name); got != want {
			t.Errorf("%s lies in %s, want %s", name, got, want)
		}
	}
	for _, f := range g.Faults {
		if strings.Contains(f.Message, "ease") || strings.Contains(f.Message, "narrower") {
			t.Error(f)
		}
	}
}

// What only hangs from the shell, or is a bag of its pocket, stands in for nothing.
func TestLiningsStayInside(t *testing.T) {
	for name, build := range map[string]string{
		"bag": `
cloth: {shell: linen, lining: linen}
pieces:
  front: {rectangle: [500, 600], edges: {top: {name: waist}}}
  back: {like: front}
  pocket bag: {cut: 2, of: lining, rectangle: [160, 200]}
seams:
  right side: [front.left, back.right]
  left side: [front.right, back.left]
  bags: {join: [front.left from waist for 200, pocket bag.left]}
`,
		"slip": `
cloth: {shell: linen, lining: linen}
pieces:
  front: {rectangle: [500, 600], edges: {top: {name: waist}}}
  back: {like: front}
  slip: {cut: 2, of: lining, rectangle: [500, 550]}
seams:
  right side: [front.left, back.right]
  left side: [front.right, back.left]
  slip sides: [slip.left, slip.right]
  waist: {join: [[front.waist, back.waist], slip.top]}
`,
	} {
		g, faults := roomWith(t).desk().derive(t, head+build)
		piece := map[string]string{"bag": "pocket bag", "slip": "slip"}[name]
		if got := g.Sewn.LayerOf(piece); got != "lining" {
			t.Errorf("%s lies in %s; %v", piece, got, faults)
		}
	}
}
