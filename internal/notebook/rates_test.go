package notebook

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hembook/internal/measure"
)

// TestRatesCompareCloth: two squares of 100 mm with 15 mm all round are two of
// 130 mm as cut, 2 × 169 cm² = 0.0338 m², of which 138 ÷ 338 is allowance (by
// hand). The latest builds are listed, the rest counted.
func TestRatesCompareCloth(t *testing.T) {
	files := workroom()
	for i := range 30 {
		files[fmt.Sprintf("content/builds/b%d/build.yaml", i)] = buildText(fmt.Sprintf("Bag %02d", i), 1990+i, 12)
	}
	files["content/builds/odd/build.yaml"] = "name: Not drawn yet\ngarment: bag\nstate: planned\nbegun: 2030-01-02\n"
	_, shelf := gather(t, open(t, files))
	p := shelf.Rates(shelf.Techniques())
	if len(p.Builds) != 24 || p.More != 8 { // 30, and two of the workroom
		t.Fatalf("%d builds are listed and %d counted", len(p.Builds), p.More)
	}
	if first := p.Builds[0].Name; first != "Two" {
		t.Errorf("the first is %s; the latest with an area is Two", first)
	}
	for _, b := range p.Builds {
		if got := b.Cut.Value.In(measure.UnitM2).Number; math.Abs(got-0.0338) > 1e-9 {
			t.Errorf("%s: %v m² are cut, not 0.0338", b.Name, got)
		}
		if got := b.Share.Value.Number; math.Abs(got-138.0/338*100) > 1e-6 {
			t.Errorf("%s: %v %% is allowance, not 40.83", b.Name, got)
		}
		if !strings.Contains(b.Cut.Working.Sum(), "0.0338") || !strings.Contains(b.Share.Working.Sum(), "÷") {
			t.Errorf("%s: workings %q and %q", b.Name, b.Cut.Working.Sum(), b.Share.Working.Sum())
		}
	}
}
