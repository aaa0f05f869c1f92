package draw

import (
	"strings"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/shape"
)

// Two pieces beside a seam that runs straight up: the first one's line runs in
// level from the left, the second's drops away, and the dots go on level.
func TestJoinDrawing(t *testing.T) {
	at := func(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }
	j := &garment.LineAcross{Seam: "shoulders", Names: [2]string{"front.neck", "back.neck"}, Turn: 12.34}
	j.Lay = func() garment.LaidJoin {
		return garment.LaidJoin{
			Seams: [2][]shape.Point{{at(0, 0), at(0, 60)}, {at(0, 0), at(0, 60)}},
			Lines: [2][]shape.Point{{at(0, 0), at(-60, 0)}, {at(0, 0), at(60, -13)}},
		}
	}
	got := string(Join(j).SVG(nil))
	for _, want := range []string{
		`<path class="line sew" d="M0 0h-300"/>`, `<path class="line second" d="M0 0l300 65"/>`,
		`<path class="grain" d="M0 0h225"/>`, "a hollow of 12°", "front neck and back neck laid edge to edge at shoulders",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the drawing lacks %s:\n%s", want, got)
		}
	}
	if j.Turn = -3; !strings.Contains(string(Join(j).SVG(nil)), "a point of 3°") {
		t.Error("a point is not told")
	}
}

func TestEdgeNames(t *testing.T) {
	for words, want := range map[string]string{
		"front facing.neck to back.neck at shoulders": "front facing neck to back neck at shoulders",
		"panel 2.side":            "panel 2 side",
		"lengthen it by 3.5 mm.":  "lengthen it by 3.5 mm.",
		"dos.côté, jupe.élargie.": "dos côté, jupe élargie.",
		"1. front":                "1. front",
	} {
		if got := EdgeNames(words); got != want {
			t.Errorf("%q is said as %q, not %q", words, got, want)
		}
	}
}
