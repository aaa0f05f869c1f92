package derive

import (
	"strings"
	"testing"

	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/words"
)

// Two panels of 400 with a band of 800, whose ends meet the other sides while the sides
// come to its middle; and of 70 with a band of 140, a cuff 140 round.
const sewnInSteps = head + `
cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [400, 500]}
  back: {of: shell, cut: 1, rectangle: [400, 500]}
  band: {of: shell, cut: 1, rectangle: [800, 40]}
seams:
  sides: {join: [front.right, back.left], type: plain}
  other sides: {join: [front.left, back.right], type: plain}
  band ends: {join: [band.left, band.right], type: plain}
  waist: {join: [[front.top, back.top], band.bottom], type: plain}
work:
`

func TestSeamsInTheirSteps(t *testing.T) {
	for _, c := range []struct{ name, change, work, want, hint string }{
		{"sides first", "", "  sides: 20 min\n  other sides: 20 min\n  band ends: 5 min\n  waist: 20 min\n", "", ""},
		{"the band before the sides", "", "  band ends: 5 min\n  waist: 20 min\n  sides: 20 min\n  other sides: 20 min\n",
			`"waist" is sewn over the end of "sides", which is not sewn yet`, `sew "sides" first`},
		{"a cuff too narrow", "narrow", "  sides: 20 min\n  other sides: 20 min\n  band ends: 5 min\n  waist: 20 min\n",
			`"waist" is sewn in the round, only 140 mm round: too narrow for the machine`, `sew it flat, before "other sides", or by hand`},
		{"the same by hand", "narrow, 202",
			"  sides: 20 min\n  other sides: 20 min\n  band ends: 5 min\n  waist: 20 min\n", "", ""},
	} {
		build := sewnInSteps + c.work
		if c.change != "" {
			build = strings.ReplaceAll(strings.ReplaceAll(build, "[400, 500]", "[70, 500]"), "[800, 40]", "[140, 40]")
		}
		if strings.Contains(c.change, "202") {
			build = strings.Replace(build, "band.bottom], type: plain}", "band.bottom], type: plain, stitch: \"202\"}", 1)
		}
		g, faults := roomWith(t).desk().derive(t, build)
		if len(faults) > 0 {
			t.Errorf("%s: %v", c.name, faults)
		}
		var said, hint string
		for _, f := range order.SewingFaults(g.Garment, g.Steps, words.Tape(measure.UnitMM)) {
			said, hint = f.Message, f.Hint
		}
		if said != c.want || hint != c.hint {
			t.Errorf("%s: %q, %q; want %q, %q", c.name, said, hint, c.want, c.hint)
		}
	}
}
