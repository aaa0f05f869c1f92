package tracing

import (
	"flag"
	"testing"

	"hembook/internal/tabletop"
)

var (
	scenes = flag.Int("scenes", 2, "how many made-up photographs are traced")
	first  = flag.Uint64("first", 128, "the seed of the first") // 128: brown paper on a pale table, whose colours JPEG keeps coarsely
	wide   = flag.Int("wide", 2000, "their longer side in pixels")
)

// TestMadeUpPhotographs: whole pieces to 900 mm, photographed leaning to 35° through
// lenses that bend lines, with shadows, noise and JPEG, are traced to half a millimetre;
// and no line is seen on paper without one.
func TestMadeUpPhotographs(t *testing.T) {
	n := *scenes
	if testing.Short() { // one is enough to see whether what runs beside something else is right
		n, *wide = 1, 1600
	}
	t.Parallel()
	for i := range uint64(n) {
		s, truth := tabletop.Random(*first+i, *wide)
		got, err := traceScene(t, s, Options{})
		if err != nil {
			t.Errorf("scene %d: %v", *first+i, err)
			continue
		}
		j := judge(t, got, s, truth)
		t.Logf("scene %d: mean %.3f, 99%% %.3f, corners %.3f mm; lengths %.3f %%; %d curves, %d missed, %d more; tilt %.0f°, %d px/m",
			*first+i, j.mean, j.p99, j.corner, 100*j.length, j.edges, j.missed, j.extra, s.Tilt*57.3, int(1000/got.views[0].Finest(got.still(truth.From))))
		if j.mean > 0.5 || j.p99 > 1.5 || j.corner > 1 || j.length > 0.0015 || j.missed > 0 || len(got.Notches) > 0 {
			t.Errorf("scene %d is traced too coarsely", *first+i)
		}
		if len(got.Drawn) > 0 {
			t.Errorf("scene %d: nothing is drawn on the paper, and %v is seen", *first+i, got.Drawn)
		}
	}
}
