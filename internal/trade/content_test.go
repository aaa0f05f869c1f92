package trade

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestAdjusted(t *testing.T) {
	type one struct{ percent, allowance, lost, want, label float64 }
	for _, c := range []struct {
		name     string
		sum      float64 // 0 where it is not published
		decimals int
		fibres   []one
	}{
		// Regulation (EU) No 1007/2011, Annex VIII, chapter 3, section IV, variant 1
		{"variant 1", 109.8385, 1, []one{{50, 6.25, 0, 48.37, 48.4}, {39.70, 8.5, 4, 40.66, 40.6}, {10.30, 17, 0, 10.97, 11.0}}},
		// the same, variant 4; the regulation prints 40.77 for cotton, got by subtraction
		{"variant 4", 113.2057, 1, []one{{48.71, 13, 0, 48.62, 48.6}, {41.02, 8.5, 4, 40.76, 40.8}, {10.27, 17, 0, 10.61, 10.6}}},
		// derived from the formula with the allowances of Annex IX
		{"silk 60, cotton 40", 0, 1, []one{{60, 11, 0, 60.55, 60.5}, {40, 8.5, 0, 39.45, 39.5}}},
		{"polyester 65, cotton 35", 0, 0, []one{{65, 1.5, 0, 63.47, 63}, {35, 8.5, 0, 36.53, 37}}},
		{"wool carded 80, polyamide filament 20", 0, 0, []one{{80, 17, 0, 81.57, 82}, {20, 5.75, 0, 18.43, 18}}},
		{"cotton 95, elastane 5", 0, 0, []one{{95, 8.5, 0, 95.31, 95}, {5, 1.5, 0, 4.69, 5}}},
		{"viscose 70, flax 30", 0, 1, []one{{70, 13, 0, 70.19, 70.2}, {30, 12, 0, 29.81, 29.8}}},
	} {
		var dry []DryShare
		for _, f := range c.fibres {
			dry = append(dry, DryShare{f.percent, f.allowance, f.lost})
		}
		got, sum := Adjusted(dry)
		if c.sum > 0 {
			near(t, c.name+", sum", sum, c.sum, 5e-5)
		}
		label, total := RoundTo100(got, c.decimals), 0.0
		for i, f := range c.fibres {
			near(t, c.name, got[i], f.want, 5e-3)
			near(t, c.name+", label", label[i], f.label, 1e-9)
			total += label[i]
		}
		near(t, c.name+", sum of the label", total, 100, 1e-9)
	}
}

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
	// art. 9(2)
	for _, c := range []struct {
		shares []float64
		want   bool
	}{{[]float64{5}, true}, {[]float64{5.1}, false}, {[]float64{5, 5, 5}, true}, {[]float64{6, 5, 4.1}, false}, {[]float64{9, 6}, true}, {nil, false}} {
		if got := MayBeOther(c.shares...); got != c.want {
			t.Errorf("%v may be other fibres: %v", c.shares, got)
		}
	}
	for _, c := range []struct {
		fibre string
		share float64
		want  bool
	}{
		{"cotton", 5, true}, {"cotton", 4.9, false}, // 15 U.S.C. 70b(b)(1), 16 CFR 303.6
		{"elastane", 4, true}, // 16 CFR 303.3: 96 % acetate, 4 % spandex
		{"wool", 3, true},     // from memory (Wool Products Labeling Act)
	} {
		f, _ := FibreNamed(c.fibre)
		if got := NamedInUS(f, c.share); got != c.want {
			t.Errorf("%v %% %s is named in the United States: %v", c.share, c.fibre, got)
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
		dry := make([]DryShare, len(parts))
		for i, p := range parts {
			dry[i].Percent = p
		}
		shares, _ := Adjusted(dry)
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
