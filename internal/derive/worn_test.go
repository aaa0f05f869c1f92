package derive

import (
	"testing"

	"hembook/internal/record"
)

// TestWorn: the fit table sets the body beside the garment as it was measured,
// or as planned where it was not. Worked by hand: 2 × 400 planned, 806
// measured, a body of 700 and a draft for 720.
func TestWorn(t *testing.T) {
	const build = "wearer: robin\ncloth: {shell: linen}\ndrafted-for: {waist: 720}\n" +
		"pieces: {panel: {of: shell, cut: 2, rectangle: [400, 600], edges: {top: {level: waist}, bottom: {level: hip}}}}\n" +
		"seams: {sides: {join: [panel.right, panel.left], type: plain}}\n"
	for _, c := range []struct {
		name, more           string
		measured             bool
		round, onBody, drawn float64
	}{
		{"as planned", "", false, 800, 100, 80},
		{"as measured", "measured: {waist: 806}\n", true, 806, 106, 86},
		{"as measured again", "measured: {waist: 806}\nlater: [{day: 2027-03-01, measured: {waist: 784}}, {day: 2027-02-01, because: it grew, measured: {waist: 815}}]\n", true, 784, 84, 64},
	} {
		r := roomWith(t).file("content/wearers/robin.yaml", "name: Robin\nbody: {waist: 700}\n")
		d := r.desk()
		g, faults := d.derive(t, head+build+c.more)
		for _, f := range faults {
			t.Fatal(f)
		}
		rows := d.tailor.Worn(g)
		if len(rows) != 2 {
			t.Fatalf("%s: %d rows", c.name, len(rows))
		}
		for _, w := range rows {
			on := w.Body.Open(record.ToCheck)
			if w.Name == "hip" {
				if on != nil || w.OnDraft.ID != "" || w.AsMeasured {
					t.Errorf("%s: the hip has a body, though none is known", c.name)
				}
				continue
			}
			if w.AsMeasured != c.measured || w.Garment.Value.Number != c.round || on == nil || on.Ease.Value.Number != c.onBody || w.OnDraft.Value.Number != c.drawn {
				t.Errorf("%s: %+v, on the body %+v", c.name, w, on)
			}
			if w.LetOut.Value.Number != 36 { // 4 allowances of 15 less 6 that must stay
				t.Errorf("%s: can be let out by %v", c.name, w.LetOut.Value.Number)
			}
		}
	}
}
