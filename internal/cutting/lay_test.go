package cutting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
	"hembook/internal/shape"
)

const triangle = `pieces:
  wedge:
    cut: 2 alike
    allowance: 0
    outline: {from: [0, 0], hem: [400, 0], slant: [0, 1000], side: [0, 0]}
`

// TestOneWay: on cloth as wide as they are two wedges make one rectangle when
// one may be turned round, and lie one behind the other when not.
func TestOneWay(t *testing.T) {
	l := benchWith(t, "width: 400\n", triangle).lay()
	is(t, l.Length, 1000)
	if turns := []float64{l.Chalked[0].Turn, l.Chalked[1].Turn}; turns[0] == turns[1] {
		t.Errorf("turns %v", turns)
	}
	l = benchWith(t, "width: 400\none-way: true\n", triangle).lay()
	is(t, l.Length, 2000)
	if l.Chalked[0].Turn != 0 || l.Chalked[1].Turn != 0 {
		t.Errorf("one-way cloth, but a piece is turned: %+v", l.Chalked)
	}
	b := benchWith(t, "width: 400\none-way: true\n", "")
	b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, one-way: false}}\n"+triangle)
	is(t, b.lay().Length, 1000) // the build's word counts before the cloth's
}

// TestOpenOrFolded: six rectangles of 300 × 400 in three pairs. Open cloth of
// 1000 holds three side by side, 800 of it; folded crosswise its two layers do so
// too, unless the cloth is one-way: then folded lengthwise it holds one pair in its 500.
func TestOpenOrFolded(t *testing.T) {
	l := benchWith(t, "width: 1000\none-way: true\n", rectangles("6", "[300, 400]")).lay()
	is(t, l.Length, 800)
	is(t, l.Other, 1200)
	if l.Plan.Folded() || !strings.Contains(l.Length.Title, "single layer") || !strings.Contains(l.Other.Title, "folded lengthwise, which is longer") {
		t.Errorf("%q, %q", l.Length.Title, l.Other.Title)
	}
	l = benchWith(t, "width: 1000\n", rectangles("6", "[300, 400]")).lay()
	is(t, l.Length, 800)
	if l.Plan.Fold != lay.Crosswise || !strings.Contains(l.Length.Working.Sum(), "400 mm × 2") {
		t.Errorf("%+v, %q", l.Plan.Folding, l.Length.Working.Sum())
	}
	want := []string{"Cut off 800 mm. Fold it across, right sides together, cut end on cut end: it lies 400 mm long. Distances along the cloth are from the fold.",
		"Chalk 1, 2 and 3; cut through both layers."}
	if !slices.Equal(l.Doing, want) {
		t.Errorf("%q", l.Doing)
	}
	b := benchWith(t, "width: 1000\n", "")
	b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, fold: lengthwise}}\n"+rectangles("6", "[300, 400]"))
	l = b.lay()
	is(t, l.Length, 1200)
	if !l.Plan.Folded() || len(l.Chalked) != 3 || !l.Chalked[0].Pair || l.Other.ID != "" {
		t.Errorf("%+v", l.Chalked)
	}
	l = benchWith(t, "width: 1000\n", rectangles("1", "[300, 400]")).lay()
	if why := l.Plan.NotFolded; !strings.Contains(why, "cut once") {
		t.Errorf("not folded: %q", why)
	}
}

const onFold = `pieces:
  front:
    cut: 1 on fold
    allowance: 10
    outline: {from: [0, 0], waist: [190, 0], side: [190, 280], top: [0, 280], centre: {to: [0, 0], fold: true}}
`

// TestOnFold: a half of 200 × 300 as cut lies as 400 × 300 on open cloth and
// with its centre on the fold of folded cloth.
func TestOnFold(t *testing.T) {
	for _, c := range []struct {
		fold    string
		side    float64
		stretch float64
	}{{"open", 0, 400}, {"folded", 0, 200}} {
		b := benchWith(t, "width: 400\n", "")
		b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: {use: linen, fold: "+c.fold+"}}\n"+onFold)
		l := b.lay()
		is(t, l.Length, 300)
		is(t, l.Used, 100)
		q := l.Chalked[0]
		if q.Side != c.side || math.Abs(q.SideTo-c.stretch) > 1e-6 || q.OnFold != (c.fold == "folded") {
			t.Errorf("%s: %+v", c.fold, q)
		}
		if math.Abs(l.Problem.Allowed-(400*300-380*280)) > 1e-3 {
			t.Errorf("allowances of %v mm²", l.Problem.Allowed)
		}
	}
}

// TestGrain: a piece of 300 × 700 with its grain across lies 700 wide.
func TestGrain(t *testing.T) {
	for _, c := range []struct {
		grain        string
		long, across float64
		turns        []float64
	}{
		{"along", 700, 300, []float64{0, 180}},
		{"across", 300, 700, []float64{90, 270}},
		{"bias", 1000 / math.Sqrt2, 1000 / math.Sqrt2, []float64{45, 135, 225, 315}},
	} {
		l := benchWith(t, "width: 720\n", "pieces:\n  panel: {allowance: 0, grain: "+c.grain+", rectangle: [300, 700]}\n").lay()
		is(t, l.Length, c.long)
		if q := l.Chalked[0]; math.Abs(q.SideTo-q.Side-c.across) > 1e-3 || !slices.Contains(c.turns, q.Turn) {
			t.Errorf("%s: %+v", c.grain, q)
		}
	}
}

// TestAsDrawn: seen from above with the cut end towards you, a piece that is
// not turned lies as it was drawn: x to the right, y away.
func TestAsDrawn(t *testing.T) {
	l := benchWith(t, "width: 400\none-way: true\n", strings.Replace(triangle, "2 alike", "1", 1)).lay()
	q := l.Chalked[0]
	if q.Mirrored || q.Turn != 0 {
		t.Fatalf("%+v", q)
	}
	for _, want := range [][2]float64{{0, 0}, {0, 400}, {1000, 0}} { // from the cut end, from the left selvedge
		if !slices.ContainsFunc(q.Outline, func(p shape.Point) bool { return math.Hypot(p.X-want[0], p.Y-want[1]) < 1e-6 }) {
			t.Errorf("no corner at %v: %v", want, q.Outline)
		}
	}
}

// TestMirrored: of a mirrored pair one is turned over, unless both faces of
// the cloth are alike, when either may be.
func TestMirrored(t *testing.T) {
	l := benchWith(t, "width: 1000\none-way: true\n", strings.Replace(triangle, "2 alike", "2", 1)).lay()
	over := 0
	for _, q := range l.Chalked {
		if q.Mirrored {
			over++
		}
	}
	if over != 1 && !l.Plan.Folded() {
		t.Errorf("%d of a mirrored pair are turned over", over)
	}
	one := benchWith(t, "width: 400\none-way: true\nfaces: two\n", triangle).lay()
	if one.Plan.Length > 2000 {
		t.Errorf("cloth with two right sides is laid at %v", one.Plan.Length)
	}
	if !one.Problem.Lay.Cloth.Reversible {
		t.Error("cloth with two right sides may not be turned over")
	}
}

// TestStages: the second stage goes into what the first leaves.
func TestStages(t *testing.T) {
	const pieces = `pieces:
  pocket: {allowance: 0, rectangle: [400, 300]}
  skirt: {allowance: 0, rectangle: [600, 500]}
  band: {allowance: 0, rectangle: [1000, 100]}
cut-order: {shell: [[skirt], [pocket]]}
`
	l := benchWith(t, "width: 1000\n", pieces).lay()
	is(t, l.Length, 600) // skirt and pocket side by side, the band after them
	var order []string
	for _, q := range l.Chalked {
		order = append(order, q.Piece)
		if want := map[string]int{"skirt": 1, "pocket": 2, "band": 3}[q.Piece]; q.Stage != want {
			t.Errorf("%s is laid in stage %d, want %d", q.Piece, q.Stage, want)
		}
	}
	if !slices.Equal(order, []string{"skirt", "pocket", "band"}) || l.Problem.Stages != 3 {
		t.Errorf("laid in the order %v in %d stages", order, l.Problem.Stages)
	}
	if s := l.Plan.Stages; len(s) != 3 || math.Abs(s[0]-500) > 1e-6 || math.Abs(s[1]-500) > 1e-6 {
		t.Errorf("stages end at %v", s)
	}
}

// TestFlaw: a flaw as long as the cloth is wide pushes the piece past it.
// Records have x from the left edge of the cloth, y from the cut end.
func TestFlaw(t *testing.T) {
	l := benchWith(t, "width: 1020\nselvedge: 10\nflaws: [{outline: [[500, 0], [520, 0], [520, 200], [500, 200]]}]\n", rectangles("1", "[600, 300]")).lay()
	is(t, l.Length, 500) // no 600 beside it on either hand
	l = benchWith(t, "width: 1020\nselvedge: 10\nflaws: [{outline: [[710, 0], [730, 0], [730, 200], [710, 200]]}]\n", rectangles("1", "[600, 300]")).lay()
	is(t, l.Length, 300)
	if q := l.Chalked[0]; q.SideTo > 700+1e-6 {
		t.Errorf("the piece covers the flaw: %+v", q)
	}
}

// TestRemnantBeside: beside a piece of 600 on 1000 a strip of 400 is left,
// less at most a few squares of the grid it is found with.
func TestRemnantBeside(t *testing.T) {
	l := benchWith(t, "width: 1000\n", rectangles("1", "[600, 1000]")).lay()
	if len(l.Left) != 1 {
		t.Fatalf("%d remnants", len(l.Left))
	}
	r := l.Left[0]
	if a := r.Area.Value.Number; a > 4000 || a < 3800 {
		t.Errorf("area %v cm², want just under 4000", a)
	}
	for _, q := range r.Outline {
		if q.X < 0 || q.X > 400 || q.Y < 0 || q.Y > 1000 {
			t.Errorf("a corner lies at %v", q)
		}
	}
}

// TestRemnantWithHole: where a flaw lies in the middle of what is left, what
// is left is cut in two, and neither covers the flaw.
func TestRemnantWithHole(t *testing.T) {
	l := benchWith(t, "width: 1000\nflaws: [{outline: [[480, 780], [520, 780], [520, 820], [480, 820]]}]\n",
		"pieces:\n  sash: {allowance: 0, rectangle: [100, 1600]}\n").lay()
	if len(l.Left) < 2 {
		t.Fatalf("%d remnants, want two or more", len(l.Left))
	}
	flaw := l.Problem.Lay.Cloth.Flaws[0]
	for _, r := range l.Plan.Remnants {
		if d := verify.Penetration(flaw, r); d > tolerance {
			t.Errorf("a remnant reaches %v into the flaw", d)
		}
	}
	sum := 0.0
	for _, r := range l.Left {
		sum += r.Area.Value.Number
	}
	if sum > 14400 || sum < 12500 { // 900 × 1600 less the flaw
		t.Errorf("%v cm² are left", sum)
	}
}

// TestWithin: four squares of 400 fit round a hole of 200 in a square of
// 1000; four of 450 do not, though they would without the hole.
func TestWithin(t *testing.T) {
	square := func(from, to float64) []lay.Point {
		return []lay.Point{{X: from, Y: from}, {X: to, Y: from}, {X: to, Y: to}, {X: from, Y: to}}
	}
	for _, c := range []struct {
		size  string
		holes [][]lay.Point
		fits  bool
	}{
		{"[400, 400]", [][]lay.Point{square(400, 600)}, true},
		{"[450, 450]", [][]lay.Point{square(400, 600)}, false},
		{"[450, 450]", nil, true},
	} {
		l := benchWith(t, "width: 1000\n", rectangles("4", c.size)).lay()
		p := l.Problem.within(square(0, 1000), c.holes...)
		plan, err := (&store{}).plan(t.Context(), p, lay.Options{Tries: 40_000})
		if err != nil {
			t.Fatal(err)
		}
		if fits := plan.Fits && len(plan.Unplaced) == 0; fits != c.fits {
			t.Errorf("four of %s with %d holes: fits %v, want %v", c.size, len(c.holes), fits, c.fits)
		}
	}
}

// TestShelf: a remnant on the shelf that holds everything is named.
func TestShelf(t *testing.T) {
	l := benchWith(t, "width: 1000\nremnants:\n  big end: [[0, 0], [700, 0], [700, 500], [0, 500]]\n  scrap: [[0, 0], [100, 0], [100, 500], [0, 500]]\n",
		rectangles("2", "[300, 400]")).lay()
	if len(l.Shelf) != 2 || l.Shelf[0].Plan == nil || l.Shelf[1].Plan != nil {
		t.Fatalf("%+v", l.Shelf)
	}
	if want := "it has 500 cm², and 2400 cm² are cut"; l.Shelf[1].Why != want {
		t.Errorf("%q, want %q", l.Shelf[1].Why, want)
	}
}

// TestChalkedInOrder: the big pieces come first, row by row and from the selvedge, whichever
// way round they are drawn; then the small ones, the larger before the smaller.
func TestChalkedInOrder(t *testing.T) {
	at := func(name string, end, side, long, wide float64, clockwise bool) Position {
		q := Position{Piece: name, End: end, EndTo: end + long, Side: side, SideTo: side + wide}
		q.Outline = []shape.Point{{X: end, Y: side}, {X: end + long, Y: side}, {X: end + long, Y: side + wide}, {X: end, Y: side + wide}}
		if clockwise {
			slices.Reverse(q.Outline)
		}
		return q
	}
	for _, clockwise := range []bool{false, true} {
		got := chalkedInOrder([]Position{
			at("tab", 0, 900, 50, 40, clockwise), at("back", 5, 430, 600, 410, clockwise), at("sleeve", 640, 0, 400, 500, !clockwise),
			at("front", 10, 0, 600, 400, clockwise), at("cuff", 100, 900, 90, 80, clockwise),
		})
		var names []string
		for i, q := range got {
			if names = append(names, q.Piece); q.Number != i+1 {
				t.Errorf("%s has the number %d at place %d", q.Piece, q.Number, i+1)
			}
		}
		if want := []string{"front", "back", "sleeve", "cuff", "tab"}; !slices.Equal(names, want) {
			t.Errorf("chalked in the order %q, want %q", names, want)
		}
	}
}
