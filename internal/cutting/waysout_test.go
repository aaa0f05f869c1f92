package cutting

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
	"hembook/internal/record"
)

// waysOf are the ways out of a lay on cloth that is too short.
func waysOf(t *testing.T, cloth, build string) []WayOut {
	t.Helper()
	b := benchWith(t, cloth, build)
	c := b.cutter()
	cut := c.Cut(b.build())
	if cut.Lays[0].Plan == nil {
		t.Fatal(cut.Lays[0].Why)
	}
	return cut.Lays[0].Ways
}

// A way is wanted by the beginning of its words, with the cloth it takes and what is over.
type wantedWay struct {
	what        string
	takes, over float64
}

// Every way is a lay that can be worked by hand. Two rectangles of 400 and 380 by 600 lie
// beside each other on 800 in 600, and take 650 with 25 at each end.
func TestWaysOutOfShortCloth(t *testing.T) {
	const two = "pieces:\n  front: {allowance: 0, rectangle: [400, 600]}\n  back: {allowance: 0, rectangle: [380, 600]}\n"
	for name, row := range map[string]struct {
		cloth, build string
		want         []wantedWay
	}{
		"enough":            {"width: 800\non-hand: 650\n", two, nil},
		"not counted":       {"width: 800\n", two, nil},
		"the straightening": {"width: 800\non-hand: 620\n", two, []wantedWay{{"leave the two ends", 600, 20}}},
		// Shrunk by 20 % it takes 600 ÷ 0.8 = 750 unstraightened.
		"shrunk": {"width: 800\non-hand: 760\nshrink: {along: 20}\n", two, []wantedWay{{"leave the two ends", 750, 10}}},
		// On 700 they lie one after the other, 1200 and 1250; on 900 beside each other.
		"wider": {"width: 700\non-hand: 700\n", two, []wantedWay{{"buy 600 mm more", 1250, 50}, {"take such a cloth 900 mm wide", 650, 50}, {"leave the two ends", 1200, -500}}},
		// Two triangles of 300 by 500 make a rectangle once one of them is turned about.
		"both ways": {"width: 300\none-way: true\non-hand: 600\n", "pieces:\n  gore: {cut: 2 alike, allowance: 0, outline: {from: [0, 0], hem: [300, 0], long: [0, 500], side: [0, 0]}}\n",
			[]wantedWay{{"let pieces point both ways", 550, 50}}},
		// The back, 380 wide, goes on the remnant, and the front alone takes 650 still.
		"a remnant": {"width: 450\non-hand: 700\nremnants: {end: [[0, 0], [390, 0], [390, 610], [0, 610]]}\n", two,
			[]wantedWay{{`cut 1 piece from the remnant "end"`, 650, 50}}},
		// 600 and 40 for the hem, turned twice by 20; turned by 10 it takes 20 less.
		"a narrower hem": {"width: 450\non-hand: 680\n", "pieces:\n  front: {allowance: 0, rectangle: [400, 600], edges: {bottom: {allowance: 40}}}\nfinishes: {hem: {of: front.bottom, type: double-turned-hem, depth: 20}}\n",
			[]wantedWay{{"leave the two ends", 640, 40}, {"make hem 10 mm deep in place of 20 mm", 670, 10}, {"buy 100 mm more", 690, 90}}},
		// The facing, 90 by 300 once it is turned, lies beside the front; else below it.
		"across the grain": {"width: 500\non-hand: 650\n", "pieces:\n  front: {allowance: 0, rectangle: [400, 600]}\n  neck facing: {cut: 1, allowance: 0, rectangle: [300, 90]}\n",
			[]wantedWay{{"let neck facing lie across the grain", 650, 0}}},
		// In two parts of 90 and 15 for the join the facing lies beside the front, 505 of 510.
		"joined": {"width: 510\non-hand: 700\n", "pieces:\n  front: {allowance: 0, rectangle: [400, 600]}\n  neck facing: {cut: 1, allowance: 0, rectangle: [180, 300]}\n",
			[]wantedWay{{"join neck facing from two parts", 650, 50}}},
		"another cloth": {"width: 450\non-hand: 700\n", strings.ReplaceAll(two, "back", "front facing"),
			[]wantedWay{{"cut front facing from another cloth", 650, 50}}},
	} {
		got := waysOf(t, row.cloth, row.build)
		if len(row.want) == 0 && len(got) > 0 {
			t.Errorf("%s: %+v", name, got)
		}
		at := -1
		for _, want := range row.want {
			k := -1
			for i := range got {
				if strings.HasPrefix(got[i].What, want.what) {
					k = i
				}
			}
			switch {
			case k < 0:
				t.Errorf("%s: no %q in %+v", name, want.what, got)
			case math.Abs(got[k].Takes-want.takes) > 0.01 || math.Abs(got[k].Over-want.over) > 0.01:
				t.Errorf("%s: %+v, want %+v", name, got[k], want)
			case k < at:
				t.Errorf("%s: %q stands too high: %+v", name, want.what, got)
			}
			at = k
		}
	}
}

// Both remnants are filled, the larger pieces first, and what goes on none is named.
func TestLayOnRemnants(t *testing.T) {
	b := benchWith(t, "width: 900\nremnants: {end: [[0, 0], [390, 0], [390, 610], [0, 610]], corner: [[10, 20], [420, 20], [420, 330], [10, 330]]}\n",
		"pieces:\n  front: {allowance: 0, rectangle: [400, 600]}\n  back: {allowance: 0, rectangle: [380, 600]}\n  cuff: {cut: 2, allowance: 0, rectangle: [200, 300]}\n")
	c := b.cutter()
	build := b.build()
	cloth, _ := b.room.Cloth("linen")
	laid, err := c.LayOn(build, "shell", []*record.Remnant{&cloth.Remnants[0], &cloth.Remnants[1]})
	if err != nil {
		t.Fatal(err)
	}
	if len(laid.Boards[0].Chalked) != 1 || laid.Boards[0].Chalked[0].Piece != "back" {
		t.Errorf("on the end: %+v", laid.Boards[0].Chalked)
	}
	var copies []int
	for _, q := range laid.Boards[1].Chalked {
		copies = append(copies, q.Copy)
		if q.Side < -1e-6 || q.SideTo > 410+1e-6 || q.End < -1e-6 || q.EndTo > 310+1e-6 {
			t.Errorf("%s lies at %g to %g and %g to %g of 410 by 310", q.Piece, q.Side, q.SideTo, q.End, q.EndTo)
		}
	}
	if len(copies) != 2 || copies[0]+copies[1] != 3 {
		t.Errorf("copies of the cuff on the corner: %v", copies)
	}
	if len(laid.Left) != 1 || laid.Left[0] != "front" {
		t.Errorf("will not go: %v", laid.Left)
	}
}

// Two cuffs of 200 by 300 go on both sides of a hole 80 wide in a remnant of 500 by 400; a
// front of 400 by 300 goes on it only without the hole.
func TestLayOnRemnantWithHole(t *testing.T) {
	const whole, hole = "[[0, 0], [500, 0], [500, 400], [0, 400]]", "[[[210, 150], [290, 150], [290, 250], [210, 250]]]"
	for _, c := range []struct {
		holes, pieces string
		left          int
	}{
		{hole, "cuff: {cut: 2, allowance: 0, rectangle: [200, 300]}", 0},
		{hole, "front: {allowance: 0, rectangle: [400, 300]}", 1},
		{"[]", "front: {allowance: 0, rectangle: [400, 300]}", 0},
	} {
		b := benchWith(t, "width: 900\nremnants: {sleeve: {outline: "+whole+", holes: "+c.holes+"}}\n", "pieces:\n  "+c.pieces+"\n")
		cutter, build := b.cutter(), b.build()
		cloth, _ := b.room.Cloth("linen")
		sleeve := &cloth.Remnants[0]
		laid, err := cutter.LayOn(build, "shell", []*record.Remnant{sleeve})
		if err != nil {
			t.Fatal(err)
		}
		if len(laid.Left) != c.left {
			t.Errorf("%s with holes %s: %v will not go, want %d", c.pieces, c.holes, laid.Left, c.left)
		}
		_, holes := remnantOf(sleeve)
		for _, q := range laid.Boards[0].Chalked {
			var ring []lay.Point
			for _, corner := range q.Outline {
				ring = append(ring, lay.Point(corner))
			}
			for _, h := range holes {
				if d := verify.Penetration(h, ring); d > tolerance {
					t.Errorf("%s reaches %v into the hole", q.Piece, d)
				}
			}
		}
	}
}

// A hole counts as cloth that is not there: 500 by 400 less 80 by 100 are 1920 cm², and a
// piece of 485 by 400 needs 1940.
func TestShelfWithHole(t *testing.T) {
	l := benchWith(t, "width: 900\nremnants: {sleeve: {outline: [[0, 0], [500, 0], [500, 400], [0, 400]], holes: [[[210, 150], [290, 150], [290, 250], [210, 250]]]}}\n",
		"pieces:\n  front: {allowance: 0, rectangle: [485, 400]}\n").lay()
	if len(l.Shelf) != 1 || l.Shelf[0].Plan != nil || !strings.Contains(l.Shelf[0].Why, "1920 cm²") {
		t.Errorf("on the shelf: %+v", l.Shelf)
	}
}
