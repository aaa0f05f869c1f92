package derive

import (
	"hembook/internal/garment"
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
		{"buttons down a side are no zip", add("notions: {buttons: {count: 4, over: 200, every: 60, edge: front.right}}\n"), "hip", 36, ""},
		{"a stay at the waist leaves the hip", add("notions: {waist stay: {length: 700, where: waist}}\n"), "hip", 36, ""},
		{"felled", swap("type: plain", "type: flat-felled"), "hip", 18, ""},             // one plain side of two; a fell has nothing to give
		{"French", swap("type: plain", "type: french"), "hip", 28, ""},                  // one side: 2 × (9 + 3 − 7) and 2 × 9
		{"overlocked together", swap("type: plain", "type: overlocked"), "hip", 18, ""}, // the knife left the stitch alone
		{"bound", swap("type: plain", "type: hong-kong"), "hip", 33.4, ""},              // 2 × (15.875 − (3.175 + 4 + 1)) and 2 × 9
		{"taped", swap("type: plain", "type: butted-taped"), "hip", 0, "tape of fixed length"},
		{"zip in the side", add("notions: {zip: {length: 200, edge: front.right}}\n"), "hip", 0, "zip is sewn to front.right"},
		{"bone in the side", add("notions: {boning: {in: [left side]}}\n"), "hip", 0, "boning is sewn to"},
		{"stay at the hip", func(s string) string {
			return strings.ReplaceAll(s, "hip: 400", "waist: 400") + "notions: {waist stay: {length: 700, where: waist}}\n"
		}, "waist", 0, "waist stay of a fixed length"},
		{"band at the waist", func(s string) string {
			s = strings.ReplaceAll(s, "levels: {hip: 400}", "edges: {top: {level: waist}}")
			s = strings.Replace(s, "seams:\n", "  band: {of: shell, cut: 1, rectangle: [800, 40]}\nseams:\n", 1)
			return s + "  waist: {join: [[front.top, back.top], [band.bottom]], run: true, type: plain}\n"
		}, "waist", 0, "front.top is sewn into waist"},
		{"lining", func(s string) string {
			s = strings.Replace(s, "{shell: linen}", "{shell: linen, lining: linen}", 1)
			return strings.Replace(s, "seams:\n", "  front lining: {like: front, of: lining}\nseams:\n", 1)
		}, "hip", 0, "front lining goes round here too"},
		{"fused", func(s string) string {
			s = strings.Replace(s, "{shell: linen}", "{shell: linen, fusing: linen}", 1)
			return strings.Replace(s, "front: {of: shell", "front: {of: [shell, fusing]", 1)
		}, "hip", 0, "front is cut in shell and fusing"},
		{"a turned edge takes of the allowance", add("finishes: {turned: {of: [front.right, back.left], type: turned-edge}}\n"), "hip", 0, "turned takes of the allowance"},
		{"a corner with another seam", func(s string) string {
			s = strings.ReplaceAll(s, "hip: 400", "hip: 599")
			s = strings.Replace(s, "seams:\n", "  band: {of: shell, cut: 1, rectangle: [800, 40]}\nseams:\n", 1)
			return s + "  waist: {join: [[front.top, back.top], [band.bottom]], run: true, type: plain}\n"
		}, "hip", 0, "corner of front"},
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

// TestLegWithheld: a leg of two felled seams trimmed to 6 gives 18, and 72 was
// shown once; until it is worked out, nothing is. Nor is the sum of both legs
// told as one.
func TestLegWithheld(t *testing.T) {
	legs := `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 2 mirrored, rectangle: [250, 700], levels: {knee: 400}}
  back: {of: shell, cut: 2 mirrored, rectangle: [270, 700], levels: {knee: 400}}
seams:
  outside: {join: [front.right, back.left], type: KIND}
  inside: {join: [front.left, back.right], type: KIND}
`
	for _, kind := range []string{"flat-felled", "plain"} {
		l := deriveClean(t, roomWith(t), strings.ReplaceAll(legs, "KIND", kind)).level(t, "knee")
		if l.Finished.Value.Number != 520 || l.LetOut.Value.Known() {
			t.Errorf("%s: knee %v, let out by %v", kind, l.Finished.Value, l.LetOut.Value)
		}
	}
	skirt := strings.Replace(strings.ReplaceAll(legs, "KIND", "plain"), "join: [front.left, back.right]", "join: [front.left, front.left]", 1)
	skirt = strings.Replace(skirt, "  inside: {", "  centre back: {join: [back.right, back.right], type: plain}\n  inside: {", 1)
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
	if v := deriveClean(t, roomWith(t), strings.Replace(body, "MORE", "second front", 1)).level(t, "bust").Finished.Value; !strings.Contains(v.Why, "nothing tells whether it lies beside it or behind it") {
		t.Errorf("with a second front: bust %v", v)
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
