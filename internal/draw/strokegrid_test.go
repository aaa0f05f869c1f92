package draw

import (
	"math/rand/v2"
	"testing"

	"hembook/internal/drawing"
)

// TestStrokeGrid: what the squares tell of discs and boxes is what looking at every
// stroke tells, on the net, at its rim and far beyond it.
func TestStrokeGrid(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	some := func(wide float64) drawing.Point {
		return drawing.Point{X: (rnd.Float64() - 0.2) * wide, Y: (rnd.Float64() - 0.2) * wide}
	}
	var full netFull
	var all []stroke
	for range 400 {
		a := some(320)
		by := some(24)
		s := stroke{a: a, b: drawing.Point{X: a.X + by.X, Y: a.Y + by.Y}}
		full.lines.add(s)
		all = append(all, s)
	}
	met := [2][2]int{} // discs and boxes: clear and not
	for range 4000 {
		p, r := some(340), 0.2+3*rnd.Float64()
		b := drawing.Box{Left: p.X, Top: p.Y, Right: p.X + 9*rnd.Float64(), Bottom: p.Y + 4*rnd.Float64()}
		disc, box := true, true
		for i := range all {
			disc = disc && !(offLine(p, all[i].a, all[i].b) < r)
			box = box && !all[i].meets(b)
		}
		if got := full.clear(p.X, p.Y, r); got != disc {
			t.Fatalf("a disc of %v at %v: clear %v, want %v", r, p, got, disc)
		}
		if got := full.clearBox(b, false); got != box {
			t.Fatalf("the box %v: clear %v, want %v", b, got, box)
		}
		for k, clear := range []bool{disc, box} {
			if clear {
				met[k][0]++
			} else {
				met[k][1]++
			}
		}
	}
	for _, m := range met {
		if min(m[0], m[1]) < 400 {
			t.Errorf("hardly tried: %v", met)
		}
	}
}
