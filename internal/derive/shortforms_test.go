package derive

import (
	"math"
	"strings"
	"testing"
)

// An arc of rise h over a chord c has the radius (c² ÷ 4 + h²) ÷ 2h and the length
// 2R asin(c ÷ 2R). Over 200 with a rise of 20: R = 260, 205.30 mm; a half circle
// over 200 is 100π. (From memory: any school book.)
func TestCurveByRise(t *testing.T) {
	r := 260.0
	for rise, want := range map[string]float64{"20": 2 * r * math.Asin(100/r), "-20": 2 * r * math.Asin(100/r), "100": 100 * math.Pi, "-2 cm": 2 * r * math.Asin(100/r)} {
		g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  front: {cut: 1, outline: {hem: [300, 0], side: {to: [300, 200], curve: `+rise+`}, top: [0, 200], left: [0, 0]}}
`)
		g.is(t, 1e-4, map[string]float64{"piece.front.edge.side.length": want})
		area := r*r*math.Asin(100/r) - 100*(r-20) // of the segment
		switch rise {
		case "20":
			g.is(t, 1e-4, map[string]float64{"piece.front.area": (60000 + area) / 100})
		case "-20":
			g.is(t, 1e-4, map[string]float64{"piece.front.area": (60000 - area) / 100})
		}
	}
}

// What a build says is usual holds for seams without a type, its measures and its
// thread too; where it says nothing a seam is plain.
func TestUsualSeam(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
thread: {rust: rust, ochre: ochre}
usual: {seam: {type: french, first: 7, second: 10}, thread: ochre}
pieces: {one: {rectangle: [200, 300]}, two: {rectangle: [200, 300]}}
seams:
  side: [one.right, two.left]
  other: {join: [one.left, two.right], type: overlocked}
`)
	g.is(t, 0, map[string]float64{"seam.side.takes-1": 17, "seam.other.takes-1": 6})
	if s := g.Seams[0].Record; s.Thread.V != "ochre" || s.Type.At.Line != 7 {
		t.Errorf("sewn with %q, and its type stands on line %d", s.Thread.V, s.Type.At.Line)
	}
	g = deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces: {one: {rectangle: [200, 300]}, two: {rectangle: [200, 300]}}\nseams: {side: [one.right, two.left]}\n")
	if got := g.Seams[0].Record.Type.V; got != "plain" {
		t.Errorf("a seam of which nothing is said is %q", got)
	}
}

// The usual hem, allowance and tolerance of a build go before the workroom's, and
// their workings say where they stand.
func TestUsualOfABuild(t *testing.T) {
	room := roomWith(t).file("content/workroom.yaml", "name: Test workroom\nusual: {allowance: 12, tolerance: 3}\n")
	g, faults := room.desk().derive(t, head+`cloth: {shell: linen}
usual: {allowance: 18, tolerance: 6, hem: {type: double-turned-hem, depth: 25}, truing: {angle: 180, step: 9}}
pieces: {one: {rectangle: [200, 300]}, two: {rectangle: [200, 305]}}
seams: {side: [one.right, two.left]}
finishes: {hem: {of: one.bottom}, top: {of: one.top, type: single-turned-hem, depth: 30}}
`)
	for _, f := range append(faults, g.Faults...) {
		t.Errorf("fault: %s", f)
	}
	g.is(t, 0, map[string]float64{
		"piece.two.edge.top.allowance": 18, "seam.side.takes-1": 18, "finish.hem.takes": 50, "finish.top.takes": 30,
	})
	at := map[string]int{"piece.two.edge.top.allowance": 5, "seam.side.difference": 5}
	for id, line := range at {
		f := g.find(t, id)
		found := false
		for _, in := range f.Working.Inputs() {
			found = found || in.At.Line == int32(line)
		}
		if !found {
			t.Errorf("%s does not say that line %d is usual: %+v", id, line, f.Working.Inputs())
		}
	}
}

// What is cut of which nothing is said: one on the fold, one of what is its own
// mirror image, else a left and a right; and 2 is a pair only where there are two forms.
func TestUsualCut(t *testing.T) {
	const square = "rectangle: [200, 300]"
	const sleeve = "outline: {from: [-100, 0], wrist: [100, 0], seam one: [150, 400], %: {to: [0, 500], curve: [[100, 400], [60, 500]]}, &: {to: [-150, 400], curve: [[-60, 500], [-100, 400]]}, seam two: [-100, 0]}"
	named := func(one, two string) string { return strings.NewReplacer("%", one, "&", two).Replace(sleeve) }
	for _, c := range []struct {
		name, form string
		count      int
		mirrored   bool
		said       string
	}{
		{"panel", square, 1, false, ""},
		{"panel", square + ", cut: 2", 2, false, ""},
		{"panel", square + ", cut: 2, notches: {right: 100}", 2, true, ""},
		{"panel", square + ", notches: {right: 100}", 2, true, "panel: 2, a left and a right (not said; its notches are not symmetrical)"},
		{"left panel", square + ", notches: {right: 100}", 1, false, ""},
		{"panel", square + ", notches: {right: 100, left: 200}", 1, false, ""}, // both run against the clock
		{"panel", square + ", notches: {right: 100, left: 100}", 2, true, "panel: 2, a left and a right (not said; its notches are not symmetrical)"},
		{"panel", square + ", darts: {top: {at: 100, width: 20, length: 80}}", 1, false, ""},
		{"panel", square + ", darts: {top: {at: 90, width: 20, length: 80}}", 2, true, "panel: 2, a left and a right (not said; its darts are not symmetrical)"},
		{"panel", square + ", pleats: {top: {kind: box, depth: 10}}", 1, false, ""},
		{"panel", square + ", pleats: {top: {depth: 10}}", 2, true, "panel: 2, a left and a right (not said; its pleats are not symmetrical)"}, // its fold lies one way
		{"panel", square + ", pleats: {right: {kind: inverted, depth: 10}}", 1, false, ""},                                                     // about a level line
		{"panel", square + ", pleats: {right: {depth: 10}, top: {depth: 20}}", 2, true, "panel: 2, a left and a right (not said; its pleats are not symmetrical)"},
		{"panel", square + ", cut: 2 alike, notches: {right: 100}", 2, false, ""},
		{"panel", square + ", cut: 4, notches: {right: 100}", 4, true, ""},
		{"panel", square + ", cut: 3, notches: {right: 100}", 3, false, ""},
		{"head", named("cap one", "cap two"), 1, false, ""},
		{"head", named("cap front", "cap back"), 2, true, "head: 2, a left and a right (not said; its edges are called front and back)"},
		{"sleeve", named("cap one", "cap two") + ", cut: 2", 2, true, ""}, // one for each arm
		{"flare", "trapezoid: {bottom: 300, top: 200, height: 400}", 1, false, ""},
		{"flare", "circle: {share: 1/2, waist: 700, length: 500, panels: 2}", 2, false, ""},
		{"gore", "godet: {height: 300, hem: 240}", 1, false, ""},
	} {
		g := deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces: {"+c.name+": {"+c.form+"}}\n")
		if p := g.Pieces[0]; p.Count != c.count || p.Mirrored != c.mirrored || p.OnFold || g.UnsaidCuts() != c.said {
			t.Errorf("%s: %s: cut %d, mirrored %v, on the fold %v, told %q; want %d, %v, false, %q", c.name, c.form, p.Count, p.Mirrored, p.OnFold, g.UnsaidCuts(), c.count, c.mirrored, c.said)
		}
	}
}

// A piece with a fold is cut on it where nothing is said.
func TestFoldIsCutOn(t *testing.T) {
	g := deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces: {yoke: {outline: {lower: [100, 0], side: [100, 50], upper: [0, 50], centre: fold}}}\n")
	g.is(t, 1e-9, map[string]float64{"piece.yoke.area": 100})
}
