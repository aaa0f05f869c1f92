package trade

import (
	"strings"
	"testing"
)

func TestPlausible(t *testing.T) {
	// Ranges: ANSUR II public working databases (computed).
	for _, c := range []struct {
		name  string
		value float64
		who   Wearer
		level Plausibility
		says  string
	}{
		{"bust", 940, Woman, Fits, ""},
		{"bust", 784, Woman, Fits, ""},
		{"bust", 690, Woman, Odd, "695 to 1266 mm"},
		{"bust", 92, Woman, Wrong, "did you mean 920 mm (92 cm)?"},
		{"bust", 36, Woman, Wrong, "did you mean 914.4 mm (36 in)?"},
		{"bust", 9400, Woman, Wrong, "did you mean 940 mm?"},
		{"bust", 520, Woman, Wrong, "outside everyone measured"},
		{"bust", 522, Woman, Odd, "measure again"},
		{"bust", 1582, Woman, Odd, "measure again"},
		{"bust", 1583, Woman, Wrong, ""},
		{"height", 1.63, Woman, Wrong, "did you mean 1630 mm (1.63 m)?"},
		{"height", 168, Anyone, Wrong, "did you mean 1680 mm (168 cm)?"},
		{"stature", 1990, Man, Fits, ""},
		{"height", 1990, Woman, Odd, ""},
		{"height", 1100, Child, Fits, ""},
		{"height", 110, Child, Wrong, "did you mean 1100 mm (110 cm)?"},
		{"mass", 66, Woman, Fits, ""},
		{"mass", 210, Woman, Wrong, "did you mean 95.3 kg (210 lb)?"},
		{"waist", -4, Woman, Wrong, "cannot be"},
		{"waist", 0, Woman, Wrong, "cannot be"},
		{"underbust", 760, Woman, NoRange, ""},
		{"elbow", 100, Woman, NoRange, ""},
	} {
		level, says := Plausible(c.name, c.value, c.who)
		if level != c.level || !strings.Contains(says, c.says) || level <= Fits && says != "" {
			t.Errorf("%s %v %s: got %d %q, want %d %q", c.name, c.value, c.who, level, says, c.level, c.says)
		}
	}
}

func TestPlausibleRatio(t *testing.T) {
	// Source: ANSUR II, waist ÷ hip of women at most 1.104, of men 1.220.
	for _, c := range []struct {
		a, b float64
		who  Wearer
		want Plausibility
	}{
		{1104, 1000, Woman, Fits},
		{1105, 1000, Woman, Odd},
		{1105, 1000, Man, Fits},
		{1105, 1000, Anyone, Fits},
		{1221, 1000, Anyone, Odd},
		{700, 1000, Woman, Odd},
		{5000, 1000, Child, NoRange},
		{0, 1000, Woman, NoRange},
	} {
		if got, says := PlausibleRatio("waist", "hip", c.a, c.b, c.who); got != c.want {
			t.Errorf("waist %v hip %v %s: got %d %q, want %d", c.a, c.b, c.who, got, says, c.want)
		}
	}
}

func TestMeasurementTable(t *testing.T) {
	if got := len(Measurements()); got < 20 {
		t.Errorf("only %d measurements", got)
	}
	for _, m := range Measurements() {
		if m.Definition == "" || m.Title == "" || m.Unit != "mm" && m.Unit != "kg" || m.Source.sure() == sureUnsaid {
			t.Errorf("%s is incomplete", m.Name)
		}
		for _, r := range []*Range{m.Women, m.Men} {
			if r == nil {
				continue
			}
			order := []float64{r.Min, r.P1, r.P5, r.P50, r.P95, r.P99, r.Max}
			for i := 1; i < len(order); i++ {
				if order[i-1] >= order[i] {
					t.Errorf("%s: percentiles do not rise: %v", m.Name, order)
				}
			}
			if r.SD <= 0 || r.Mean < r.P5 || r.Mean > r.P95 {
				t.Errorf("%s: mean %v, sd %v", m.Name, r.Mean, r.SD)
			}
		}
	}
	hip, _ := MeasurementNamed("hips")
	if hip.Women.P1 != 867 || hip.Women.P99 != 1206.3 || hip.Men.P1 != 861.8 || hip.Men.P99 != 1218 {
		t.Errorf("hip percentiles differ from the independent computation: %+v %+v", hip.Women, hip.Men)
	}
}
