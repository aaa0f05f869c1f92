package cutting

import (
	"strings"
	"testing"
)

// TestBoundSaysHow: a bound of a lay by hand, and how it is told. Cloth 1000 wide.
func TestBoundSaysHow(t *testing.T) {
	for _, c := range []struct {
		pieces string
		want   float64
		rule   string
	}{
		{"  apron: {cut: 1, allowance: 0, rectangle: [600, 500]}\n  bib: {cut: 1, allowance: 0, rectangle: [520, 420]}\n", 920,
			"pieces that take more than half of the width cannot lie beside each other: how long they are one after another, at least"},
		{"  napkin: {cut: 5 alike, allowance: 0, rectangle: [400, 400]}\n", 1200,
			"pieces that take more than a third of the width lie two beside each other at most: how long they are one after another, at least"},
		{"  apron: {cut: 1, allowance: 0, rectangle: [800, 400]}\n  napkin: {cut: 3 alike, allowance: 0, rectangle: [300, 300]}\n", 700,
			"pieces that take more than a quarter of the width lie three beside each other at most: the length of each, times the share of that room which it takes"},
		// 400 + 2 × 300 × 0.35 + 300 × 0.33
		{"  apron: {cut: 1, allowance: 0, rectangle: [700, 400]}\n  wide: {cut: 2 alike, allowance: 0, rectangle: [350, 300]}\n  slim: {cut: 1, allowance: 0, rectangle: [330, 300]}\n", 709,
			"the length of each piece, times the share of the width that it takes; what leaves less than 300 mm beside it takes all of the width, and what is narrower none"},
		{"  sash: {cut: 1, allowance: 0, rectangle: [300, 900]}\n", 900,
			"the longest piece, turned as short as it may lie"},
	} {
		l := benchWith(t, "width: 1000\n", "pieces:\n"+c.pieces).lay()
		is(t, l.Bound, c.want)
		if l.Bound.Working.Rule != c.rule || l.Length.Value.Number < c.want-tolerance {
			t.Errorf("%q, want %q; the lay is %g", l.Bound.Working.Rule, c.rule, l.Length.Value.Number)
		}
	}
}

// TestShortIsToldBeforeItIsLaid: two panels of 600 by 500 lie one after the other on cloth
// 1000 wide, whatever the lay, so that 0.9 m is 100 mm too short before any lay is planned;
// once it is planned, 50 for straightening are short too, and what costs least is told.
func TestShortIsToldBeforeItIsLaid(t *testing.T) {
	b := benchWith(t, "width: 1000\non-hand: 0.9 m\n", rectangles("2", "[600, 500]"))
	b.opt.Mode = KeptOnly
	short := b.cut().Short()
	if len(short) != 1 || !strings.Contains(short[0].Message, "100 mm less than any lay needs") {
		t.Fatalf("before a lay: %v", short)
	}
	b.opt.Mode = Make
	short = b.cut().Short()
	if len(short) != 1 || !strings.Contains(short[0].Message, "150 mm less than the lay needs") || !strings.Contains(short[0].Hint, "buy 200 mm more") {
		t.Fatalf("with a lay: %v", short)
	}
	b = benchWith(t, "width: 1000\non-hand: 1 m\n", rectangles("2", "[600, 500]"))
	b.opt.Mode = KeptOnly
	if short := b.cut().Short(); len(short) > 0 {
		t.Errorf("1 m may be enough, if nothing is straightened: %v", short)
	}
}
