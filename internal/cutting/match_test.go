package cutting

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/lay"
)

// on is where a point of a piece as it is drawn lies in the pattern, worked
// out from the placements alone: along the cloth and across it.
func on(t *testing.T, l *Lay, piece string, copy int, x, y float64) (along, across float64) {
	t.Helper()
	for i := range l.Problem.Lay.Pieces {
		if l.Problem.Lay.Pieces[i].Name != piece {
			continue
		}
		at := lay.TiedPoint{Piece: i, Copy: copy, At: lay.Point{X: y, Y: x}}
		along, across, ok := inPattern(l, at)
		if !ok {
			t.Errorf("%s %d is not laid so that its place in the pattern is known", piece, copy)
		}
		return along, across
	}
	t.Fatalf("no piece %s", piece)
	return 0, 0
}

// inPattern is how far beyond a leading line of the pattern a point of a copy lies, seen
// as its piece is worn, from 0 to the repeat; false where that copy is not laid, or turned
// so that nobody can tell.
func inPattern(l *Lay, point lay.TiedPoint) (along, across float64, ok bool) {
	cloth := &l.Problem.Lay.Cloth
	within := func(v, repeat float64) float64 {
		if v = math.Mod(v, repeat); v < 0 {
			v += repeat
		}
		return v
	}
	for _, at := range l.Plan.Placements {
		if at.Piece != point.Piece || at.Copy != point.Copy && !(at.Pair && at.Copy == point.Copy-1) {
			continue
		}
		x, y, way := point.At.X, point.At.Y, 1.0
		if at.Mirrored {
			y = -y
		}
		switch at.Turn {
		case 0:
		case 180, -180:
			way = -1
		default:
			return 0, 0, false
		}
		x, y = at.X+way*x, at.Y+way*y-cloth.Line
		return within(way*x, cloth.RepeatAlong), within(way*y, cloth.RepeatAcross), true
	}
	return 0, 0, false
}

// meets wants two phases to be the same, to half a millimetre.
func meets(t *testing.T, what string, a, b, repeat float64) {
	t.Helper()
	if off := math.Abs(math.Remainder(a-b, repeat)); off > 0.5 {
		t.Errorf("%s: off by %.2f: at %.2f and %.2f of %g", what, off, a, b, repeat)
	}
}

// told are the matches of a lay in words.
func told(l *Lay) string {
	var out []string
	for _, m := range l.Matches {
		out = append(out, m.What+", "+m.Lines+": "+m.Along+"|"+m.Across)
	}
	return strings.Join(out, "\n")
}

const straightSkirt = `seams:
  sides: {join: [front.side, back.side]}
pieces:
  front:
    cut: 1 on fold
    allowance: 0
    outline: {from: [0, 0], hem: {to: [150, 0], allowance: 40}, side: [150, 400], waist: [0, 400], centre: fold}
  back:
    cut: 1 on fold
    allowance: 0
    outline: {from: [0, 0], hem: {to: [140, 0], allowance: 15}, side: [140, 400], waist: [0, 400], centre: fold}
`

// Side seams from the hem up. The front, 300 wide, is cut 40 below its hem and is 440 long,
// the back, 280 wide, is cut 15 below it and 415 long. Beside each other on 640 the front
// lies at the cut end, its hem on 40; the back begins at 25, where its hem is on 40 too, and
// both end at 440. Flush with the cut end the stripes would be 25 off.
func TestSidesMatchFromTheHemUp(t *testing.T) {
	l := benchWith(t, "width: 640\none-way: true\nrepeat: {along: 90}\n", "match: [sides]\n"+straightSkirt).lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	is(t, l.Length, 440)
	is(t, l.MatchCost, 0) // without matching it is 440 too: the front alone is
	is(t, l.LeftOver[0], 0)
	for _, y := range []float64{0, 130, 400} {
		front, _ := on(t, l, "front", 0, 150, y)
		back, _ := on(t, l, "back", 0, 140, y)
		left, _ := on(t, l, "front", 0, -150, y)
		meets(t, "right", front, back, 90)
		meets(t, "left", left, back, 90)
	}
	if got, want := told(l), "sides, front.side to back.side: meets|"; got != want {
		t.Errorf("told %q, want %q", got, want)
	}
}

// The same on cloth that shrinks: a repeat of 100 is 90 once it has lost 10 %.
func TestTheRepeatShrinks(t *testing.T) {
	l := benchWith(t, "width: 640\none-way: true\nrepeat: {along: 100}\nshrink: {along: 10}\n", "match: [sides]\n"+straightSkirt).lay()
	is(t, l.Length, 440)
	front, _ := on(t, l, "front", 0, 150, 0)
	back, _ := on(t, l, "back", 0, 140, 0)
	meets(t, "side", front, back, 90)
}

const twoFronts = `pieces:
  front:
    cut: 2
    allowance: 0
    outline: {from: [0, 0], hem: [180, 0], side: [180, 300], shoulder: [60, 360], neck: [0, 300], centre: [0, 0]}
`

// Two fronts at the centre: on stripes of 24, of which one runs 12 from the selvedge, each
// centre front lies on one. Where nobody knows where one runs, the two centres lie at the
// same place of the repeat.
func TestFrontsMatchAtTheCentre(t *testing.T) {
	for _, line := range []string{"", ", line: 12"} {
		l := benchWith(t, "width: 900\nrepeat: {across: 24, along: 30"+line+"}\n", "match: [front.centre]\n"+twoFronts).lay()
		if l.Plan == nil {
			t.Fatal(l.Why)
		}
		x1, y1 := on(t, l, "front", 0, 0, 0)
		x2, y2 := on(t, l, "front", 1, 0, 0)
		meets(t, "along"+line, x1, x2, 30)
		meets(t, "across"+line, y1, y2, 24)
		if line != "" {
			meets(t, "on the line", y1, 0, 24)
		}
		if l.Plan.Folded() {
			t.Error("cloth whose stripes are matched across is laid folded")
		}
	}
}

// A pocket 100 wide on the left front, its upper left corner at 40 across and 250 up.
const pocketed = twoFronts + `  pocket: {cut: 1, allowance: 0, outline: {from: [0, 0], hem: [100, 0], side: [100, 120], top: [0, 120], in: [0, 0]}}
seams:
  pocket: {join: [pocket, left front], at: [40, 250]}
`

func TestPocketOnAStripe(t *testing.T) {
	l := benchWith(t, "width: 900\nrepeat: {across: 24, along: 30, line: 12}\n", "match: [pocket]\n"+pocketed).lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	px, py := on(t, l, "pocket", 0, 0, 120)
	fx, fy := on(t, l, "front", 0, 40, 250)
	meets(t, "along", px, fx, 30)
	meets(t, "across", py, fy, 24)
	px, py = on(t, l, "pocket", 0, 100, 0) // its other corner, 100 on and 120 down
	fx, fy = on(t, l, "front", 0, 140, 130)
	meets(t, "along, below", px, fx, 30)
	meets(t, "across, beyond", py, fy, 24)
}

// Side seams that lean 8.5° both, as mirror images: 60 in on 400. The hem of the front is
// 300 wide, the back's 264: a repeat less, so that both sides can meet. Stripes along the cloth
// meet in points where one knows a leading line, and not where the pattern is uneven.
func TestSlantedSeamsMeetTheirMirrorImage(t *testing.T) {
	slanted := strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(straightSkirt, "side: [150, 400]", "side: [90, 400]"), "side: [140, 400]", "side: [72, 400]"), "[140, 0]", "[132, 0]")
	slanted = strings.ReplaceAll(strings.ReplaceAll(slanted, "waist", "top"), ", allowance: 40", "")
	slanted = strings.ReplaceAll(slanted, ", allowance: 15", "")
	l := benchWith(t, "width: 640\nrepeat: {across: 36, line: 10}\n", "match: [sides]\n"+slanted).lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	for _, part := range []float64{0, 0.3, 1} { // from hem to top
		_, front := on(t, l, "front", 0, 150-60*part, 400*part)
		_, back := on(t, l, "back", 0, -(132 - 60*part), 400*part)
		meets(t, "mirror image", front, -back, 36)
	}
	if got, want := told(l), "sides, front.side to back.side: |meets as a mirror image"; got != want {
		t.Errorf("told %q, want %q", got, want)
	}
	for cloth, want := range map[string]string{
		"repeat: {across: 36}\n":                         "does not say where a leading line runs",
		"repeat: {across: 36, line: 10}\nuneven: true\n": "an uneven pattern has none",
	} {
		if got := told(benchWith(t, "width: 640\n"+cloth, "match: [sides]\n"+slanted).lay()); !strings.Contains(got, want) {
			t.Errorf("told %q, want %q", got, want)
		}
	}
}

// An uneven plaid makes the cloth one-way by itself: the two lie one after the other, both
// upright, on repeats of 90: 440 of the front, then the back from the next place at which
// its hem, 15 from its end, lies on 40 modulo 90: 455 + 15 = 470 = 20 modulo 90, so 20 more:
// 475 to 890. With the back first: its hem on 15, the front's on 15 modulo 90, from 415
// on: 465 = 15 + 450, so that it begins at 425 and ends at 865.
func TestUnevenIsOneWay(t *testing.T) {
	l := benchWith(t, "width: 320\nuneven: true\nrepeat: {along: 90}\n", "match: [sides]\n"+straightSkirt).lay()
	is(t, l.Length, 865)
	is(t, l.MatchCost, 10) // 440 + 415 without
	for _, q := range l.Chalked {
		if q.Turn != 0 {
			t.Errorf("%s is turned by %g", q.Piece, q.Turn)
		}
	}
}

// A piece on the bias meets in no pattern with one that is not, and that is told.
func TestBiasMeetsNoStraightPiece(t *testing.T) {
	bias := strings.Replace(straightSkirt, "  back:\n", "  back:\n    grain: bias\n", 1)
	l := benchWith(t, "width: 900\nrepeat: {along: 90}\n", "match: [sides]\n"+bias).lay()
	if got := told(l); !strings.Contains(got, "cannot meet: back is cut on the bias and front is not") {
		t.Errorf("told %q", got)
	}
}

// Sides that lean unlike: 50 in on 400 and straight. The front's edge is √(400² + 50²) =
// 403.11 long, the back's 403.11: at the top the front has risen 400 and the back 403.11,
// so the stripes are 3.11 off there, and meet at the hem.
func TestUnlikeSidesTellWhatIsLeft(t *testing.T) {
	unlike := strings.Replace(straightSkirt, "side: [150, 400]", "side: [100, 400]", 1)
	unlike = strings.ReplaceAll(strings.Replace(unlike, "side: [140, 400], waist: [0, 400]", "side: [140, 403.113], waist: [0, 403.113]", 1), "waist", "top")
	l := benchWith(t, "width: 640\nrepeat: {along: 90}\n", "match: [sides]\n"+unlike).lay()
	m := l.Problem.Matches[0]
	if math.Abs(m.Along.Off) > 0.001 || math.Abs(m.Along.All-3.113) > 0.01 {
		t.Errorf("off by %.3f at the hem and %.3f at most, want 0 and 3.113: %s", m.Along.Off, m.Along.All, told(l))
	}
	if !strings.Contains(told(l), "7°") { // atan(50 / 400) = 7.1°
		t.Errorf("told %q", told(l))
	}
}
