package derive

import (
	"strings"
	"testing"

	"hembook/internal/figure"
)

// TestEdgesCalledAsLevels: an edge called as a level lies at it, unless something
// else is said. All widths are those of rectangles.
func TestEdgesCalledAsLevels(t *testing.T) {
	const skirt = `cloth: {shell: linen, lining: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [400, 600], edges: {top: {name: waist}, bottom: {name: hem}}}
  back: {of: shell, cut: 1, rectangle: [410, 600], edges: {top: {name: waist}, bottom: {name: hem}}}
  sleeve: {of: shell, cut: 2 alike, rectangle: [220, 300], edges: {bottom: {name: wrist}, top: {name: armhole}}}
  yoke: {of: shell, cut: 1, rectangle: [300, 100], edges: {bottom: {name: neck}, top: {name: shoulder}}}
seams:
  sides: [front.right, back.left]
  left side: [front.left, back.right]
  underarm: [sleeve.left, sleeve.right]
`
	swap := func(old, new string) string { return strings.Replace(skirt, old, new, 1) }
	for _, c := range []struct {
		name, build string
		want        map[string]float64 // by level; 0 where there is no such level
	}{
		{"by their names", skirt, map[string]float64{"waist": 810, "hem": 810, "wrist": 220, "neck": 0, "shoulder": 0}},
		{"none is said", swap("{name: hem}", "{name: hem, level: none}"), map[string]float64{"waist": 810, "hem": 410}},
		{"another is said", swap("{name: waist}", "{name: waist, level: hip}"), map[string]float64{"waist": 410, "hip": 400}},
		{"the piece has a height for it", swap("back: {", "back: {levels: {waist: 500}, "), map[string]float64{"waist": 810}},
		{"a fold is not sewn", strings.Replace(swap("front: {of: shell, cut: 1", "front: {of: shell, cut: 1 on fold"), "bottom: {name: hem}", "bottom: {name: hem, fold: true}", 1),
			map[string]float64{"hem": 410}},
		{"a piece like it says none", swap("seams:\n", "  front lining: {like: front, of: lining, edges: {hem: {level: none}}}\nseams:\n"), map[string]float64{"hem": 810}},
		{"what is like a piece that says none", swap("{name: hem}}}\n  sleeve", "{name: hem, level: none}}}\n  other: {like: back, cut: 1}\n  sleeve"), map[string]float64{"hem": 400}},
		{"another name, another level", swap("seams:\n", "  panel: {like: front, of: shell, cut: 1, edges: {hem: {name: knee}}}\nseams:\n"), map[string]float64{"hem": 810, "knee": 400}},
	} {
		g, _ := roomWith(t).desk().derive(t, head+c.build)
		for level, want := range c.want {
			var got *figure.Figure
			for _, l := range g.Levels {
				if l.Name == level {
					got = &l.Finished
				}
			}
			switch {
			case want == 0 && got != nil:
				t.Errorf("%s: there is a level %s: %v", c.name, level, got.Value)
			case want != 0 && (got == nil || !got.Value.Known() || got.Value.Number != want):
				t.Errorf("%s: %s is %v, want %g: %v", c.name, level, got, want, g.Faults)
			}
		}
		if c.name == "by their names" {
			saysAsCalled(t, g)
		}
	}
}

// saysAsCalled: the working names the edges and where they stand.
func saysAsCalled(t *testing.T, g *Garment) {
	for _, l := range g.Levels {
		if l.Name != "waist" {
			continue
		}
		said := 0
		for _, in := range l.Finished.Working.Inputs() {
			if in.Value == "as the edge is called" {
				said++
			}
		}
		if said != 2 {
			t.Errorf("the working says of %d edges that they are called waist: %+v", said, l.Finished.Working.Inputs())
		}
	}
}
