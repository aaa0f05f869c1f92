package document

import (
	"testing"

	"hembook/internal/figure"
	"hembook/internal/measure"
)

// TestTerminal: the same blocks as a page has, on a wide terminal and on a
// narrow one, where the two widest columns get 16 of the 40 letters each.
func TestTerminal(t *testing.T) {
	pad := &figure.Pad{}
	f := pad.Figure("x", "length", "", pad.Written("width", 40, measure.UnitMM, at("content/builds/a/build.yaml", 7)).By(2), measure.UnitMM, "twice the width", figure.Derived)
	unknown := pad.Figure("y", "area", "", pad.Unknown("no cloth is named"), measure.UnitMM, "", figure.Derived)
	var d Draft
	d.Say(Say("A skirt from waist to hip, and no further"))
	d.Add(Section{Head: "hem", Blocks: d.Within(func() { d.Facts(&f, &unknown) })})
	deep := Fact{Term: "deep", Says: []Phrase{d.Phrase(Say("it follows"))}, Private: true}
	d.Add(Section{Head: "tree", Blocks: []Block{Facts{Items: []Fact{{Term: "top", Says: []Phrase{d.Phrase(Quantity("25 mm", "1 in"))}, Below: []Fact{deep}}}}}})
	d.Table("", Words("seam"), Words("joins"), Words("empty"), Figures("length")).
		Row("side").Words("front left to back right", "").Figures(&f).
		Row("yoke").Words("yoke to front").Cell().Cell(Of(&f), Verdict(false, "meets", "does not meet")).End()
	for _, c := range []struct {
		wide    int
		working bool
		want    string
	}{
		{0, true, `A skirt from waist to hip, and no further

hem
  length           80 mm
      rule:   twice the width
      sum:    40 mm × 2 = 80 mm
      from:   width = 40 mm   content/builds/a/build.yaml:7
      source: derived
  area             not known, because no cloth is named
      source: derived

tree
  top              25 mm (1 in)
    deep (private) it follows

seam  joins                     length
side  front left to back right  80 mm
yoke  yoke to front             80 mm (does not meet)
`},
		{40, false, `A skirt from waist to hip, and no
further

hem
  length           80 mm
  area             not known, because no
                   cloth is named

tree
  top              25 mm (1 in)
    deep (private) it follows

seam  joins             length
side  front left to     80 mm
      back right
yoke  yoke to front     80 mm (does not
                        meet)
`},
	} {
		w := Terminal{Wide: c.wide, Working: c.working}
		if got := string(w.Write(d.Blocks)); got != c.want {
			t.Errorf("at %d:\n%s\nwant\n%s", c.wide, got, c.want)
		}
	}
}
