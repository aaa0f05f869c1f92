package derive

import (
	"strings"
	"testing"
)

// A lopsided half of a bodice, and its back.
const lopsided = `  front: {CUT, outline: {hem: [240, 0], side: [250, 300], armhole: {to: [200, 480], curve: [[220, 310], [200, 400]]}, shoulder: [80, 520], neck: {to: [0, 440], curve: [[60, 460], [30, 440]]}, centre: [0, 0]}}
  back: {cut: 2, outline: {hem: [240, 0], side: [250, 300], armhole: {to: [200, 480], curve: [[220, 310], [200, 400]]}, shoulder: [80, 520], neck: {to: [0, 500], curve: [[60, 505], [30, 500]]}, centre: [0, 0]}}
`

// TestFaultsOfTheModel: one record for each thing that only the garment put together shows,
// with what is answered.
func TestFaultsOfTheModel(t *testing.T) {
	bodice := "pieces:\n" + strings.Replace(lopsided, "CUT", "cut: 2", 1) + "seams:\n  sides: [front.side, back.side]\n  shoulders: [front.shoulder, back.shoulder]\n"
	tube := "pieces:\n  front: {cut: 1, rectangle: [400, 500]}\n  back: {cut: 1, rectangle: [400, 500]}\nseams:\n  side: [front.right, back.left]\n  other side: [front.left, back.right]\n"
	for _, c := range []struct{ name, build, want, hint string }{
		{"two fronts of one hand", strings.Replace(bodice, "front: {cut: 2,", "front: {cut: 2 alike,", 1),
			`"sides" needs a left and a right, but the pieces front are all cut alike`, "cut them in pairs: write cut: 2"},
		{"a left side to a right one", strings.Replace(bodice, "sides: [front.side, back.side]", "left side: [left front.side, right back.side]\n  right side: [right front.side, left back.side]", 1),
			`"left side" joins left front.side and right back.side of hands that do not match: one of them would lie wrong side up`, "name the edge of the other side"},
		{"a side sewn twice", bodice + "  again: [front.side, back.centre]\n",
			`front.side is sewn in "again" and in "sides"`, "name the pieces that lie on each other there in one seam, or another edge"},
		{"a seam written twice", bodice + "  again: [back.side, front.side]\n",
			`"again" sews the same edges as "sides", in the same way`, "keep one of them, or write what is sewn otherwise in the second row"},
		{"no way in", tube + "  bottom: [front.bottom, back.bottom]\n  top: [front.top, back.top]\n",
			"back and front are closed all round: there is no way in", "leave an edge open, or put a zip into a seam"},
		{"a side joined to itself that is there once", tube + "  bottom: [front.bottom, front.bottom]\n",
			"bottom: front.bottom is cut once, so it has no partner", "write cut: 2, or name another edge"},
		{"a loose side", tube + "finishes:\n  hem: {of: [front.bottom, back.bottom], type: bound-edge}\n  top: {of: front.top, type: bound-edge}\n",
			"back.top is joined to nothing and not finished", "add it to top: of: [front.top, back.top]"},
		{"unequal plies", strings.NewReplacer("front: {", "front: {edges: {right: {allowance: 12}}, ", "back: {", "back: {edges: {left: {allowance: 15}}, ").Replace(tube),
			"side: front.right has 12 mm of allowance, back.left 15 mm", "give both the same allowance, or pin seam line to seam line"},
		{"never sewn", tube + "work:\n  one: {sews: side, takes: 1 h}\n", `no step sews "other side"`, `call a step so, or add it to what one sews: sews: [other side]`},
		{"after a round", bodice + "fittings:\n  - {day: 2026-08-09, saw: long, change: {front.shoulder: {lengthen: 10}}}\n",
			"shoulders: front.shoulder is 10 mm longer than back.shoulder (136.5, 126.5), since the first fitting", "shorten the longer edge by 10, or ease it in: ease: 10"},
	} {
		g, faults := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\n"+c.build)
		var all []string
		told := false
		for _, f := range append(faults, g.Faults...) {
			all = append(all, f.Message+" / "+f.Hint)
			told = told || f.Message == c.want && f.Hint == c.hint
		}
		if !told {
			t.Errorf("%s: want %q, told %q", c.name, c.want, all)
		}
	}
}

// TestBagIsWhole: a bag of two panels sewn round and across the bottom is clean, whatever
// its seams are called: the bottoms are called alike and so are the rectangles' lefts, but
// it is left and right that are sewn to each other.
func TestBagIsWhole(t *testing.T) {
	for _, bottom := range []string{"a bottom", "bottom", "z bottom"} {
		g, faults := roomWith(t).desk().derive(t, head+"cloth: {shell: linen}\npieces:\n  front: {cut: 1, rectangle: [400, 500]}\n  back: {cut: 1, rectangle: [400, 500]}\nseams:\n"+
			"  side: [front.right, back.left]\n  other side: [front.left, back.right]\n  "+bottom+": [front.bottom, back.bottom]\n"+
			"finishes:\n  top: {of: [front.top, back.top], type: bound-edge}\n")
		if all := append(faults, g.Faults...); len(all) > 0 {
			t.Errorf("with %q: %v", bottom, all)
		}
	}
}
