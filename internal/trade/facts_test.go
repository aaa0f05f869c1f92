package trade

import (
	"strings"
	"testing"
)

func TestFlammability(t *testing.T) {
	near(t, "limit for plain cloth, g/m² (2.6 oz/yd², 16 CFR 1610.1(d)(1))", PlainSurfaceLimit(), 88.155, 5e-4)
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
		{[]string{"cotton"}, 0, PlainSurface, FlagUnknown, "mass"},
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
	// Source: open data set of HS descriptions.
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
	} {
		group, err := PredominantGroup(c.fibres)
		if err != nil {
			t.Fatal(err)
		}
		got, err := HSHeading(c.garment, c.knitted, group)
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
	if _, err := PredominantGroup([]FibreShare{{"coton", 100}}); err == nil || !strings.Contains(err.Error(), `did you mean "cotton"?`) {
		t.Errorf("coton: %v", err)
	}
	if _, err := PredominantGroup(nil); err == nil {
		t.Error("no fibres at all were accepted")
	}
}

func TestCautionsFor(t *testing.T) {
	age := func(a float64) *float64 { return &a }
	for _, c := range []struct {
		name      string
		facts     Facts
		want, not []string
	}{
		{"nothing known", Facts{}, []string{"pins", "broken-needle"}, []string{"flammable-light", "small-parts", "shipping", "nickel"}},
		{"light silk", Facts{Cloths: []ClothFacts{{"shell", []string{"silk"}, 60, PlainSurface}}}, []string{"flammable-light"}, []string{"flammable-raised", "flammable-unknown"}},
		{"cotton flannel", Facts{Cloths: []ClothFacts{{"shell", []string{"cotton"}, 170, RaisedSurface}}}, []string{"flammable-raised"}, []string{"flammable-light"}},
		{"cloth without mass", Facts{Cloths: []ClothFacts{{"shell", []string{"silk"}, 0, PlainSurface}}}, []string{"flammable-unknown"}, []string{"flammable-light"}},
		{"child of 4, tie at the neck", Facts{ChildAge: age(4), Cords: []string{"neck"}}, []string{"cords-young-child"}, []string{"cords-older-child", "cords-child-elsewhere"}},
		{"child of 134 cm, tie at the neck", Facts{ChildTall: 1340, Cords: []string{"neck"}}, []string{"cords-young-child"}, []string{"cords-older-child"}},
		{"child of 140 cm, tie at the neck", Facts{ChildTall: 1400, Cords: []string{"neck"}}, []string{"cords-older-child"}, []string{"cords-young-child"}},
		{"child of 7, tie at the neck", Facts{ChildAge: age(7), Cords: []string{"neck"}}, []string{"cords-older-child"}, []string{"cords-young-child"}},
		{"adult, tie at the neck", Facts{Cords: []string{"neck"}}, nil, []string{"cords-older-child", "cords-young-child"}},
		{"child of 5, no cord", Facts{ChildAge: age(5)}, nil, []string{"cords-young-child", "small-parts"}},
		{"child of 2 with buttons", Facts{ChildAge: age(2), Notions: []string{"Buttons"}}, []string{"small-parts"}, nil},
		{"zip and bones", Facts{Notions: []string{"zip", "boning"}}, []string{"nickel", "boning"}, []string{"magnets"}},
		{"tools", Facts{Tools: []string{"steam iron", "rotary cutter", "laser level"}}, []string{"pressing", "blades", "laser"}, []string{"laser-cutting"}},
		{"sold to the union", Facts{Sold: true, Markets: []string{"eu"}}, []string{"fibre-label-eu", "care-marks", "not-tested"}, []string{"fibre-label-us"}},
		{"sold to the states", Facts{Sold: true, Markets: []string{"us"}}, []string{"fibre-label-us", "care-label-us"}, []string{"fibre-label-eu"}},
		{"posted", Facts{Ships: true}, []string{"shipping"}, nil},
		{"leather", Facts{Materials: []string{"leather"}}, []string{"animal-parts"}, nil},
	} {
		got := map[string]bool{}
		for _, k := range CautionsFor(c.facts) {
			got[k.ID] = true
		}
		for _, id := range c.want {
			if !got[id] {
				t.Errorf("%s: caution %s is missing", c.name, id)
			}
		}
		for _, id := range c.not {
			if got[id] {
				t.Errorf("%s: caution %s does not belong", c.name, id)
			}
		}
	}
}

// TestEveryCautionCanApply makes sure that no caution waits for words that
// cannot come.
func TestEveryCautionCanApply(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Cautions() {
		if c.Title == "" || c.Applies == "" || c.Text == "" || c.Defer == "" || c.Source.Sure() == Unsaid {
			t.Errorf("caution %s is incomplete", c.ID)
		}
		if seen[c.ID] || !slugForm.MatchString(c.ID) {
			t.Errorf("caution id %q is doubled or no slug", c.ID)
		}
		seen[c.ID] = true
		if !c.When.Holds(factsFor(c.When)) {
			t.Errorf("caution %s does not apply even when all it asks for is there", c.ID)
		}
		if !c.When.Always && c.When.Holds(Facts{}) {
			t.Errorf("caution %s applies to a garment nothing is known of", c.ID)
		}
	}
}

// factsFor are facts that fulfil a condition word by word.
func factsFor(c Condition) Facts {
	f := Facts{Cords: c.Cords, Garments: c.Garments, Notions: c.Notions, Materials: c.Materials, Tools: c.Tools, Markets: c.Markets, Sold: c.Sold, Ships: c.Ships}
	age := c.ChildFrom
	f.ChildAge = &age
	if len(c.Flag) > 0 {
		cl := ClothFacts{Fibres: []string{"cotton"}, Mass: 60, Surface: PlainSurface}
		if len(c.Surfaces) > 0 {
			cl.Surface = Surface(c.Surfaces[0])
		}
		if c.Flag[0] == string(FlagUnknown) {
			cl.Mass = 0
		}
		f.Cloths = []ClothFacts{cl}
	}
	return f
}

func TestCareMeet(t *testing.T) {
	silk := CareLimits{Wash: Wash{30, VeryMild, false}, Bleach: NoBleach, Tumble: NoTumble, Iron: 110, Professional: Clean{[]string{"P"}, false, Mild}}
	cotton := CareLimits{Wash: Wash{60, Normal, false}, Bleach: AnyBleach, Tumble: FullTumble, Iron: 200, Professional: Clean{[]string{"P"}, false, Normal}}
	for _, got := range []CareLimits{silk.Meet(cotton), cotton.Meet(silk)} { // source: derived from the GINETEX rule
		if got.Wash.Words() != "wash at most 30 °C, very mild cycle" || got.Bleach != NoBleach || got.Tumble != NoTumble ||
			got.Iron != 110 || got.Professional.Words() != "professional dry cleaning (P), mild" || got.Forbidden() {
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
