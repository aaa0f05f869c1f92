package cutting

import (
	"slices"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
)

// One cloth in two parts: a lining of 600 and a back of 500 take 650 and 550 of it, with 25 at
// each end. Of 1000 each has enough, and together they lack 200; of 1200 nothing is said.
func TestOneClothInTwoParts(t *testing.T) {
	const pieces = "pieces:\n  front: {allowance: 0, rectangle: [400, 600]}\n  back: {of: back cloth, allowance: 0, rectangle: [400, 500]}\n"
	for onHand, want := range map[string]string{
		"1000": "shell and back cloth are cut from Linen, and the shelf has 200 mm less than their lays need together",
		"1200": "",
		"600":  "shell: the shelf has 50 mm less than the lay needs",
	} {
		b := benchWith(t, "width: 450\non-hand: "+onHand+"\n", "")
		b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: linen, back cloth: linen}\n"+pieces)
		cut := b.cut()
		got := cut.Short()
		is := func(f fault.Fault) bool { return f.Message == want }
		if want == "" && len(got) > 0 || want != "" && !slices.ContainsFunc(got, is) {
			t.Errorf("on the shelf %s: %v", onHand, got)
		}
		for _, l := range cut.Lays { // once they are cut they are held against nothing
			l.OnHand, l.Enough = figure.Figure{}, true
		}
		if got := cut.Short(); len(got) > 0 {
			t.Errorf("of cut cloth on the shelf %s: %v", onHand, got)
		}
	}
}
