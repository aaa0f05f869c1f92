package document

import (
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

func at(file string, line int32) fault.Pos {
	return fault.Pos{Source: &fault.Source{Path: file}, Line: line, Column: 1}
}

// TestGoesInto: a figure names what is worked out from it, three at most, and
// nothing that rests on what is private.
func TestGoesInto(t *testing.T) {
	const mm = measure.UnitMM
	pad := &figure.Pad{}
	hem := pad.Figure("hem", "sewn", "front", pad.Written("hem", 210, mm, at("content/builds/a/build.yaml", 3)).By(2), mm, "", figure.Derived)
	list := []figure.Figure{hem}
	up := func(id, title, of string, with figure.Term) {
		list = append(list, pad.Figure(id, title, of, pad.Of("hem", &hem).Plus(with), mm, "", figure.Derived))
	}
	said := func() string {
		h := &HTML{Folder: "content/builds/a", Lineage: figure.NewLineage(list)}
		_, into, _ := strings.Cut(string(h.figure(&hem).Out), "<br>goes into ")
		return into
	}
	if got := said(); got != "" {
		t.Errorf("nothing rests on it, and it says %s", got)
	}
	up("ease", "ease", "wearer", pad.Written("bust", 915, mm, at("content/wearers/w.yaml", 3)))
	up("one", "area", "front", pad.Constant(1, mm))
	up("two", "hem length", "whole & all", pad.Constant(1, mm))
	if got, want := said(), "area, whole &amp; all: hem length</p></details>"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	up("three", "share", "front", pad.Constant(1, mm))
	up("four", "x", "", pad.Constant(1, mm))
	up("five", "y", "", pad.Constant(1, mm))
	if got, want := said(), "area, whole &amp; all: hem length, share and 2 more</p></details>"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestFigure(t *testing.T) {
	build := fault.Source{Path: "content/builds/a/build.yaml"}
	here := func(line int32) fault.Pos { return fault.Pos{Source: &build, Line: line, Column: 1} }
	const mm = measure.UnitMM
	pad := &figure.Pad{}
	made := func(t figure.Term, rule string, source trade.Source) *figure.Figure {
		f := pad.Figure("x", "length", "", t, mm, rule, source)
		return &f
	}
	length := made(pad.Written("length", 210, mm, here(1)), "", figure.Derived)
	corners := func() *figure.Pad {
		return pad.Shown(figure.Written, "from", "(0, 0)", here(3), "").Shown(figure.Written, "to", "(3, 4)", here(3), "")
	}
	for _, c := range []struct {
		name string
		f    *figure.Figure
		want string
	}{
		{"a working", made(pad.Of("length", length).Minus(pad.Written("width", 16, mm, here(9))), "length − intake", figure.Derived),
			"<details><summary>194\u00a0mm</summary><p>length − intake<br>= 210 mm − 16 mm = 194 mm<br>width <i>line 9</i></p></details>"},
		{"inputs of one line share it", made(corners().Note(pad.Written("k", 2, measure.UnitCount, at("content/workroom.yaml", 7))).Apart(0, 0, 3, 4), "r", "geometry"),
			"<details><summary>5\u00a0mm</summary><p>r<br>= √((3 mm − 0 mm)² + (4 mm − 0 mm)²) = 5 mm<br>from, to <i>line 3</i><br>k 2 <i>workroom.yaml:7</i><br><cite>geometry</cite></p></details>"},
		{"a default", made(pad.Note(pad.Usual("margin", 6, mm)).Constant(6, mm), "least margin", figure.Practice),
			"<details><summary>6\u00a0mm</summary><p>least margin<br>margin 6 mm <i>default</i><br><cite>common practice, no source</cite></p></details>"},
		{"as it was written", made(pad.Written("depth", 6, mm, here(3)), "as the record says", figure.Recorded), "6\u00a0mm"},
		{"no figure", &figure.Figure{}, ""},
		{"a wearer's", made(pad.Written("bust", 915, mm, at("content/wearers/w.yaml", 3)).By(1), "bust", figure.Derived), "private"},
		{"escaped", made(pad.Constant(1, mm), "a < b", "x & y"), "<details><summary>1\u00a0mm</summary><p>a &lt; b<br><cite>x &amp; y</cite></p></details>"},
	} {
		h := &HTML{Folder: "content/builds/a"}
		if got := string(h.figure(c.f).Out); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
	unknown := &figure.Figure{ID: "x"}
	unknown.Value.Why = "no cloth is named"
	if got := string((&HTML{}).figure(unknown).Out); !strings.Contains(got, "not\u00a0known") || !strings.Contains(got, "because no cloth is named") {
		t.Errorf("got %s", got)
	}
	money := &figure.Figure{ID: "x"}
	money.Value.Money = &measure.Money{Currency: "EUR"}
	if got := string((&HTML{}).figure(money).Out); got != "private" {
		t.Errorf("money: got %s", got)
	}
}

func TestTableLeavesOutEmptyColumns(t *testing.T) {
	var d Draft
	d.Table("T", Words("a"), Figures("b"), Words("c"), Figures("d")).
		Row("one").Words("", "x & y").
		Row("two").Words("", "").End()
	want := `<div class="wide" role="group" tabindex="0" aria-label="T"><table class="figures"><caption>T</caption><thead><tr><th scope="col" class="w">a</th><th scope="col" class="w">c</th></tr></thead><tbody>
<tr><th scope="row">one</th><td class="w">x &amp; y</td></tr>
<tr><th scope="row">two</th><td></td></tr></tbody><tfoot></tfoot></table></div>
`
	if got := string((&HTML{}).Text(d.Blocks)); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
