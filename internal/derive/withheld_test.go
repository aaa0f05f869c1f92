package derive

import (
	"hembook/internal/garment"
	"math"
	"strings"
	"testing"
)

// A skirt of two panels, 400 wide and 600 long, with plain sides: each of the
// four side allowances of 15 gives 9, for 6 must stay.
const plainSkirt = `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [400, 600], levels: {hip: 400}}
  back: {of: shell, cut: 1, rectangle: [400, 600], levels: {hip: 400}}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
`

// gores is a skirt of six gores whose seams change at the hip, from French above
// to plain below.
func gores(string) string {
	return `cloth: {shell: linen}
pieces:
  gore:
    cut: 6 alike
    outline: {hem: [200, 0], right: [180, 500], upper right: [150, 700], waist: [50, 700], upper left: [20, 500], left: [0, 0]}
    allowance: 15
    levels: {hip: 500}
seams:
  upper: {join: [gore.upper right, gore.upper left], type: french, first: 4, second: 8}
  lower: {join: [gore.right, gore.left], type: plain}
`
}

// dress is a bodice and a skirt of two panels each, with plain sides above the
// waist and French ones below.
func dress(string) string {
	return `cloth: {shell: linen}
pieces:
  front: {cut: 1, rectangle: [400, 300], edges: {bottom: {level: waist}}}
  back: {cut: 1, rectangle: [400, 300], edges: {bottom: {level: waist}}}
  skirt: {rectangle: [400, 700], cut: 2}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
  skirt: {join: [skirt.right, skirt.left], type: french}
  waist: {join: [[front.bottom, back.bottom], [skirt.top]], type: plain-to-one-side}
`
}

var swapped = strings.NewReplacer("right side: {join: [front.right, back.left], type: plain}", "right side: {join: [front.right, back.left], type: french}",
	"left side: {join: [front.left, back.right], type: plain}", "left side: {join: [front.left, back.right], type: french}",
	"skirt: {join: [skirt.right, skirt.left], type: french}", "skirt: {join: [skirt.right, skirt.left], type: plain}")

// TestLetOutWithheld: what somebody unpicks by is shown where the plain sum is
// right, and is not known where an allowance is not what it was cut, or where
// something is caught. The values are those of the trade, worked by hand.
func TestLetOutWithheld(t *testing.T) {
	swap := func(old, new string) func(string) string {
		return func(s string) string { return strings.Replace(s, old, new, 1) }
	}
	add := func(more string) func(string) string { return func(s string) string { return s + more } }
	for _, c := range []struct {
		name   string
		change func(string) string
		level  string
		want   float64
		why    string // part of the because; empty where the figure is known
	}{
		{"plain sides", add(""), "hip", 36, ""},
		{"pressed to one side", swap("type: plain", "type: plain-to-one-side"), "hip", 36, ""},
		{"overlocked edges of a plain seam", add("finishes: {neat: {of: [front.right, back.left], type: overlocked-edge}}\n"), "hip", 36, ""},
		{"buttons down a side are no zip", add("notions: {buttons: {count: 4, along: front.right, first: 10, every: 60}}\n"), "hip", 36, ""},
		{"a stay at the waist leaves the hip", add("notions: {waist stay: {length: 700, where: waist}}\n"), "hip", 36, ""},
		{"felled", swap("type: plain", "type: flat-felled"), "hip", 18, ""},                            // one plain side of two; a fell has nothing to give
		{"French", swap("type: plain", "type: french"), "hip", 28, ""},                                 // one side: 2 × (9 + 3 − 7) and 2 × 9
		{"overlocked together", swap("type: plain", "type: overlocked"), "hip", 18, ""},                // the knife left the stitch alone
		{"bound", swap("type: plain", "type: hong-kong"), "hip", 33.4, ""},                             // 2 × (15.875 − (3.175 + 4 + 1)) and 2 × 9
		{"taped", swap("type: plain", "type: butted-taped"), "hip", 18, ""},                            // what is butted has nothing
		{"zip in the side", add("notions: {zip: {length: 200, along: front.right}}\n"), "hip", 18, ""}, // the other side alone
		{"zip that ends above", add("notions: {zip: {length: 150, along: front.right}}\n"), "hip", 36, ""},
		{"bone in the side", add("notions: {boning: {in: [left side]}}\n"), "hip", 18, ""}, // the other side alone: what is left of this one holds the bone
		{"stay at the hip", func(s string) string {
			return strings.ReplaceAll(s, "hip: 400", "waist: 400") + "notions: {waist stay: {length: 700, where: waist}}\n"
		}, "waist", 0, ""},
		{"band at the waist", func(s string) string {
			s = strings.ReplaceAll(s, "levels: {hip: 400}", "edges: {top: {level: waist}}")
			s = strings.Replace(s, "seams:\n", "  band: {of: shell, cut: 1, rectangle: [800, 40]}\nseams:\n", 1)
			return s + "  waist: {join: [[front.top, back.top], [band.bottom]], type: plain}\n"
		}, "waist", 0, ""},
		{"lining", func(s string) string {
			s = strings.Replace(s, "{shell: linen}", "{shell: linen, lining: linen}", 1)
			return strings.Replace(s, "seams:\n", "  front lining: {like: front, of: lining}\nseams:\n", 1)
		}, "hip", 0, "front lining goes round here too, and nothing tells what it is sewn to"},
		{"fused", func(s string) string {
			s = strings.Replace(s, "{shell: linen}", "{shell: linen, fusing: linen}", 1)
			return strings.Replace(s, "front: {of: shell", "front: {of: [shell, fusing]", 1)
		}, "hip", 36, ""}, // what is fused lies in the same seam
		{"a turned edge takes of the allowance", add("finishes: {turned: {of: [front.right, back.left], type: turned-edge}}\n"), "hip", 0, "turned uses of the allowance"},
		{"a corner with another seam", func(s string) string {
			s = strings.ReplaceAll(s, "hip: 400", "hip: 599")
			s = strings.Replace(s, "seams:\n", "  band: {of: shell, cut: 1, rectangle: [800, 40]}\nseams:\n", 1)
			return s + "  waist: {join: [[front.top, back.top], [band.bottom]], type: plain}\n"
		}, "hip", 0, ""}, // the band, in one, is sewn on there
		{"elastic at the waist", func(s string) string {
			s = strings.ReplaceAll(s, "hip: 400", "hip: 400}, edges: {top: {level: waist}")
			return s + "finishes: {casing: {of: [front.top, back.top], type: casing}}\nnotions: {elastic: {length: 660, in: casing}}\n"
		}, "waist", 0, ""},
		{"where two seams of a gore meet", gores, "hip", 48, ""}, // 6 × 2 × (8 + 3 − 7), the French seams above; the plain ones below have 9
		{"a waist seam", dress, "waist", 20, ""},                 // the skirt's 2 French seams, 4 × 5; the bodice's sides have 4 × 9
		{"a waist seam, the other way", func(s string) string { return swapped.Replace(dress(s)) }, "waist", 20, ""},
		{"a gathered skirt does not hold", func(s string) string {
			return strings.Replace(strings.Replace(dress(s), "{rectangle: [400, 700], cut: 2}", "{rectangle: [600, 700], cut: 2}", 1), "type: plain-to-one-side", "gather: 1.5, type: plain", 1)
		}, "waist", 36, ""},
	} {
		g := deriveClean(t, roomWith(t), c.change(plainSkirt))
		l := g.level(t, c.level)
		switch v := l.LetOut.Value; {
		case c.why == "" && (!v.Known() || v.Number != c.want):
			t.Errorf("%s: can be let out by %v %s, want %v", c.name, v.Number, v.Why, c.want)
		case c.why != "" && !strings.Contains(v.Why, c.why):
			t.Errorf("%s: can be let out by %v because %q, want it withheld with %q", c.name, v.Number, v.Why, c.why)
		}
	}
}

// TestLetOutOfALeg: a leg of two felled seams trimmed to 6 gives nothing as a
// fell, and one untrimmed side of 15 less 6 at each seam as a plain seam: 18,
// where 72 was shown once. The sum of both legs is not told as one.
func TestLetOutOfALeg(t *testing.T) {
	legs := `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 2, rectangle: [250, 700], levels: {knee: 400}}
  back: {of: shell, cut: 2, rectangle: [270, 700], levels: {knee: 400}}
seams:
  outside: {join: [front.right, back.left], type: KIND}
  inseam: {join: [front.left, back.right], type: KIND}
`
	for _, c := range []struct {
		kind       string
		own, plain float64 // plain is 0 where it gives no more
	}{
		{"flat-felled", 0, 18},
		{"plain", 36, 0},
		{"french", 20, 24},                      // 9 + 3 kept, 2 × 3 + 1 or 6 to stay
		{"french, first: 5, second: 7", 12, 16}, // 7 + 3 kept
		{"topstitched-open", 12, 36},            // 15 less 6 and 6, and the rows show
		{"overlocked", 0, 0},
	} {
		l := deriveClean(t, roomWith(t), strings.ReplaceAll(legs, "KIND", c.kind)).level(t, "knee")
		if l.Finished.Value.Number != 520 || l.LetOut.Value.Number != c.own || !l.LetOut.Value.Known() || l.LetOutPlain.Value.Number != c.plain {
			t.Errorf("%s: knee %v, let out by %v %s, as plain seams %v; want %v and %v", c.kind, l.Finished.Value, l.LetOut.Value, l.LetOut.Value.Why, l.LetOutPlain.Value, c.own, c.plain)
		}
		if shows := strings.Contains(l.LetOutPlain.Working.Rule, "old rows show"); shows != (c.kind == "flat-felled" || c.kind == "topstitched-open") {
			t.Errorf("%s: %s", c.kind, l.LetOutPlain.Working.Rule)
		}
	}
	// Six edges of French seams of 6, 3 and 9 where 5 must stay: 9 + 3 kept, less
	// 2 × 3 + 1, is 5 a side, and less 5, as plain seams, 7.
	panels := `cloth: {shell: linen}
pieces:
  panel: {of: shell, cut: 3, rectangle: [300, 700], levels: {hip: 400}}
seams:
  panels: {join: [panel.right, panel.left], type: french}
`
	room := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nusual: {least-margin: 5}\n")
	if l := deriveClean(t, room, panels).level(t, "hip"); l.LetOut.Value.Number != 30 || l.LetOutPlain.Value.Number != 42 {
		t.Errorf("French panels: let out by %v, as plain seams %v", l.LetOut.Value, l.LetOutPlain.Value)
	}
	skirt := strings.Replace(strings.ReplaceAll(legs, "KIND", "plain"), "join: [front.left, back.right]", "join: [front.left, front.left]", 1)
	skirt = strings.Replace(skirt, "  inseam: {", "  centre back: {join: [back.right, back.right], type: plain}\n  inseam: {", 1)
	if l := deriveClean(t, roomWith(t), skirt).level(t, "knee"); l.Finished.Value.Number != 1040 {
		t.Errorf("the knee of a skirt goes round once, 2 × 250 + 2 × 270: %v", l.Finished.Value)
	}
}

// TestWidths: a level side dart takes nothing from the bust (2 × 240 is 480, and
// 280 was shown once), and a facing is not counted into it.
func TestWidths(t *testing.T) {
	const panels = `cloth: {shell: linen}
pieces:
  panel:
    of: shell
    cut: 2
    rectangle: [240, 500]
    levels: {bust: 300, waist: 100}
    darts: {right: {at: 300, width: 30, length: 100}}
`
	g := deriveClean(t, roomWith(t), panels)
	if v := g.level(t, "bust").Finished.Value; v.Number != 480 {
		t.Errorf("bust through a level side dart: %v", v)
	}
	if v := g.level(t, "waist").Finished.Value; v.Number != 480 {
		t.Errorf("waist below the side dart: %v", v)
	}
	const body = `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [480, 500], levels: {bust: 300}}
  back: {of: shell, cut: 1, rectangle: [480, 500], levels: {bust: 300}}
  MORE: {like: front, of: shell}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
`
	if v := deriveClean(t, roomWith(t), strings.Replace(body, "MORE", "front facing", 1)).level(t, "bust").Finished.Value; v.Number != 960 {
		t.Errorf("with a facing of the shell's own cloth: bust %v", v)
	}
	asked, _ := roomWith(t).desk().derive(t, head+strings.Replace(body, "MORE", "second front", 1))
	if v := asked.level(t, "bust").Finished.Value; !strings.Contains(v.Why, "nothing tells whether it lies beside it or behind it") {
		t.Errorf("with a second front: bust %v", v)
	}
	if len(asked.Choices) != 1 || asked.Choices[0].Piece != "second front" || asked.Choices[0].Other != "front" {
		t.Errorf("with a second front: asked %+v", asked.Choices)
	}
	const beside = `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [480, 500], levels: {bust: 300}}
  back: {like: front}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
`
	if v := deriveClean(t, roomWith(t), beside).level(t, "bust"); v.Finished.Value.Number != 960 || v.LetOut.Value.Number != 36 {
		t.Errorf("a back like the front: bust %v, let out %v", v.Finished.Value, v.LetOut.Value)
	}
}

// TestLevelMovesWithItsCorner: a chest of 1200 that lies at the corners under
// the arms is 1220 once four side edges are moved out by 5, and 1204.1 was shown
// once, measured where the armholes then were.
func TestLevelMovesWithItsCorner(t *testing.T) {
	const body = `cloth: {shell: linen}
pieces:
  front:
    of: shell
    cut: 1 on fold
    outline:
      from: [0, 0]
      hem: [300, 0]
      side: [300, 400]
      armhole: {to: [220, 560], curve: [[250, 420], [200, 480]]}
      shoulder: [80, 600]
      neck: [0, 520]
      centre: fold
    levels: {chest: 400}
  back: {like: front}
seams:
  sides: [front.side, back.side]
  shoulders: [front.shoulder, back.shoulder]
fittings:
  - day: 2026-08-10
    saw: too narrow
    change: {front.side: 5} # the back follows
`
	l := deriveClean(t, roomWith(t), body).level(t, "chest")
	if v := l.Finished.Value; v.Number < 1219.95 || v.Number > 1220.05 {
		t.Errorf("chest %v: %s", v, l.Finished.Working.Sum())
	}
	if v := l.LetOut.Value; v.Number != 36 || !v.Known() { // 4 × (15 − 6), the armholes hold nothing
		t.Errorf("chest, let out by %v %s", v, v.Why)
	}
}

// level returns a level by its name.
func (g *Garment) level(t testing.TB, name string) *garment.Level {
	t.Helper()
	for _, l := range g.Levels {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("there is no level %q", name)
	return nil
}

// Two panels of 400 with a lining like them, caught at the waist and at the hem. The
// shell has four edges of 20, the lining four of 10: 4 × (20 − 6) = 56 and 4 × (10 − 6) =
// 16. Both must give, so that 16 is all there is, and the lining holds it.
const linedPanels = `cloth: {shell: linen, lining: linen}
pieces:
  front: {of: shell, cut: 1, allowance: 20, rectangle: [400, 700], levels: {hip: 400}}
  back: {like: front}
  lining: {like: [front, back], of: lining, allowance: 10}
seams:
  sides: {join: [front.right, back.left], type: plain, allowance: 20}
  left side: {join: [front.left, back.right], type: plain, allowance: 20}
  lining sides: {join: [front lining.right, back lining.left], type: plain, allowance: 10}
  lining left side: {join: [front lining.left, back lining.right], type: plain, allowance: 10}
  waist: {join: [[front.top, back.top], [front lining.top, back lining.top]], type: plain, allowance: 10}
  hem: {join: [[front.bottom, back.bottom], [front lining.bottom, back lining.bottom]], type: plain, allowance: 10}
`

func TestLeastOverLayers(t *testing.T) {
	hem := "  hem: {join: [[front.bottom, back.bottom], [front lining.bottom, back lining.bottom]], type: plain, allowance: 10}\n"
	for _, c := range []struct {
		name, build string
		want        float64
		held        string
		fast        bool
	}{
		{"caught above and below", linedPanels, 16, "lining", false},
		{"hanging from the waist, 300 above", strings.Replace(linedPanels, hem, "", 1), 56, "", false},
		{"hanging from a seam 50 above", strings.ReplaceAll(strings.Replace(linedPanels, hem, "", 1), "hip: 400", "hip: 650"), 16, "lining", false},
		{"lining with more", strings.ReplaceAll(linedPanels, "lining: {like: [front, back], of: lining, allowance: 10}", "lining: {like: [front, back], of: lining, allowance: 30}"), 56, "", false},
		{"bones in the lining's seams", linedPanels + "notions: {boning: {in: [lining sides, lining left side]}}\n", 0, "boning", true},
		{"bones in all the shell's seams", linedPanels + "notions: {boning: {in: [sides, left side]}}\n", 0, "boning", true},
	} {
		g := deriveClean(t, roomWith(t), c.build)
		l := g.level(t, "hip")
		if v := l.LetOut.Value; !v.Known() || math.Abs(v.Number-c.want) > 1e-9 || l.HeldBy != c.held || l.Fast() != c.fast {
			t.Errorf("%s: let out by %v %s, held by %q (fast: %t); want %v, %q (%t)", c.name, v, v.Why, l.HeldBy, l.Fast(), c.want, c.held, c.fast)
		}
	}
}
