package reckon

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// mutants are a sum with one digit or one sign changed.
func mutants(sum string) []string {
	var out []string
	for i, r := range sum {
		put := func(s string) { out = append(out, sum[:i]+s+sum[i+utf8.RuneLen(r):]) }
		switch {
		case r >= '0' && r <= '9':
			put(string('0' + (r-'0'+5)%10))
		case r == '+':
			put("−")
		case r == '−':
			put("+")
		case r == '×':
			put("÷")
		case r == '÷':
			put("×")
		}
	}
	for from, to := range map[string]string{" mm": " g", " m": " mm", "EUR": "GBP", "cm²": "m²", " in": " mm", "min(": "max(", "min,": "h,"} {
		if strings.Contains(sum, from) {
			out = append(out, strings.Replace(sum, from, to, 1))
		}
	}
	return out
}

// stayTrue are the mutants that are true sums as well, to the digits shown.
var stayTrue = map[string]bool{
	"waist 700 mm ÷ (2π ÷ 1) = 111.408 mm":      true, // by one
	"496.16 cm² ÷ 3041.04 cm² = 16.315 %":       true, // a digit that does not show in the result …
	"30.088 m ÷ 150 m × 6.8 g = 1.364 g":        true,
	"34.590 m ÷ 150 m = 0.231, rounded up to 1": true,
	"min(765.974 mm, 765.972 mm) = 765.972 mm":  true, // … and the greater of two when the least is taken
	"max(5 mm, 15 mm − 9 mm) = 6 mm":            true,
	"min(20 min, 6 h) + 10 min = 30 min":        true,
	// What is rounded up hides what it was.
	"2450 mm + 25 mm × 2, up to the next 100 mm = 2500 mm": true,
	"2405 mm + 25 mm × 2, up to the next 100 mm = 2500 mm": true,
	"2400 mm + 20 mm × 2, up to the next 100 mm = 2500 mm": true,
	"2400 mm + 25 mm ÷ 2, up to the next 100 mm = 2500 mm": true,
	"(135 mm ÷ 20 mm, to the nearest 1) + 1 = 8":           true,
	"least of (765.974 mm, 765.972 mm) = 765.972 mm":       true,
	"greatest of (5 mm, 15 mm − 9 mm) = 6 mm":              true,
	"skirt 7 hem (lower) 212 mm × 3 = 636 mm":              true, // a name
	"front.bone 6: 2 + front.bone 2: 3 = 5":                true,
	"front.bone 1: 2 + front.bone 7: 3 = 5":                true,
}

// TestMutants: a true sum with one digit, sign or unit changed is found, all
// but those that stay true.
func TestMutants(t *testing.T) {
	made, passed := 0, 0
	for _, one := range trueSums {
		value, _ := Of(one.number, one.unit)
		for _, m := range mutants(one.sum) {
			made++
			if found := len(Judge(m, value)) > 0; found == stayTrue[m] {
				t.Errorf("%q for %q: found %v", m, one.sum, found)
			} else if !found {
				passed++
			}
		}
	}
	if passed != len(stayTrue) || made < 400 {
		t.Errorf("%d mutants, %d pass, and %d stay true", made, passed, len(stayTrue))
	}
}
