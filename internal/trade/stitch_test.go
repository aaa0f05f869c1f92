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
		s, ok := StitchOf(c.stitch)
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
