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

func TestThreadFormulas(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		stitch                   string
		thickness, length, width float64 // mm
		want                     float64
		source                   string
	}{
		{"301", 0.04 * inch, inch / 10, 0, 2.80, "derived from the published formula 2 + 2TS"},
		{"301", 0.03 * inch, inch / 12, 0, 2.72, "derived from the published formula 2 + 2TS"},
		{"301", 1.0, 2.5, 0, 2.80, "derived from the published formula 2 + 2TS"},
		{"301", 0.5, 2.5, 0, 2.40, "derived from the published formula 2 + 2TS"},
		{"301", 0.8, 3.0, 0, 2.5333, "derived from the published formula 2 + 2TS"},
		{"301", 0.6, 2.0, 0, 2.60, "derived from the published formula 2 + 2TS"},
		{"301", 0, 2.5, 0, 2, "limit: no thickness"},
		{"101", 0, 2.5, 0, 3, "limit: no thickness"},
		{"401", 0, 2.5, 0, 4, "limit: no thickness"},
		{"401", 0.04 * inch, inch / 10, 0, 4.80, "derived from the published formula 4 + 2TS"},
		{"504", 0.04 * inch, inch / 12, 0.2 * inch, 16.52, "derived from the published formula 5 + 4S(W + T)"},
		{"516", 0.04 * inch, inch / 12, 0.2 * inch, 21.48, "derived from the published formula 9 + 2S(2W + 3T)"},
		{"602", 0.04 * inch, inch / 12, 0.25 * inch, 24.92, "derived from the published formula 8 + S(5W + 4T)"},
		{"406", 0.04 * inch, inch / 10, 0.25 * inch, 7 + 20*(0.04+0.25), "published formula 7 + 2S(T + W)"},
		{"407", 0.04 * inch, inch / 10, 0.25 * inch, 9 + 20*(3*0.04+0.25), "published formula 9 + 2S(3T + W)"},
		{"514", 0.04 * inch, inch / 10, 0.2 * inch, 5 + 20*(3*0.04+2*0.2), "published formula 5 + 2S(3T + 2W)"},
		{"605", 0.04 * inch, inch / 10, 0.25 * inch, 10 + 20*(2*0.25+3*0.04), "published formula 10 + 2S(2W + 3T)"},
		{"607", 0.04 * inch, inch / 10, 0.25 * inch, 12 + 40*(0.25+2*0.04), "published formula 12 + 4S(W + 2T)"},
	} {
		s, ok := stitchOf(c.stitch)
		if !ok {
			t.Fatalf("no stitch %s", c.stitch)
		}
		got, err := s.Consumption(c.thickness, c.length, c.width)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.stitch+" ("+c.source+")", got.Value, c.want, 1e-4)
	}
}

func TestConsumptionRefuses(t *testing.T) {
	for _, c := range []struct {
		stitch                   string
		thickness, length, width float64
	}{
		{"103", 1, 2.5, 0},
		{"301", 1, 0, 0},
		{"301", 1, -2, 0},
		{"301", -1, 2.5, 0},
		{"504", 1, 2.5, 0},
		{"301", math.NaN(), 2.5, 0},
		{"301", 1, math.NaN(), 0},
		{"301", 1, math.Inf(1), 0},
	} {
		s, _ := stitchOf(c.stitch)
		if got, err := s.Consumption(c.thickness, c.length, c.width); err == nil {
			t.Errorf("%+v gave %v", c, got)
		}
	}
}

func TestConsumptionShowsItsWorking(t *testing.T) {
	s, _ := stitchOf("301")
	got, _ := s.Consumption(1, 2.5, 0)
	if want := "2 + 2 × thickness ÷ length = 2 + 2 × 1 ÷ 2.5 = 2.8"; got.Working != want {
		t.Errorf("got %q, want %q", got.Working, want)
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

func TestThreadExamples(t *testing.T) {
	lockstitch, _ := stitchOf("301")
	got, err := lockstitch.Thread(2200, 1) // source: needlework questions page
	if err != nil {
		t.Fatal(err)
	}
	near(t, "301 over 220 cm, mm", got.Total.Value, 5500, 1e-9)
	near(t, "its needle thread, mm", got.Needle.Value, 2750, 1e-9)
	near(t, "its bobbin thread, mm", got.Under.Value, 2750, 1e-9)
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
		if s.Class() < 100 || s.Class() > 600 || s.Needles < 1 {
			t.Errorf("%s: class %d, %d needles", s.Type, s.Class(), s.Needles)
		}
	}
}
