package trade

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestExprEval(t *testing.T) {
	p := Params{"first": 6, "second": 9, "trim": 3, "width": 6, "cord": 4, "allowance": 15}
	for _, c := range []struct {
		text    string
		want    float64
		working string
	}{
		{"first + second", 15, "first + second = 6 + 9 = 15"},
		{"4*width", 24, "4 × width = 4 × 6 = 24"},
		{"pi * cord + 2 * allowance", 42.56637, "pi × cord + 2 × allowance = 3.14159 × 4 + 2 × 15 = 42.566"},
		{"π·cord", 12.56637, "pi × cord = 3.14159 × 4 = 12.566"},
		{"allowance / 2", 7.5, "allowance ÷ 2 = 15 ÷ 2 = 7.5"},
		{"2 * (first + second) ÷ 3", 10, "2 × (first + second) ÷ 3 = 2 × (6 + 9) ÷ 3 = 10"},
		{"first - second - trim", -6, "first − second − trim = 6 − 9 − 3 = −6"},
		{"-first - -second", 3, "−first − −second = −6 − −9 = 3"},
		{"8 / 4 / 2", 1, "8 ÷ 4 ÷ 2 = 1"},
		{"allowance", 15, "allowance = 15"},
		{"0", 0, "0"},
		{" .5 ", 0.5, "0.5"},
		{"first – trim", 3, "first − trim = 6 − 3 = 3"},
	} {
		e, err := ReadExpr(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		got, err := e.Eval(p)
		if err != nil || math.Abs(got.Value-c.want) > 1e-5 || got.Working != c.working {
			t.Errorf("%s: got %v %q %v, want %v %q", c.text, got.Value, got.Working, err, c.want, c.working)
		}
	}
}

func TestExprHolds(t *testing.T) {
	p := Params{"trim": 3, "second": 9, "x": 0.1, "y": 0.2, "z": 0.3}
	for _, c := range []struct {
		text    string
		want    bool
		working string
	}{
		{"trim < second", true, "trim < second: 3 < 9"},
		{"second <= trim", false, "second ≤ trim: 9 ≤ 3"},
		{"second ≥ 3 * trim", true, "second ≥ 3 × trim: 9 ≥ 9"},
		{"second > 3 * trim", false, "second > 3 × trim: 9 > 9"},
		{"x + y = z", true, "x + y = z: 0.3 = 0.3"},
		{"x + y > z", false, "x + y > z: 0.3 > 0.3"},
		{"x != y", true, "x ≠ y: 0.1 ≠ 0.2"},
	} {
		e, err := ReadExpr(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		got, working, err := e.Holds(p)
		if err != nil || got != c.want || working != c.working {
			t.Errorf("%s: got %v %q %v, want %v %q", c.text, got, working, err, c.want, c.working)
		}
	}
}

func TestExprErrors(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "the formula is empty"},
		{"   ", "the formula is empty"},
		{"first +", "ends where a number or a name was expected"},
		{"first second", `character 7 is "s" where an operator such as + was expected`},
		{"(first", "ends where a closing parenthesis was expected"},
		{"first)", `character 6 is ")"`},
		{"6 mm", `character 3 is "m" where an operator`},
		{"6mm", `character 2 is "m" where an operator (write 2 * width, and lengths in mm without the unit)`},
		{"1.2.3", `"1.2.3" is not a number`},
		{"a < b < c", "compares more than two values"},
		{"first $ second", `character 7 is "$"`},
		{strings.Repeat("(", 100) + "1", "nested too deeply"},
		{strings.Repeat("-", 100) + "1", "nested too deeply"},
		{strings.Repeat("1+", 400) + "1", "longer than"},
		{"1\x00", "character 2"},
	} {
		_, err := ReadExpr(c.text)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%.20q: got %v, want %q", c.text, err, c.says)
		}
	}
	for _, c := range []struct{ text, says string }{
		{"frist + second", `no value for "frist"; did you mean "first"?`},
		{"first / (second - 9)", "divides by (second − 9), which is 0"},
		{"first < second", "compares two values"},
		{strings.Repeat("9", 300) + "*" + strings.Repeat("9", 90), "too large"},
	} {
		_, err := mustExpr(c.text).Eval(Params{"first": 6, "second": 9})
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%.30q: got %v, want %q", c.text, err, c.says)
		}
	}
	if _, err := (Expr{}).Eval(nil); err == nil {
		t.Error("an absent formula gave a value")
	}
	if _, _, err := mustExpr("1 + 2").Holds(nil); err == nil {
		t.Error("a sum was taken for a comparison")
	}
}

// TestExprAgreesWithGo builds formulas whose value is known as they are built.
func TestExprAgreesWithGo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Params{"a": rapid.Float64Range(1, 99).Draw(t, "a"), "b": rapid.Float64Range(1, 99).Draw(t, "b")}
		text, want := grow(t, p, 4)
		e, err := ReadExpr(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		got, err := e.Eval(p)
		if err != nil {
			return // a divisor came out as 0
		}
		if math.Abs(got.Value-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Fatalf("%s: got %v, want %v", text, got.Value, want)
		}
		again, err := ReadExpr(e.Pretty())
		if err != nil || again.Pretty() != e.Pretty() {
			t.Fatalf("%s prints as %s, which reads as %s %v", text, e.Pretty(), again.Pretty(), err)
		}
	})
}

func grow(t *rapid.T, p Params, depth int) (string, float64) {
	if depth == 0 || rapid.IntRange(0, 3).Draw(t, "leaf") == 0 {
		name := rapid.SampledFrom([]string{"a", "b"}).Draw(t, "name")
		return name, p[name]
	}
	l, lv := grow(t, p, depth-1)
	r, rv := grow(t, p, depth-1)
	switch rapid.SampledFrom([]string{"+", "-", "*", "/"}).Draw(t, "sign") {
	case "+":
		return "(" + l + "+" + r + ")", lv + rv
	case "-":
		return "(" + l + "-" + r + ")", lv - rv
	case "*":
		return "(" + l + "*" + r + ")", lv * rv
	default:
		return "(" + l + "/" + r + ")", lv / rv
	}
}

func FuzzExpr(f *testing.F) {
	for _, s := range SeamTypes() {
		f.Add(s.Gives.A.String())
		f.Add(s.Width.String())
		for _, c := range s.Checks {
			f.Add(c.Must.String())
		}
	}
	f.Add("pi * (cord + -2) / 0 <= .")
	f.Fuzz(func(t *testing.T, text string) {
		e, err := ReadExpr(text)
		if err != nil {
			return
		}
		p := Params{}
		for _, n := range e.Names() {
			p[n] = 2
		}
		if e.Compares() {
			if _, _, err := e.Holds(p); err != nil && !strings.Contains(err.Error(), "divides by") {
				t.Errorf("%q: %v", text, err)
			}
			return
		}
		w, err := e.Eval(p)
		if err == nil && (math.IsNaN(w.Value) || math.IsInf(w.Value, 0) || w.Working == "") {
			t.Errorf("%q gave %+v", text, w)
		}
	})
}

// mustExpr is ParseExpr for formulas written in a test.
func mustExpr(text string) Expr {
	e, err := ReadExpr(text)
	if err != nil {
		panic(err)
	}
	return e
}
