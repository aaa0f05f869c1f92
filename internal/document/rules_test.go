package document

import (
	"strings"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// long is a figure of so many millimetres, reached by a sum.
func longFigure(mm float64, rule string, source trade.Source) *figure.Figure {
	p := &figure.Pad{}
	f := p.Figure("x", "length", "", p.Constant(mm, measure.UnitMM).Plus(p.Constant(1, measure.UnitMM)), measure.UnitMM, rule, source)
	return &f
}

// TestRulesAreSaidOnce: a long rule that three figures rest on is written out at
// the foot with its source; one that two rest on, or a short one, stays.
func TestRulesAreSaidOnce(t *testing.T) {
	rules := &Rules{}
	h := &HTML{Rules: rules}
	rule := "what the seam needs, as nothing is written at the edge or the piece, however long it may be"
	for range 3 {
		h.figure(longFigure(15, rule, "a table of seams"))
	}
	h.figure(longFigure(1, "a", "common practice"))
	h.figure(longFigure(2, "the other, which is long as well but is needed only this one time", "geometry"))
	h.turn()
	parts, list := rules.Fill([][]Chunk{h.done}, nil)
	foot, got := string(list), string(parts[0])
	if n := strings.Count(got, `<a href="#rule-1">what the seam needs</a>`); n != 3 {
		t.Errorf("%d of 3 figures lead to the rule: %s", n, got)
	}
	if strings.Count(got+foot, rule) != 1 || strings.Count(got+foot, "a table of seams") != 1 || !strings.Contains(foot, `<li id="rule-1">`+rule+" <cite>a table of seams</cite>") {
		t.Errorf("the rule is not said once, at the foot: %s", foot)
	}
	for _, stays := range []string{"<p>a<br>= 1 mm + 1 mm = 2 mm<br><cite>common practice</cite></p>", "the other, which is long as well but is needed only this one time<br>= 2 mm + 1 mm = 3 mm<br><cite>geometry</cite>"} {
		if !strings.Contains(got, stays) {
			t.Errorf("%q does not stand at its figure: %s", stays, got)
		}
	}
}

// TestLoadIsTheWeight: what a load says a page will weigh is what it weighs, or
// a little more.
func TestLoadIsTheWeight(t *testing.T) {
	rules := &Rules{}
	h := &HTML{Rules: rules}
	for i := range 60 {
		h.figure(longFigure(float64(i), "straight edge: √((x₂ − x₁)² + (y₂ − y₁)²), to a hundredth", "geometry"))
		if i%2 == 0 {
			h.figure(longFigure(float64(i), "another rule", "derived"))
		}
	}
	h.turn()
	says := Load{Rules: rules}
	says.Add(&h.done[0])
	parts, foot := rules.Fill([][]Chunk{h.done}, nil)
	is := len(parts[0]) + len(foot)
	if says.Bytes() < is || says.Bytes() > is+is/10 {
		t.Errorf("a load of %d for a page of %d bytes", says.Bytes(), is)
	}
}

// TestFigureLed: a figure in a sentence leads to where its working is opened, and stands
// without a link where it is opened nowhere.
func TestFigureLed(t *testing.T) {
	for name, c := range map[string]struct {
		page   string
		stands bool
		lead   string
	}{
		"another page": {"fit.html", true, `<a href="fit.html#`}, "this page": {"", true, `<a href="#`}, "nowhere": {"", false, ""},
	} {
		rules := &Rules{}
		h := &HTML{Rules: rules}
		f := longFigure(3, "a", "common practice")
		h.FigureLed(f)
		h.turn()
		parts, _ := rules.Fill([][]Chunk{h.done}, func(string) (string, bool) { return c.page, c.stands })
		got := string(parts[0])
		if strings.Contains(got, "<a ") != c.stands || !strings.HasPrefix(got, c.lead) || strings.Count(got, "</a>") != strings.Count(got, "<a ") {
			t.Errorf("%s: %s", name, got)
		}
	}
}
