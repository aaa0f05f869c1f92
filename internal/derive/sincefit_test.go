package derive

import (
	"strings"
	"testing"
)

// TestFaultNamesItsRound: two panels that meet as drafted, 400 and 400. The second
// fitting lengthens the front's side by 20 along its own way, so that it is 420 and
// meets no more; what is wrong from the draft on names no fitting.
func TestFaultNamesItsRound(t *testing.T) {
	const panels = head + `
cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1 on fold, outline: {hem: [200, 0], side: [200, 400], waist: [0, 400], fold: fold}}
  back: {of: shell, cut: 1 on fold, outline: {hem: [200, 0], side: [200, 400], waist: [0, 400], fold: fold}}
  band: {of: shell, cut: 1, rectangle: [900, 40]}
seams:
  sides: {join: [front.side, back.side], type: plain}
  waist: {join: [[front.waist, back.waist], band.bottom], type: plain}
fittings:
  - {day: 2026-08-01, saw: wide, change: {front.waist: {move: 1}}}
  - {day: 2026-08-09, saw: short, change: {front.waist: {move: 20}}}
`
	g, faults := roomWith(t).desk().derive(t, panels)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	found := map[string]string{}
	for _, f := range g.Faults {
		for _, seam := range []string{"sides", "waist"} {
			if strings.HasPrefix(f.Message, seam+":") {
				found[seam] = f.Message
			}
		}
	}
	if want := ", since the second fitting"; !strings.HasSuffix(found["sides"], want) {
		t.Errorf("of the sides is said %q, which does not end in %q", found["sides"], want)
	}
	if found["waist"] == "" || strings.Contains(found["waist"], "fitting") {
		t.Errorf("of the waist, wrong from the draft on, is said %q", found["waist"])
	}
}
