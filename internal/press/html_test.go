package press

import (
	"strings"
	"testing"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

func figure(mm float64, rule, sum string, source trade.Source, inputs ...garment.Input) *garment.Figure {
	f := &garment.Figure{ID: "x", Title: "length"}
	f.Value.Quantity = measure.Quantity{Number: mm, Unit: measure.UnitMM}
	f.Working = garment.Working{Rule: rule, Sum: sum, Source: source, Inputs: inputs}
	return f
}

func at(file string, line int32) record.Pos {
	return record.Pos{Source: &record.Source{Path: file}, Line: line, Column: 1}
}

func TestFigure(t *testing.T) {
	build := record.Source{Path: "content/builds/a/build.yaml"}
	here := func(line int32) record.Pos { return record.Pos{Source: &build, Line: line, Column: 1} }
	for _, c := range []struct {
		name string
		f    *garment.Figure
		want string
	}{
		{"a working", figure(194, "length − intake", "210 − 16 = 194 mm", "derived", garment.Input{Name: "length", Value: "210 mm", From: "y"}, garment.Input{Name: "width", Value: "16 mm", At: here(9)}),
			"<details><summary>194\u00a0mm</summary><p>length − intake<br>= 210 − 16 = 194 mm<br>width <i>line 9</i></p></details>"},
		{"inputs of one line share it", figure(5, "r", "√(3² + 4²)", "geometry", garment.Input{Name: "from", Value: "(0, 0)", At: here(3)}, garment.Input{Name: "to", Value: "(3, 4)", At: here(3)}, garment.Input{Name: "k", Value: "2", At: at("content/workroom.yaml", 7)}),
			"<details><summary>5\u00a0mm</summary><p>r<br>= √(3² + 4²)<br>from (0, 0), to <i>line 3</i><br>k 2 <i>workroom.yaml:7</i><br><cite>geometry</cite></p></details>"},
		{"a default", figure(6, "least margin", "", "common practice", garment.Input{Name: "margin", Value: "6 mm", From: "default"}),
			"<details><summary>6\u00a0mm</summary><p>least margin<br>margin 6 mm <i>default</i><br><cite>common practice</cite></p></details>"},
		{"as it was written", figure(6, "as the record says", "", "the record itself", garment.Input{Name: "depth", Value: "6 mm", At: here(3)}), "6\u00a0mm"},
		{"no figure", &garment.Figure{}, ""},
		{"a wearer's", figure(915, "bust", "", "derived", garment.Input{Name: "bust", Value: "915 mm", At: at("content/wearers/w.yaml", 3)}), "private"},
		{"escaped", figure(1, "a < b", "", "x & y"), "<details><summary>1\u00a0mm</summary><p>a &lt; b<br><cite>x &amp; y</cite></p></details>"},
	} {
		w := &paper{folder: "content/builds/a"}
		if got := string(w.figure(c.f).b); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
	unknown := &garment.Figure{ID: "x"}
	unknown.Value.Why = "no cloth is named"
	if got := string((&paper{}).figure(unknown).b); !strings.Contains(got, "not\u00a0known") || !strings.Contains(got, "because no cloth is named") {
		t.Errorf("got %s", got)
	}
	money := &garment.Figure{ID: "x"}
	money.Value.Money = &measure.Money{Currency: "EUR"}
	if got := string((&paper{}).figure(money).b); got != "private" {
		t.Errorf("money: got %s", got)
	}
}

func TestInSum(t *testing.T) {
	for _, c := range []struct {
		value, sum string
		want       bool
	}{
		{"16 mm", "210 − 16 = 194", true}, {"16 mm", "216 − 1 = 215", false}, {"1.5 mm", "11.5 + 1", false}, {"1.5 mm", "2 × 1.5", true},
		{"15 mm", "", false}, {"linen", "linen", false}, {"(3, 4)", "√(3² + 4²)", true}, {"5 mm", "0.5 + 5", true},
	} {
		if got := inSum(c.value, c.sum); got != c.want {
			t.Errorf("%q in %q: %v", c.value, c.sum, got)
		}
	}
}

func TestTableLeavesOutEmptyColumns(t *testing.T) {
	w := &paper{}
	tab := w.table("T", words("a"), fig("b"), words("c"), fig("d"))
	tab.row("one").words("").words("x & y")
	tab.row("two").words("").words("")
	tab.end()
	want := `<div class="wide" tabindex="0"><table class="figures"><caption>T</caption><thead><tr><th scope="col" class="w">a</th><th scope="col" class="w">c</th></tr></thead><tbody>
<tr><th scope="row">one</th><td class="w">x &amp; y</td></tr>
<tr><th scope="row">two</th><td></td></tr></tbody></table></div>
`
	if got := string(w.b); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
