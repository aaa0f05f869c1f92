package trade

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLawOnComponents(t *testing.T) {
	for _, c := range []struct {
		share float64
		main  bool
		want  bool
	}{
		{29.9, false, false}, {30, false, true}, {20, false, false}, {5, true, true}, {-1, false, true}, // art. 11(2)
	} {
		if got := MustLabel(c.share, c.main); got != c.want {
			t.Errorf("%v %%, main lining %v: must be labelled: %v", c.share, c.main, got)
		}
	}
	for _, c := range []struct {
		fibre string
		share float64
		want  bool
	}{
		{"cotton", 5, true}, {"cotton", 4.9, false}, // 15 U.S.C. 70b(b)(1), 16 CFR 303.6
		{"elastane", 4, true},                  // 16 CFR 303.3: 96 % acetate, 4 % spandex
		{"wool", 3, true}, {"mohair", 3, true}, // 15 U.S.C. 68b(a)(2)(A), 68(b)
		{"angora", 3, false}, {"animal hair", 4.9, false}, // no wool in 15 U.S.C. 68(b)
	} {
		f, _ := FibreNamed(c.fibre)
		if got := NamedInUS(f, c.share); got != c.want {
			t.Errorf("%v %% %s is named in the United States: %v", c.share, c.fibre, got)
		}
	}
}

func TestRoundTo100(t *testing.T) {
	for _, c := range []struct {
		name         string
		decimals     int
		shares, want []float64
	}{
		// Regulation (EU) No 1007/2011, Annex VIII, chapter 3, section IV, variants 1 and 4
		{"variant 1", 1, []float64{48.37, 40.66, 10.97}, []float64{48.4, 40.6, 11.0}},
		{"variant 4", 1, []float64{48.62, 40.77, 10.61}, []float64{48.6, 40.8, 10.6}},
		// derived with the allowances of Annex IX
		{"silk 60, cotton 40", 1, []float64{66.6 / 1.1, 43.4 / 1.1}, []float64{60.5, 39.5}},
		{"polyester 65, cotton 35", 0, []float64{63.47, 36.53}, []float64{63, 37}},
		{"wool carded 80, polyamide filament 20", 0, []float64{81.57, 18.43}, []float64{82, 18}},
		{"cotton 95, elastane 5", 0, []float64{95.31, 4.69}, []float64{95, 5}},
	} {
		for i, got := range RoundTo100(c.shares, c.decimals) {
			near(t, c.name, got, c.want[i], 1e-9)
		}
	}
}

// TestRoundTo100Property: whatever the shares, the rounded ones add up to 100
// and none is off by a whole unit.
func TestRoundTo100Property(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.Float64Range(0, 1000), 1, 12).Draw(t, "parts")
		parts[0] += 1e-3
		decimals := rapid.IntRange(0, 2).Draw(t, "decimals")
		all := 0.0
		for _, p := range parts {
			all += p
		}
		shares := make([]float64, len(parts))
		for i, p := range parts {
			shares[i] = 100 * p / all
		}
		got, sum, unit := RoundTo100(shares, decimals), 0.0, math.Pow(10, -float64(decimals))
		for i := range got {
			sum += got[i]
			if math.Abs(got[i]-shares[i]) > unit+1e-6 {
				t.Fatalf("%v became %v", shares[i], got[i])
			}
		}
		if math.Abs(sum-100) > 1e-6 {
			t.Fatalf("%v add up to %v", got, sum)
		}
	})
}

func TestCareOptions(t *testing.T) {
	// Each combination of limits that can come out has a symbol in the table.
	known := func(name string) {
		if _, ok := CareOptionNamed(name); !ok {
			t.Errorf("there is no symbol %q", name)
		}
	}
	for _, d := range []int{0, 30, 40, 50, 60, 70, 95} {
		for _, c := range cycles {
			if d == 50 && c == VeryMild || d == 60 && c == VeryMild || d >= 70 && c != Normal {
				continue // no layer says so: see Meet
			}
			known(Wash{Degrees: d, Action: c}.Option())
			known(Wash{Degrees: d, Action: c, Hand: true}.Option())
		}
	}
	for _, b := range bleachs {
		known(b.Option())
	}
	for _, d := range tumbles {
		known(d.Option())
	}
	for i := range 8 {
		known(Natural{true, i&1 > 0, i&2 > 0, i&4 > 0}.Option())
	}
	for _, deg := range []int{0, 110, 150, 200} {
		known(CareLimits{Iron: deg}.IronOption())
		known(CareLimits{Iron: deg, NoSteam: true}.IronOption())
	}
	for _, c := range cycles {
		for _, solvent := range [][]string{nil, {"P"}, {"F"}} {
			for _, wet := range []bool{false, true} {
				for _, o := range (Clean{solvent, wet, c}).Options() {
					known(o)
				}
			}
		}
	}
}
