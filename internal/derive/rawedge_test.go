package derive

import (
	"strings"
	"testing"

	"hembook/internal/fault"
)

// A skirt of two rectangles 600 wide and 700 long, each cut once though a part of one side
// is sewn by itself: its hem is 2 × 600 = 1 200 mm, and its waist too.
const sidedSkirt = `
cloth: {shell: linen}
pieces:
  front: {rectangle: [600, 700], edges: {top: {name: waist}, bottom: {name: hem}}}
  back: {like: front}
seams:
  right side: [front.left, back.right]
  left side: [front.right, back.left]
  opening: {join: [front.right from waist for 180, back.left from waist for 180], type: zip-invisible}
finishes:
  waist: {of: [front.waist, back.waist], type: bound-edge}
  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 20}
notions:
  zip: {in: opening, length: 180, material: polyester}
`

func TestPartsOfAnEdgeMakeNoPair(t *testing.T) {
	g := deriveClean(t, roomWith(t), sidedSkirt)
	g.is(t, 1e-6, map[string]float64{"level.waist.finished": 1200, "level.hem.finished": 1200})
	for _, p := range g.Pieces {
		if p.Count != 1 || p.Mirrored {
			t.Errorf("%s is cut %d times, mirrored %v", p.Name, p.Count, p.Mirrored)
		}
	}
	if said := g.UnsaidCuts(); said != "" {
		t.Error(said)
	}
	notched, faults := roomWith(t).desk().derive(t, head+strings.Replace(sidedSkirt, "back: {like: front}", "back: {like: front, notches: {waist: [100]}}", 1))
	if said := notched.UnsaidCuts(); said != "back: 2, a left and a right (not said; its notches are not symmetrical)" {
		t.Errorf("%q, %v", said, faults)
	}
}

// What is told of raw edges, once: of a skirt without its hem, of one hem without the
// other, of knits, and of none that is said to stay raw.
func TestRawEdges(t *testing.T) {
	hem := "  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 20}\n"
	knit := roomWith(t).file("content/cloth/linen.yaml", "name: Jersey\nfibres: {cotton: 100}\nweight: 200 g/m2\nwidth: 1400\nselvedge: 10\nstructure: knitted\n")
	for _, c := range []struct {
		name string
		room *testRoom
		now  string
		want string
	}{
		{"no hem", roomWith(t), "", "front.hem and back.hem are joined to nothing and not finished / finish them under finishes:, as hem: {of: [front.hem, back.hem], type: double-turned-hem}; type: raw leaves them as cut"},
		{"one hem", roomWith(t), "  hem: {of: front.hem, type: double-turned-hem, depth: 20}\n", "back.hem is joined to nothing and not finished / add it to hem: of: [front.hem, back.hem]"},
		{"no hem of a knit", knit, "", "front.hem and back.hem are joined to nothing and not finished / finish them under finishes:, as hem: {of: [front.hem, back.hem], type: twin-needle-hem}; type: raw leaves them as cut"},
		{"a raw hem of a knit", knit, "  hem: {of: [front.hem, back.hem], type: raw}\n", ""},
		{"a raw hem", roomWith(t), "  hem: {of: [front.hem, back.hem], type: raw}\n", ""},
	} {
		g, faults := c.room.desk().derive(t, head+strings.Replace(sidedSkirt, hem, c.now, 1)+"work:\n  cut: 30 min\n")
		var told []string
		for _, f := range append(faults, g.Faults...) {
			if strings.HasSuffix(f.Message, looseEdge) {
				told = append(told, f.Message+" / "+f.Hint)
			}
		}
		if got := strings.Join(told, "; "); got != c.want {
			t.Errorf("%s: told %q, want %q", c.name, got, c.want)
		}
	}
}

// Buttons hold two fronts to each other and make neither edge neat: fronts without a
// finish are told, as one pair and as a left and a right, and no fold is proposed for
// them; a zip has their allowances sewn to its tapes.
func TestButtonedFrontsAreRaw(t *testing.T) {
	text := `
for: woman
cloth: {shell: linen}
pieces:
  front:
    cut: 2
    outline: {hem: [250, 0], side: [250, 600], neck: [0, 600], centre: [0, 0]}
    lines: {front line: 20 inside centre}
  back: {cut: 1, rectangle: [460, 600]}
seams:
  left side: [left front.side, back.right]
  right side: [right front.side, back.left]
finishes:
  edges: {of: [front.hem, back.bottom, front.neck, back.top], type: bound-edge}
notions:
  buttons: {along: front.front line, first: 40 from neck, last: 80 from hem, count: 5, size: 15, material: shell}
work:
  cut: 30 min
`
	for now, want := range map[string]string{
		text: "left front.centre and right front.centre are joined to nothing and not finished",
		strings.Replace(text, "front.neck,", "front.neck, front.centre,", 1): "",
		strings.Replace(text, "buttons: {along: front.front line, first: 40 from neck, last: 80 from hem, count: 5, size: 15, material: shell}", "zip: {along: front.centre, length: 600, material: polyester}", 1): "",
	} {
		g, faults := roomWith(t).desk().derive(t, head+now)
		if got := toldRaw(append(faults, g.Faults...)); got != want {
			t.Errorf("%q, want %q of\n%s", got, want, now)
		}
	}
}

// toldRaw is what is told of raw edges.
func toldRaw(faults []fault.Fault) string {
	var out []string
	for _, f := range faults {
		if strings.HasSuffix(f.Message, looseEdge) {
			out = append(out, f.Message)
		}
	}
	return strings.Join(out, "; ")
}
