package derive

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// slanted is a front and a back whose sides run 60 across and 80 up: at the
// waist both corners measure 180° − atan(80/60) = 126.87°, at the top 53.13°.
const slanted = `
cloth: {shell: linen, lining: linen}
pieces:
  front:
    of: shell
    outline:
      from: [0, 0]
      waist: [180, 0]
      side: [240, 80]
      top: [0, 80]
      centre: [0, 0]
    notches: {side: FRONT}
  back:
    of: shell
    outline:
      from: [0, 0]
      waist: [170, 0]
      side: [230, 80]
      top: [0, 80]
      centre: [0, 0]
    notches: {side: BACK}
seams: {sides: {join: [JOIN], type: plain}}
`

func slantedText(front, back float64, join string) string {
	return strings.NewReplacer("FRONT", fmt.Sprint(front), "BACK", fmt.Sprint(back), "JOIN", join).Replace(slanted)
}

func faultsSaying(g *Garment, part string) int {
	n := 0
	for _, f := range g.Faults {
		if strings.Contains(f.Message, part) {
			n++
		}
	}
	return n
}

func TestTruingByHand(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+slantedText(30, 36, "front.side, back.side"))
	corner := 180 - math.Atan2(80, 60)*180/math.Pi
	garmentIs(t, g, map[string]float64{
		"truing.sides.waist.line": 2*corner - 180, "truing.sides.top.line": 180 - 2*corner, "truing.sides.step": 0,
		"truing.sides.notch-1": -6, "truing.sides.stretch-1": -6, "truing.sides.stretch-2": 6,
	})
	for part, want := range map[string]int{"comes to a": 2, "the notches are 6 mm apart": 1, "the edges differ by": 0} {
		if n := faultsSaying(g, part); n != want {
			t.Errorf("%d faults say %q, want %d: %v", n, part, want, g.Faults)
		}
	}
	for _, f := range g.Faults {
		if !f.At.Given() || f.Hint == "" {
			t.Errorf("%v has no place or says nothing of what would mend it", f)
		}
		if strings.Contains(f.Message, "6 mm apart") && f.Hint != "move that of back.side to at: 30" {
			t.Errorf("the notch is mended by %q", f.Hint)
		}
	}
}

// What a check says would mend a line, written into the record, mends it.
func TestMendsMend(t *testing.T) {
	d := roomWith(t).desk()
	text := strings.ReplaceAll(slantedText(30, 30, "front.side, back.side"), "[240, 80]", "[190, 80]")
	text = strings.ReplaceAll(text, "[230, 80]", "[180, 80]")
	before, _ := d.derive(t, head+text)
	form := regexp.MustCompile(`(front|back)\.(waist|top) with curve: (\[\[.*?\]\])`)
	for _, f := range before.Faults {
		for _, m := range form.FindAllStringSubmatch(f.Hint, -1) {
			at := strings.Index(text, "\n  "+m[1]+":\n")
			line := at + strings.Index(text[at:], "\n      "+m[2]+": ") + len(m[2]) + 9
			end := line + strings.Index(text[line:], "\n")
			text = text[:line] + "{to: " + text[line:end] + ", curve: " + m[3] + "}" + text[end:]
		}
	}
	after, _ := d.derive(t, head+text)
	if was, is := faultsSaying(before, "comes to a "), faultsSaying(after, "comes to a "); was != 2 || is != 0 {
		t.Errorf("%d lines did not run smooth, and %d do not when mended: %v", was, is, after.Faults)
	}
	for _, id := range []string{"truing.sides.waist.line", "truing.sides.top.line"} {
		if v := after.find(t, id).Value.Number; math.Abs(v) > 0.2 {
			t.Errorf("%s turns by %v when mended", id, v)
		}
	}
}

// Walking a seam from its second side gives the same with the sign turned.
func TestWalkBothWays(t *testing.T) {
	d := roomWith(t).desk()
	rapid.Check(t, func(rt *rapid.T) {
		a := float64(rapid.IntRange(1, 99).Draw(rt, "front"))
		b := float64(rapid.IntRange(1, 99).Draw(rt, "back"))
		one, _ := d.derive(t, head+slantedText(a, b, "front.side, back.side"))
		two, _ := d.derive(t, head+slantedText(a, b, "back.side, front.side"))
		for _, id := range []string{"truing.sides.notch-1", "truing.sides.stretch-1", "truing.sides.stretch-2", "truing.sides.step"} {
			if x, y := one.find(t, id).Value.Number, two.find(t, id).Value.Number; math.Abs(x+y) > 1e-6 {
				rt.Fatalf("%s is %v, and from the other side %v", id, x, y)
			}
		}
		for _, id := range []string{"truing.sides.waist.line", "truing.sides.top.line"} {
			if x, y := one.find(t, id).Value.Number, two.find(t, id).Value.Number; math.Abs(x-y) > 1e-6 {
				rt.Fatalf("%s is %v, and from the other side %v", id, x, y)
			}
		}
	})
}

// A back drawn as in a mirror, clockwise or against the clock, is trued as one
// that is not.
func TestMirroredTruing(t *testing.T) {
	d := roomWith(t).desk()
	rapid.Check(t, func(rt *rapid.T) {
		at := float64(rapid.IntRange(1, 99).Draw(rt, "back"))
		plain := slantedText(40, at, "front.side, back.side")
		i := strings.Index(plain, "  back:")
		clockwise := plain[:i] + strings.NewReplacer("[170, 0]", "[-170, 0]", "[230, 80]", "[-230, 80]").Replace(plain[i:])
		counter := plain[:i] + `  back:
    of: shell
    outline:
      from: [0, 0]
      centre: [0, 80]
      top: [-230, 80]
      side: [-170, 0]
      waist: [0, 0]
    notches: {side: ` + fmt.Sprint(100-at) + `}
` + plain[strings.Index(plain, "seams:"):]
		want, _ := d.derive(t, head+plain)
		for _, text := range []string{clockwise, counter} {
			got, _ := d.derive(t, head+text)
			for _, c := range want.Truing {
				if have := got.find(t, c.Off.ID).Value.Number; math.Abs(have-c.Off.Value.Number) > 1e-6 {
					rt.Fatalf("%s is %v, mirrored %v\n%s", c.Off.ID, c.Off.Value.Number, have, text)
				}
			}
		}
	})
}

// Ease that is meant between two notches only: 100 walked against 110, ten of
// them between the notches.
func TestStretches(t *testing.T) {
	const text = `
cloth: {shell: linen}
pieces:
  cap: {rectangle: [50, 110], notches: {right: [{at: 30, name: a}, {at: 80, name: b}]}, edges: {right: {name: head}}}
  front: {rectangle: [50, 100], notches: {left: [{at: 30, name: b}, {at: 70, name: a}]}, edges: {left: {name: armhole}}}
seams: {armhole: {join: [cap.head, front.armhole], type: plain, ease: EASE from a to b}}
`
	for ease, bad := range map[string]int{"10": 0, "2": 2} { // the seam as a whole, and the stretch
		g, faults := roomWith(t).desk().derive(t, head+strings.Replace(text, "EASE", ease, 1))
		if len(faults) > 0 {
			t.Error(faults)
		}
		garmentIs(t, g, map[string]float64{"truing.armhole.stretch-1": 0, "truing.armhole.stretch-3": 0, "truing.armhole.head": 10})
		if len(g.Faults) != bad {
			t.Errorf("ease %s: %v", ease, g.Faults)
		}
	}
}

func TestOtherChecks(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen, lining: linen}
pieces:
  front:
    of: shell
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: {to: [200, 0], level: waist}
      side: [200, 300]
      top: [30, 300]
      centre: {to: [0, 0], fold: true}
    darts: {waist: {at: 100, width: 20, point: [90, 80]}}
  inner: {of: lining, rectangle: [352, 300], edges: {bottom: {level: waist}}}
  sleeve: {of: shell, rectangle: [160, 300], edges: {top: {name: cap}}}
  yoke: {of: shell, rectangle: [100, 100], edges: {top: {name: armhole}}}
seams: {armhole: {join: [sleeve.cap, yoke.armhole], type: plain, ease: 60}}
`)
	garmentIs(t, g, map[string]float64{
		"truing.front.grain":       math.Atan2(30, 300) * 180 / math.Pi,
		"truing.front.dart-1.legs": 80 - math.Hypot(20, 80),
		"truing.lining.waist":      352 - 2*180,
		"truing.armhole.head":      60,
	})
	for part, mend := range map[string]string{
		"the fold of front leans 6°":           "draw the fold straight up, or turn the piece by 6°",
		"the legs of the dart on front.waist":  "move its point to [100, 80]",
		"the lining at waist is 8 mm narrower": "widen the lining by 8 mm in all",
		"the sleeve head at armhole: 60 mm":    "take 20 mm out of the sleeve head",
	} {
		found := false
		for _, f := range g.Faults {
			found = found || strings.Contains(f.Message, part) && f.Hint == mend
		}
		if !found {
			t.Errorf("nothing says %q and is mended by %q: %v", part, mend, g.Faults)
		}
	}
}

// A lining's hem hangs free, so that it may be as narrow as it likes; a waist is
// sewn in.
func TestLiningHemHangsFree(t *testing.T) {
	g, _ := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen, lining: linen}
pieces:
  front: {of: shell, rectangle: [500, 300], edges: {bottom: {level: hem}, top: {level: waist}}}
  inner: {of: lining, rectangle: [300, 300], edges: {bottom: {level: hem}, top: {level: waist}}}
`)
	told := 0
	for _, f := range g.Faults {
		if strings.Contains(f.Message, "narrower than the shell") {
			told++
			if !strings.Contains(f.Message, "the lining at waist is 200 mm narrower") {
				t.Error(f.Message)
			}
		}
	}
	if told != 1 {
		t.Errorf("told of %d levels", told)
	}
}

// Limits come from the build, else the workroom, else the trade's table.
func TestTruingLimits(t *testing.T) {
	for _, c := range []struct {
		room, build string
		want        int
	}{
		{"name: W\n", "", 2},
		{"name: W\nusual: {truing: {angle: 80}}\n", "", 0},
		{"name: W\nusual: {truing: {angle: 80}}\n", "usual: {truing: {angle: 70}}\n", 2},
	} {
		g, _ := roomWith(t).file("content/workroom.yaml", c.room).desk().derive(t, head+slantedText(30, 30, "front.side, back.side")+c.build)
		if n := faultsSaying(g, "comes to a "); n != c.want {
			t.Errorf("%q, %q: %d lines are told of, want %d", c.room, c.build, n, c.want)
		}
	}
}

// TestTurnedCornerIsNoLine: a front and its lining, sewn to each other round a corner
// of 60°, lie on each other there: no line goes on from one to the other, and none
// turns by 2 × 60° − 180°.
func TestTurnedCornerIsNoLine(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
pieces:
  front: {of: shell, cut: 1, outline: {hem: [300, 0], edge: [150, 259.8], centre: [0, 0]}}
  lining: {like: front, of: lining}
seams:
  edges: {join: [front.edge, lining.edge], type: enclosed, allowance: 15}
  centres: {join: [front.centre, lining.centre], type: enclosed, allowance: 15}
`)
	for _, f := range g.Figures() {
		if strings.HasSuffix(f.ID, ".line") && !strings.HasPrefix(f.Of, "front.hem ") {
			t.Errorf("%s of %s: %v", f.Title, f.Of, f.Value)
		}
	}
}
