package cutting

import (
	"math"
	"strings"
	"testing"
)

// onClothAt is where a point of a piece as it is drawn lies on the cloth, by its placement
// alone: mirrored, turned and moved.
func onClothAt(t *testing.T, l *Lay, piece string, copy int, x, y float64) (along, across float64) {
	t.Helper()
	plan := l.Plan
	if plan.Folded() {
		plan = l.Problem.Lay.Opened(plan)
	}
	for _, at := range plan.Placements {
		if l.Problem.Lay.Pieces[at.Piece].Name != piece || at.Copy != copy {
			continue
		}
		u, v := y, x // the engine has the grain along
		if at.Mirrored {
			v = -v
		}
		sin, cos := math.Sincos(at.Turn * math.Pi / 180)
		return at.X + u*cos - v*sin, at.Y + u*sin + v*cos
	}
	t.Fatalf("no %s %d", piece, copy)
	return 0, 0
}

// biasFronts are two fronts on the bias, sewn at the centre.
const biasFronts = `seams:
  centre: {join: [front.centre, front.centre]}
pieces:
  front:
    cut: 2
    grain: bias
    allowance: 15
    outline: {from: [0, 0], hem: [180, 0], side: [180, 300], shoulder: [60, 360], neck: [0, 300], centre: [0, 0]}
`

// Two fronts on the bias of cloth with a stripe of 24, of which one runs 12 from the
// selvedge, sewn at the centre: at each height of the seam one stripe goes on into its
// mirror image, so that they come to points. Down the seam the stripe goes by: 17 mm
// further on it is half a stripe on, on both sides.
func TestBiasStripesPointInTheSeam(t *testing.T) {
	for _, c := range []struct{ cloth, told string }{
		{"repeat: {across: 24, line: 12}\n", "|meets as a mirror image"},
		{"one-way: true\nrepeat: {across: 24, line: 12}\n", "|meets as a mirror image"},
		{"repeat: {across: 24}\n", "|cannot meet: stripes on the bias meet as mirror images, and " + noLine},
		{"uneven: true\nrepeat: {across: 24, line: 12}\n", "|cannot meet: stripes on the bias meet as mirror images, and an uneven pattern has none"},
		{"repeat: {along: 30}\n", "meets|"},
		{"repeat: {along: 30, across: 24, line: 12}\n", "meets|meets as a mirror image"},
	} {
		l := benchWith(t, "width: 900\n"+c.cloth, "match: [centre]\n"+biasFronts).lay()
		if l.Plan == nil {
			t.Fatal(c.cloth, l.Why)
		}
		if got := told(l); !strings.HasSuffix(got, ": "+c.told) {
			t.Errorf("%q: told %q, want %q", c.cloth, got, c.told)
		}
		for _, y := range []float64{0, 17, 150, 300} {
			x1, y1 := onClothAt(t, l, "front", 0, 0, y)
			x2, y2 := onClothAt(t, l, "front", 1, 0, y)
			if l.Problem.Lay.Cloth.RepeatAlong > 0 && !turnedApart(l) {
				meets(t, c.cloth+"along", x1, x2, 30)
			}
			if strings.Contains(c.told, "mirror image") && !strings.Contains(c.told, "cannot") {
				// of an even stripe both sides of a leading line are alike
				d1, d2 := math.Remainder(y1-12, 24), math.Remainder(y2-12, 24)
				if math.Abs(math.Abs(d1)-math.Abs(d2)) > closeEnough {
					t.Errorf("%q at %g: %.2f and %.2f from a leading line", c.cloth, y, d1, d2)
				}
			}
		}
		for _, f := range l.LeftOver {
			is(t, f, 0)
		}
	}
}

// turnedApart reports whether one of two fronts lies half a turn from the other: then their
// places along the cloth are alike as mirror images in the cut end.
func turnedApart(l *Lay) bool {
	if l.Plan.Folded() {
		return false
	}
	a, b := l.Plan.Placements[0].Turn, l.Plan.Placements[1].Turn
	return math.Abs(math.Remainder(a+b, 360)) > 1
}

// A front and a back on the bias, each cut whole: the back leans the other way, so that at
// both sides the stripes go on at every height.
func TestBiasSidesMatch(t *testing.T) {
	skirt := strings.ReplaceAll(straightSkirt, "    cut: 1 on fold\n", "    cut: 1 on fold\n    grain: bias\n")
	skirt = strings.ReplaceAll(skirt, "[140,", "[150,")
	l := benchWith(t, "width: 900\none-way: true\nrepeat: {along: 60}\n", "match: [sides]\n"+skirt).lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	if got, want := told(l), "sides, front.side to back.side: meets|"; got != want {
		t.Errorf("told %q, want %q", got, want)
	}
	for _, y := range []float64{0, 130, 400} {
		for _, side := range []float64{1, -1} {
			front, _ := onClothAt(t, l, "front", 0, side*150, y)
			back, _ := onClothAt(t, l, "back", 0, -side*150, y)
			meets(t, "side", front, back, 60)
		}
	}
	is(t, l.LeftOver[0], 0)
}

// Buttons 18 inside the centre of two fronts: the line they lie on, where one front laps
// over the other, lies on a stripe in both.
func TestButtonLineLiesOnAStripe(t *testing.T) {
	l := benchWith(t, "width: 900\nrepeat: {across: 24, line: 12}\n", "match: [buttons]\nnotions:\n  buttons: {along: 18 inside front.centre, count: 4, size: 15}\n"+twoFronts).lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	if got, want := told(l), "buttons, front.centre: |on a leading line"; got != want {
		t.Errorf("told %q, want %q", got, want)
	}
	for copy := range 2 {
		_, at := onClothAt(t, l, "front", copy, 18, 100)
		meets(t, "the buttons", at, 12, 24)
	}
}

// A flap set on a front is matched as a pocket is: its upper left corner lies in the
// pattern as the place does that it is sewn to.
func TestFlapMatchesWhatIsUnderIt(t *testing.T) {
	const flap = `seams:
  flap: {type: patch, join: [flap, front], at: [60, 200]}
`
	l := benchWith(t, "width: 900\nrepeat: {along: 70, across: 24, line: 12}\n", "match: [flap]\n"+flap+twoFronts+"  flap: {cut: 2, allowance: 10, rectangle: [80, 50]}\n").lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	t.Log(told(l))
	x1, y1 := on(t, l, "front", 0, 60, 200)
	x2, y2 := on(t, l, "flap", 0, 0, 50)
	meets(t, "along", x1, x2, 70)
	meets(t, "across", y1, y2, 24)
}
