package draw

import (
	"hembook/internal/fitting"
	"regexp"
	"strings"
	"testing"

	"hembook/internal/measure"
)

// dropped is a hem 3000 round with four stations, the second lowest.
func dropped(drops ...float64) *fitting.Hang {
	h := &fitting.Hang{Name: "skirt.hem", Around: mm(3000), OnBias: true}
	for i, d := range drops {
		s := fitting.Station{Along: mm(float64(i) * 3000 / float64(len(drops))), Drop: mm(d), Grain: mm(0)}
		s.Grain.Value.Quantity = measure.Quantity{Number: float64(15 * i), Unit: measure.UnitDegree}
		h.Stations = append(h.Stations, s)
	}
	h.Longest, h.Least, h.Spread = mm(6), mm(2), mm(4)
	h.Bias = mm(0)
	h.Bias.Value.Quantity = measure.Quantity{Number: 45, Unit: measure.UnitDegree}
	return h
}

func TestHemIsToScale(t *testing.T) {
	svg := string(Hem(dropped(2, 6, 4, 3), measure.Style{}).SVG(nil))
	classes := wellFormed(t, svg)
	for _, c := range []string{"hem", "asCut", "levelled", "hanging", "levelling", "stations"} {
		if !classes[c] {
			t.Errorf("nothing has the class %q", c)
		}
	}
	// 3000 mm are 1500 units, a drop of 6 is 300: the hem goes from (0, 160) by
	// 375 and 200 down to its lowest, and back to where it began.
	if !strings.Contains(svg, `class="hanging bar" d="M0 160l375 200l375-100l375-50l375-50"`) {
		t.Error(svg)
	}
	// levelling takes the lowest station up by 4 of those 6
	if !regexp.MustCompile(`class="levelling grain" d="[^"]*M375 160v200`).MatchString(svg) {
		t.Error(svg)
	}
	for _, want := range []string{
		"The hem skirt.hem as it hung, unrolled", "The hem is 3000 mm round. It dropped by up to 6 mm, at least by 2 mm. Levelling takes off up to 4 mm.",
		"at 45° to its lengthwise grain, on the bias.", ">15°<",
	} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is not in %s", want, svg)
		}
	}
}

func TestHemsThatCannotBeDrawn(t *testing.T) {
	h := dropped(2, 6)
	h.Around.Value.Why = "an edge of it is not there"
	if got := Hem(h, measure.Style{}); got != nil {
		t.Errorf("%s", got.Desc)
	}
	if got := Hem(dropped(), measure.Style{}); got != nil {
		t.Errorf("%s", got.Desc)
	}
	for _, flat := range []*fitting.Hang{dropped(0, 0), dropped(-3, -3), dropped(5)} {
		svg := string(Hem(flat, measure.Style{}).SVG(nil))
		wellFormed(t, svg)
		if strings.Contains(svg, "NaN") {
			t.Error(svg)
		}
	}
}
