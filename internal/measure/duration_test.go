package measure

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseDuration(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"50 min": 50 * time.Minute, "1 h 20 min": 80 * time.Minute, "1h20min": 80 * time.Minute,
		"24 h": 24 * time.Hour, "1:20": 80 * time.Minute, " 0:05 ": 5 * time.Minute, "2 d": 48 * time.Hour,
		"1.5 h": 90 * time.Minute, "½ h": 30 * time.Minute, "1 1/4 hours": 75 * time.Minute,
		"1 day 2 hours": 26 * time.Hour, "1 week": 168 * time.Hour, "90 min": 90 * time.Minute,
		"90 s": 90 * time.Second, "0 min": 0, "1 h 90 min": 150 * time.Minute,
		"1/3 min": 20 * time.Second, "1/7 s": 142857143,
	} {
		if got, err := ParseDuration(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
}

func TestDurationPrints(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0 s", 45 * time.Second: "45 s", 50 * time.Minute: "50 min", time.Hour: "1 h",
		80 * time.Minute: "1 h 20 min", 26 * time.Hour: "26 h", -80 * time.Minute: "−1 h 20 min",
		90 * time.Second: "2 min", 89 * time.Second: "1 min", 12_000 * time.Hour: "12\u202f000 h",
		59*time.Minute + 30*time.Second: "1 h", math.MinInt64: "−2\u202f562\u202f047 h 47 min",
	} {
		if got := (Style{}).Duration(d); got != want {
			t.Errorf("%v: got %q, want %q", d, got, want)
		}
	}
}

func TestDurationReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := time.Duration(rapid.Int64Range(0, 36525*24*60).Draw(t, "minutes")) * time.Minute
		got, err := ParseDuration(Style{}.Duration(want))
		if err != nil || got != want {
			t.Fatalf("%v: got %v, %v", want, got, err)
		}
	})
}

func TestQuantityAsDuration(t *testing.T) {
	if d, ok := (Quantity{1.5, UnitHour}).duration(); !ok || d != 90*time.Minute {
		t.Errorf("1.5 h: got %v, %v", d, ok)
	}
	for _, q := range []Quantity{{1, UnitMM}, {math.NaN(), UnitMin}, {1e300, UnitMin}} {
		if d, ok := q.duration(); ok {
			t.Errorf("%v: got %v, want none", q, d)
		}
	}
}
