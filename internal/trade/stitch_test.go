package trade

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s: got %.5f, want %.5f ± %g", what, got, want, tolerance)
	}
}

func TestThreadRatios(t *testing.T) {
	// Sources: Coats Standard Stitch Type Classification, apparelscience.com,
	// needlework questions page; rows of 401, 406, 602 and 605 from memory.
	for _, c := range []struct {
		stitch               string
		total, needle, under float64
		needles              int
	}{
		{"101", 5, 100, 0, 1},
		{"103", 4.5, 100, 0, 1},
		{"301", 2.5, 50, 50, 1},
		{"304", 5.5, 50, 50, 1},
		{"401", 5.5, 25, 75, 1},
		{"406", 18, 30, 70, 2},
		{"503", 12, 55, 45, 1},
		{"504", 14, 20, 80, 1},
		{"512", 18, 25, 75, 2},
		{"514", 15.4, 25, 75, 2}, // 5 + 2 · 0.4 · (3 · 1 + 2 · 5), a stitch of 2.5 mm being 0.4 a mm
		{"516", 20, 20, 80, 2},
		{"602", 25, 20, 80, 2},
		{"605", 28, 30, 70, 3},
	} {
		s, ok := stitchOf(c.stitch)
		if !ok || s.Ratio == nil {
			t.Fatalf("no ratio for %s", c.stitch)
		}
		if s.Ratio.Total != c.total || s.Ratio.Needle != c.needle || s.Ratio.Under != c.under || s.Needles != c.needles {
			t.Errorf("%s: got %+v with %d needles, want %+v", c.stitch, *s.Ratio, s.Needles, c)
		}
	}
}

// stitchOf finds a stitch type by its number.
func stitchOf(number string) (Stitch, bool) {
	for _, s := range Stitches() {
		if s.Type == number {
			return s, true
		}
	}
	return Stitch{}, false
}

func TestStitchTable(t *testing.T) {
	last := ""
	for _, s := range Stitches() {
		if !typeForm.MatchString(s.Type) || s.Type <= last {
			t.Errorf("stitch %q after %q", s.Type, last)
		}
		last = s.Type
		if s.Ratio != nil {
			near(t, s.Type+" shares", s.Ratio.Needle+s.Ratio.Under, 100, 1e-9)
			if (s.Unders == 0) != (s.Ratio.Under == 0) {
				t.Errorf("%s has %d under threads and gives them %v %%", s.Type, s.Unders, s.Ratio.Under)
			}
		}
		if s.Type[0] > '6' || s.Needles < 1 {
			t.Errorf("%s: %d needles", s.Type, s.Needles)
		}
	}
}
