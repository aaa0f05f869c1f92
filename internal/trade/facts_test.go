package trade

import (
	"strings"
	"testing"
)

func TestFlammability(t *testing.T) {
	near(t, "limit for plain cloth, g/m² (2.6 oz/yd², 16 CFR 1610.1(d)(1))", plainSurfaceLimit(), 88.155, 5e-4)
	// Source: 16 CFR 1610.1(d).
	for _, c := range []struct {
		fibres  []string
		mass    float64
		surface Surface
		want    FlagState
		says    string
	}{
		{[]string{"silk"}, 60, PlainSurface, Flagged, "light plain cloth with silk"},
		{[]string{"cotton"}, 88.2, PlainSurface, FlagClear, "plain surface"},
		{[]string{"cotton"}, 88.0, PlainSurface, Flagged, "light plain"},
		{[]string{"polyester"}, 40, PlainSurface, FlagClear, "exempts"},
		{[]string{"polyester"}, 0, SurfaceUnknown, FlagClear, "exempts"},
		{[]string{"cotton"}, 170, RaisedSurface, Flagged, "raised surface"},
		{[]string{"polyester", "elastane"}, 60, PlainSurface, Flagged, "elastane"},
		{[]string{"wool", "nylon"}, 300, RaisedSurface, FlagClear, "exempts"},
		{[]string{"moonbeam"}, 60, PlainSurface, Flagged, "moonbeam"},
		{nil, 200, PlainSurface, FlagClear, "plain surface"},
		{nil, 60, PlainSurface, FlagUnknown, "fibres"},
		{nil, 60, RaisedSurface, FlagUnknown, "fibres"},
		{[]string{"cotton"}, 0, PlainSurface, FlagUnknown, "weight"},
		{[]string{"cotton"}, 60, SurfaceUnknown, FlagUnknown, "surface"},
	} {
		got := Flammability(c.fibres, c.mass, c.surface)
		if got.State != c.want || !strings.Contains(got.Reason, c.says) || got.Source == "" {
			t.Errorf("%v %v g/m² %s: got %+v, want %s", c.fibres, c.mass, c.surface, got, c.want)
		}
	}
	if w := Flammability([]string{"silk"}, 60, PlainSurface).Working; !strings.Contains(w, "60 g/m² = 1.77 oz/yd²") {
		t.Errorf("working does not show 1.77 oz/yd²: %s", w)
	}
}

func TestHSHeading(t *testing.T) {
	// Sources: open data set of HS descriptions; HTSUS, Section XI, note 2, and chapter 51, note 1.
	for _, c := range []struct {
		garment string
		knitted bool
		fibres  []FibreShare
		want    string
		whole   bool
	}{
		{"dress", false, []FibreShare{{"cotton", 100}}, "6204.42", true},
		{"dress", false, []FibreShare{{"viscose", 100}}, "6204.44", true},
		{"dress", false, []FibreShare{{"polyester", 100}}, "6204.43", true},
		{"dress", false, []FibreShare{{"silk", 100}}, "6204.49", true},
		{"drees", false, []FibreShare{{"linen", 100}}, "", false},
		{"Dresses", false, []FibreShare{{"flax", 100}}, "6204.49", true},
		{"gown", false, []FibreShare{{"linen", 100}}, "6204.49", true},
		{"dress", true, []FibreShare{{"wool", 100}}, "6104.41", true},
		{"blouse", false, []FibreShare{{"silk", 100}}, "6206.10", true},
		{"skirt", false, []FibreShare{{"linen", 100}}, "6204.59", true},
		{"dress", false, []FibreShare{{"cotton", 60}, {"polyester", 40}}, "6204.42", true},
		{"dress", false, []FibreShare{{"wool", 30}, {"cashmere", 25}, {"silk", 45}}, "6204.41", true},
		{"skirt", false, []FibreShare{{"viscose", 100}}, "6204.59", true},
		{"blouse", false, []FibreShare{{"viscose", 100}}, "6206.40", true},
		{"coat", false, []FibreShare{{"wool", 100}}, "6202", false},
		{"bra", true, []FibreShare{{"polyamide", 100}}, "6212", false},
		{"dress", false, []FibreShare{{"cotton", 50}, {"polyester", 50}}, "6204.43", true},
		// Section XI, note 2(B)(c): chapters 54 and 55 count as one, 60 against 40;
		// within them 30 and 30, and the last in order counts
		{"dress", false, []FibreShare{{"cotton", 40}, {"polyester", 30}, {"viscose", 30}}, "6204.44", true},
		{"dress", false, []FibreShare{{"cotton", 40}, {"polyester", 31}, {"viscose", 29}}, "6204.43", true},
		{"blouse", false, []FibreShare{{"cotton", 40}, {"polyester", 30}, {"viscose", 30}}, "6206.40", true},
		// note 2(B)(b): the chapter first; chapter 51 has 55, and in it wool leads with 30
		{"dress", false, []FibreShare{{"wool", 30}, {"horsehair", 25}, {"cotton", 45}}, "6204.41", true},
		{"dress", false, []FibreShare{{"wool", 25}, {"horsehair", 30}, {"cotton", 45}}, "6204.49", true},
		// chapter 51, note 1: rabbit is fine hair, the hair of cattle and common goats is not
		{"dress", false, []FibreShare{{"angora", 100}}, "6204.41", true},
		{"dress", false, []FibreShare{{"animal hair", 100}}, "6204.49", true},
	} {
		most, err := Predominant(c.fibres)
		if err != nil {
			t.Fatal(err)
		}
		got, err := HSHeading(c.garment, c.knitted, most.Group)
		if c.want == "" {
			if err == nil || !strings.Contains(err.Error(), `did you mean "dress"?`) {
				t.Errorf("%s: got %+v %v, want a hint at dress", c.garment, got, err)
			}
			continue
		}
		if err != nil || got.Code != c.want || got.Whole != c.whole || got.Source == "" {
			t.Errorf("%s of %v: got %+v %v, want %s", c.garment, c.fibres, got, err, c.want)
		}
	}
	if _, err := HSHeading("dress", false, "moss"); err == nil {
		t.Error("a fibre group of moss was accepted")
	}
	if _, err := Predominant([]FibreShare{{"coton", 100}}); err == nil || !strings.Contains(err.Error(), `did you mean "cotton"?`) {
		t.Errorf("coton: %v", err)
	}
	if _, err := Predominant(nil); err == nil {
		t.Error("no fibres at all were accepted")
	}
}

// TestCautionsAreWhole: each caution has its words and its source; that makers'
// records call for each is tested where records are read.
func TestCautionsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Cautions() {
		if c.Title == "" || c.Applies == "" || c.Text == "" || c.Defer == "" || c.Source.sure() == sureUnsaid {
			t.Errorf("caution %s is incomplete", c.ID)
		}
		if seen[c.ID] || !slugForm.MatchString(c.ID) {
			t.Errorf("caution id %q is doubled or no slug", c.ID)
		}
		seen[c.ID] = true
	}
	for _, list := range [][]ChildLimit{Children().Limits, Children().UnitedStates} {
		for _, l := range list {
			if !seen[l.Caution] || l.Says == "" || l.Source.sure() == sureUnsaid {
				t.Errorf("a limit of children's clothes is incomplete: %+v", l)
			}
			for _, name := range l.Kinds {
				if _, ok := Children().KindNamed(name); !ok {
					t.Errorf("a limit speaks of a kind that is not there: %q", name)
				}
			}
		}
	}
	for _, w := range Children().Words {
		for _, name := range append([]string{w.Kind}, w.May...) {
			if _, ok := Children().KindNamed(name); !ok && name != "" {
				t.Errorf("words of a kind that is not there: %q", name)
			}
		}
	}
}

func TestCareMeet(t *testing.T) {
	silk := CareLimits{Wash: Wash{30, VeryMild, false}, Bleach: noBleach, Tumble: NoTumble, Iron: 110, Professional: Clean{[]string{"P"}, false, Mild}}
	cotton := CareLimits{Wash: Wash{60, Normal, false}, Bleach: anyBleach, Tumble: FullTumble, Iron: 200, Professional: Clean{[]string{"P"}, false, Normal}}
	for _, got := range []CareLimits{silk.Meet(cotton), cotton.Meet(silk)} { // source: derived from the GINETEX rule
		if got.Wash.Words() != "wash at most 30 °C, very mild cycle" || got.Bleach != noBleach || got.Tumble != NoTumble ||
			got.Iron != 110 || !got.Professional.allows("P") || got.Professional.Wet || got.Professional.Action != Mild || got.Forbidden() {
			t.Errorf("silk over cotton: %+v", got)
		}
	}
	noWash := CareLimits{Professional: Clean{Solvents: []string{"P"}}}
	noClean := CareLimits{Wash: Wash{Degrees: 40}}
	if !noWash.Meet(noClean).Forbidden() { // 16 CFR 423.6(b)
		t.Error("do not wash with do not dry clean must leave nothing")
	}
	if m := (Wash{Degrees: 60, Action: Mild}).meet(Wash{Degrees: 40}); m.Degrees != 40 || m.Action != Mild {
		t.Errorf("60 mild with 40 normal: %+v", m)
	}
	f := (Clean{Solvents: []string{"P"}}).meet(Clean{Solvents: []string{"F"}})
	if len(f.Solvents) != 1 || f.Solvents[0] != "F" {
		t.Errorf("P with F: %+v", f)
	}
}
