package shape

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestAppendNumber(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 2, "0"}, {1, 2, "1"}, {1.5, 2, "1.5"}, {1.05, 2, "1.05"}, {-1.005, 1, "-1"}, {0.05, 2, "0.05"},
		{-0.004, 2, "0"}, {100, 2, "100"}, {1200, 0, "1200"}, {0.999, 2, "1"}, {12.345678, 6, "12.345678"},
		{math.NaN(), 2, "0"}, {math.Inf(-1), 2, "0"}, {1e300, 2, "0"}, {-20.5, 3, "-20.5"}, {10, 1, "10"},
	} {
		if got := string(AppendNumber(nil, c.v, c.decimals)); got != c.want {
			t.Errorf("%g with %d decimals: got %s, want %s", c.v, c.decimals, got, c.want)
		}
		checkNumber(t, c.v, c.decimals)
	}
}

// checkNumber reads the number back.
func checkNumber(t *testing.T, v float64, decimals int) {
	t.Helper()
	s := string(AppendNumber(nil, v, decimals))
	back, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.ContainsAny(s, "eE+") || s == "-0" {
		t.Fatalf("%g with %d decimals: %q, %v", v, decimals, s, err)
	}
	if strings.Contains(s, ".") && strings.HasSuffix(s, "0") {
		t.Errorf("%g: trailing nought in %q", v, s)
	}
	step := math.Pow10(-min(max(decimals, 0), 6))
	if math.Abs(v) < 1e8 && math.Abs(back-v) > step/2*(1+1e-6)+1e-15*math.Abs(v) {
		t.Errorf("%g with %d decimals: %q", v, decimals, s)
	}
}
