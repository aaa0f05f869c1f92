package derive

import (
	"math"
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

// A piece with a fold is cut on it where nothing is said.
func TestFoldIsCutOn(t *testing.T) {
	g := deriveClean(t, roomWith(t), "cloth: {shell: linen}\npieces: {yoke: {outline: {lower: [100, 0], side: [100, 50], upper: [0, 50], centre: fold}}}\n")
	g.is(t, 1e-9, map[string]float64{"piece.yoke.area": 100})
}
