package compose

import (
	"strings"
	"testing"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/trade"
)

// TestGlance: fibres as a label says them, under both their names where they
// have two, and care with what decides it; what is not known says why and
// nothing else of it is said.
func TestGlance(t *testing.T) {
	flax, _ := trade.FibreNamed("flax")
	wash, _ := trade.CareOptionNamed("wash-30-mild")
	page := &notebook.BuildPage{
		Content: &label.Content{
			Components: []label.Component{{Parts: []string{"shell", "facing"}, Fibres: []label.FibrePart{{Name: "flax", Fibre: flax, Label: 70}, {Name: "cotton", Label: 30}}}},
			Unknown:    []label.LeftOut{{Part: "trim", Why: "nobody asked"}},
			Animal:     []string{"buttons (horn)"},
		},
		Care: &label.Care{Axes: []label.CareAxis{{Title: "Washing", Options: []trade.CareOption{wash}, Working: new(figure.Pad).Words("set by the shell", "the strictest", figure.Derived)}}},
	}
	say := func() string {
		d := NewDraft(measure.Style{})
		Glance(d, page)
		return strings.ReplaceAll(string((&document.HTML{}).Text(d.Blocks)), "\u00a0", " ")
	}
	got := say()
	for _, want := range []string{
		"<summary>shell, facing: 70 % flax (linen), 30 % cotton</summary>", "trim: <details><summary>not known yet</summary><p>because nobody asked</p>",
		"buttons (horn), of animal origin", "<summary>wash at most 30 °C, mild cycle</summary><p>the strictest<br>set by the shell",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in %s", want, got)
		}
	}
	page.Care.Unknown = []label.CareGap{{Name: "lining", Why: "its fibres are not known", Cloth: true}}
	if got := say(); strings.Contains(got, "30 °C") || !strings.Contains(got, "lining: its fibres are not known") {
		t.Errorf("care is said beside a cloth that nobody knows: %s", got)
	}
	page.Content, page.Care = nil, nil
	if got := say(); got != "" {
		t.Errorf("a build of which nothing is known has %s", got)
	}
}
