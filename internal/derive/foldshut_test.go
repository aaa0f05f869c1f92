package derive

import (
	"math"
	"strings"
	"testing"
)

// A skirt front whose waist runs straight, with a dart 20 wide and 80 long:
// between line and leg lie 180° − atan(80/10) = 97.125° on both sides, so that
// the line makes a hollow of 2 × 97.125° − 180° = 14.25° when it is folded shut.
const folded = `
cloth: {shell: linen, lining: linen}
pieces:
  front:
    of: shell
    outline:
      from: [0, 0]
      waist: [200, 0]
      right: [200, 300]
      top: [0, 300]
      left: [0, 0]
    darts: {waist: {at: 100, width: 20, POINT}}
  inner: {of: lining, like: front, grain: bias}
  band: {of: shell, grain: across, rectangle: [200, 40], edges: {right: {name: end}}}
seams: {side: {join: [front.right, band.end], type: plain, ease: 260}}
`

func TestFoldedShut(t *testing.T) {
	for _, c := range []struct {
		point string
		limit string
		turn  float64
		step  float64 // the second leg − the first
		told  int
	}{
		{"length: 80", "", 2*(180-math.Atan2(80, 10)*180/math.Pi) - 180, 0, 0},
		{"length: 80", "usual: {truing: {dart: 14}}\n", 2*(180-math.Atan2(80, 10)*180/math.Pi) - 180, 0, 1},
		// the point 10 to the right: the first leg is √(20² + 80²), the second 80 and square to the line
		{"point: [110, 80]", "usual: {truing: {dart: 14.1, legs: 5}}\n", 180 - math.Atan2(80, 20)*180/math.Pi - 90, 80 - math.Hypot(20, 80), 0},
	} {
		g, _ := roomWith(t).desk().derive(t, head+strings.Replace(folded, "POINT", c.point, 1)+c.limit)
		garmentIs(t, g, map[string]float64{"truing.front.dart-1.line": c.turn, "truing.inner.grain-like": 45, "truing.side.grain": 90})
		if n := faultsSaying(g, "folded shut: comes to"); n != c.told {
			t.Errorf("%s, %s: told of %d times, want %d: %v", c.point, c.limit, n, c.told, g.Faults)
		}
		for i := range g.Truing {
			if j := g.Truing[i].Join; j != nil && j.Seam == "the dart" && math.Abs(j.Step-c.step) > 1e-9 {
				t.Errorf("%s: a step of %v, want %v", c.point, j.Step, c.step)
			}
		}
	}
}

// A dart drawn to a point of its own keeps its form when another dart is
// turned, also where the part it lies on swings. Its legs stay as long.
func TestPointsSwing(t *testing.T) {
	text := strings.Replace(folded, "{waist: {at: 100, width: 20, POINT}}",
		"{waist: {at: 100, width: 20, length: 80}, right: {at: 200, width: 16, point: [140, 190]}, left: {at: 100, width: 16, point: [50, 205]}}", 1)
	const turn = "fittings: [{day: 2026-08-09, saw: tight, change: {front.waist dart: {rotate: {to: top, at: 100}}}}]\n"
	d := roomWith(t).desk()
	was, _ := d.derive(t, head+text)
	is, _ := d.derive(t, head+text+turn)
	legs := func(g *Garment) map[string][2]float64 {
		out := map[string][2]float64{}
		for _, dart := range g.Pieces[0].Darts {
			a, b := dart.Plan.Legs()
			out[dart.Record.Edge.V] = [2]float64{a, b}
		}
		return out
	}
	before, after := legs(was), legs(is)
	for _, edge := range []string{"right", "left"} {
		b, a := before[edge], after[edge]
		if b[0] == 0 || math.Abs(a[0]-b[0]) > 1e-3 || math.Abs(a[1]-b[1]) > 1e-3 {
			t.Errorf("the legs on %s were %v and are %v: %v", edge, b, a, is.Faults)
		}
	}
	moved := 0
	for i := range was.Pieces[0].Darts {
		for _, now := range is.Pieces[0].Darts {
			if w := was.Pieces[0].Darts[i]; w.Record.Edge.V == now.Record.Edge.V && w.Record.Point.Given() && w.Plan.Point.Apart(now.Plan.Point) > 1 {
				moved++
			}
		}
	}
	if moved != 1 {
		t.Errorf("%d darts swung, want the one on the part that turned", moved)
	}
}

// A facing 30 wide with a dart from 90 to 110 whose point lies above its end:
// up to the far edge the legs are 30 × √(1 + (20/80)²) = 30.92 and 30 long. With
// its point 60 farther on they are 30 × √(1 + (80/80)²) = 42.43 and 37.5.
func TestFoldedOutStep(t *testing.T) {
	const text = `
cloth: {shell: linen}
pieces:
  facing:
    outline:
      from: [0, 0]
      neck: [200, 0]
      right: [200, 30]
      outer: [0, 30]
      left: [0, 0]
    darts: {neck: {at: 100, width: 20, point: POINT}}
fittings: [{day: 2026-08-09, saw: flat, change: {facing.neck dart: {close: true}}}]
`
	for at, want := range map[string]string{"[110, 80]": "", "[170, 80]": "folding out the dart on facing.neck leaves a step of 4.9 mm in the edge opposite"} {
		g, _ := roomWith(t).desk().derive(t, head+strings.Replace(text, "POINT", at, 1))
		if n := faultsSaying(g, "leaves a step"); (n == 1) != (want != "") || want != "" && faultsSaying(g, want) != 1 {
			t.Errorf("a point at %s: %v, want %q", at, g.Faults, want)
		}
	}
}
