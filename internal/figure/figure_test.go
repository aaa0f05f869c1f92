package figure

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

const mm = measure.UnitMM

func at(line int32) fault.Pos {
	return fault.Pos{Source: &fault.Source{Path: "content/builds/x/build.yaml"}, Line: line, Column: 1}
}

// TestSums holds printed sums and values to numbers worked by hand.
func TestSums(t *testing.T) {
	rows := []struct {
		name string
		make func(p *Pad) Term
		unit measure.Unit
		want float64
		sum  string
		inch string // the same in a room of inches; "" where it is not asked
	}{
		{"a panel twice and another twice, in metres", func(p *Pad) Term {
			a, b := p.Written("front", 212, mm, at(1)), p.Written("back", 240, mm, at(2))
			return p.Sum(a.By(2), b.By(2))
		}, measure.UnitM, 0.904, "212 mm × 2 + 240 mm × 2 = 0.904 m", "8.346 in × 2 + 9.449 in × 2 = 0.989 yd"},
		{"length of a lay before it shrank", func(p *Pad) Term {
			return p.Told("lay", 2400, mm, "the lay plan").Over(p.Number(1).Minus(p.Written("shrink", 4, measure.UnitPercent, at(3))))
		}, mm, 2500, "2400 mm ÷ (1 − 4 %) = 2500 mm", ""},
		{"to the shop's step", func(p *Pad) Term {
			return p.Told("lay", 2400, mm, "the lay plan").Plus(p.Usual("straightening", 25, mm).By(2)).Up(p.Usual("step", 100, mm))
		}, mm, 2500, "2400 mm + 25 mm × 2, up to the next 100 mm = 2500 mm", ""},
		{"inner radius of a half circle, W 700, k 3/4", func(p *Pad) Term {
			return p.Written("waist", 700, mm, at(1)).Over(p.Number(2).Times(p.Pi()).Times(p.Written("share", 0.75, measure.UnitCount, at(1))))
		}, mm, 148.545, "700 mm ÷ (2 × π × 0.75) = 148.545 mm", ""},
		{"area", func(p *Pad) Term {
			return p.Written("wide", 640, mm, at(1)).Times(p.Written("high", 900, mm, at(1)))
		}, measure.UnitCM2, 5760, "640 mm × 900 mm = 5760 cm²", ""},
		{"a leg of a dart", func(p *Pad) Term {
			return p.Written("width", 24, mm, at(1)).Part(2).Squared().Plus(p.Written("length", 112, mm, at(1)).Squared()).Root()
		}, mm, 112.641, "√((24 mm ÷ 2)² + (112 mm)²) = 112.641 mm", ""},
		{"an edge on a slant", func(p *Pad) Term { return p.Apart(176, 392, 85.905, 420.032) }, mm, 94.355,
			"√((85.905 mm − 176 mm)² + (420.032 mm − 392 mm)²) = 94.355 mm", ""},
		{"an upright edge", func(p *Pad) Term { return p.Apart(0, 330, 0, 0) }, mm, 330, "330 mm − 0 mm = 330 mm", ""},
		{"below nothing", func(p *Pad) Term {
			return p.Written("a", 12, mm, at(1)).Minus(p.Written("b", -0.5, mm, at(1)))
		}, mm, 12.5, "12 mm − (−0.5 mm) = 12.5 mm", ""},
		{"five eighths twice", func(p *Pad) Term { return p.Written("allowance", 15.875, mm, at(1)).By(2) }, mm, 31.75,
			"15.875 mm × 2 = 31.75 mm", "5/8 in × 2 = 1 1/4 in"},
		{"weight of cloth", func(p *Pad) Term {
			return p.Told("area", 2, measure.UnitM2, "cut").Times(p.Written("weight", 150, measure.UnitGPerM2, at(1)))
		}, measure.UnitG, 300, "2 m² × 150 g/m² = 300 g", ""},
		{"minutes by the metre", func(p *Pad) Term {
			return p.Told("spent", 30, measure.UnitMin, "clock").Over(p.Told("sewn", 2.5, measure.UnitM, "seams"))
		}, measure.UnitMinPerM, 12, "30 min ÷ 2.5 m = 12 min/m", ""},
		{"share", func(p *Pad) Term {
			return p.Told("part", 205, measure.UnitCM2, "x").Over(p.Told("all", 805, measure.UnitCM2, "x"))
		}, measure.UnitPercent, 25.466, "205 cm² ÷ 805 cm² = 25.466 %", ""},
		{"arc of a godet", func(p *Pad) Term {
			return p.Written("height", 300, mm, at(1)).Times(p.Written("angle", 60, measure.UnitDegree, at(1))).Times(p.Pi()).Over(p.Constant(180, measure.UnitDegree))
		}, mm, 314.159, "300 mm × 60° × π ÷ 180° = 314.159 mm", ""},
		{"gaps", func(p *Pad) Term {
			return p.Written("over", 130, mm, at(1)).Over(p.Written("every", 20, mm, at(1))).Nearest(p.Number(1)).Plus(p.Number(1))
		}, measure.UnitCount, 8, "(130 mm ÷ 20 mm, to the nearest 1) + 1 = 8", ""},
		{"named", func(p *Pad) Term {
			return p.NamedSum(p.Told("cut", 50, measure.UnitMin, "a"), p.Told("hang", 1440, measure.UnitMin, "b"))
		}, measure.UnitMin, 1490, "cut 50 min + hang 1440 min = 1490 min", ""},
		{"only a value", func(p *Pad) Term { return p.Written("cut", 40, mm, at(1)) }, mm, 40, "40 mm", "1.575 in"},
		{"found", func(p *Pad) Term { return p.Found("skirt 1 ends from the cut end", 1540, mm) }, mm, 1540, "skirt 1 ends from the cut end: 1540 mm", ""},
	}
	for _, row := range rows {
		for _, units := range []measure.Unit{measure.UnitMM, measure.UnitIn} {
			p := NewPad(measure.Style{System: map[measure.Unit]measure.System{measure.UnitMM: measure.Metric, measure.UnitIn: measure.Imperial}[units]})
			f := p.Figure("id", "title", "of", row.make(p), row.unit, "rule", Derived)
			want := row.sum
			if units == measure.UnitIn {
				if want = row.inch; want == "" {
					continue
				}
			}
			if math.Abs(f.Value.Number-row.want) > 5e-4 || !f.Value.Known() {
				t.Errorf("%s: %v, want %v (%s)", row.name, f.Value.Number, row.want, f.Value.Why)
			}
			if got := f.Working.Sum(); got != want {
				t.Errorf("%s:\n got %s\nwant %s", row.name, got, want)
			}
			alone := f.Clone()
			if got := alone.Working.Sum(); got != want {
				t.Errorf("%s, copied:\n got %s\nwant %s", row.name, got, want)
			}
		}
	}
}

// TestNumbersShownGiveTheResultShown: 0.0004 × 1000 is 0.4, not 0 × 1000.
func TestNumbersShownGiveTheResultShown(t *testing.T) {
	p := &Pad{}
	f := p.Figure("a", "", "", p.Told("tiny", 0.00042, mm, "x").By(1000), mm, "", Derived)
	if got, want := f.Working.Sum(), "0.00042 mm × 1000 = 0.42 mm"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestMoneyIsExact(t *testing.T) {
	p := &Pad{}
	price := measure.Money{Amount: decimal.RequireFromString("18.35"), Currency: "EUR"}
	cost := p.Told("used", 2.1, measure.UnitM, "x").Times(p.Price("price", price, measure.UnitM, at(4)))
	f := p.Figure("cost.cloth", "cloth", "", cost, measure.NoUnit, "", Derived)
	if f.Value.Money == nil || f.Value.Money.String() != "38.54 EUR" { // 38.535, half away from zero
		t.Fatalf("got %+v", f.Value)
	}
	if got, want := f.Working.Sum(), "2.1 m × 18.35 EUR/m = 38.54 EUR"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	both := p.Figure("cost.all", "", "", p.Sum(p.Of("cloth", &f), p.Price("post", measure.Money{Amount: decimal.RequireFromString("4.1"), Currency: "GBP"}, measure.NoUnit, at(5))), measure.NoUnit, "", Derived)
	if both.Value.Known() {
		t.Errorf("euros and pounds were added: %+v", both.Value)
	}
}

// 20.30 EUR an hour are a third of a cent and more a minute: three minutes are 1.015 EUR,
// half a cent, which goes up.
func TestPartsOfACentAddUp(t *testing.T) {
	p := &Pad{}
	rate := measure.Money{Amount: decimal.RequireFromString("20.30"), Currency: "EUR"}
	f := p.Figure("cost.labour", "labour", "", p.Told("sewn", 3, measure.UnitMin, "x").Times(p.Price("rate", rate, measure.UnitHour, at(4))), measure.NoUnit, "", Derived)
	if f.Value.Money == nil || f.Value.Money.String() != "1.02 EUR" {
		t.Errorf("got %+v", f.Value)
	}
}

func TestNotKnownGoesUp(t *testing.T) {
	p := &Pad{}
	a := p.Figure("a", "", "", p.Unknown("nothing is written"), mm, "", Derived)
	b := p.Figure("b", "", "", p.Of("a", &a).Plus(p.Written("more", 3, mm, at(1))), mm, "", Derived)
	if b.Value.Known() || b.Value.Why != "nothing is written" || b.Working.Sum() != "" {
		t.Errorf("got %+v, %q", b.Value, b.Working.Sum())
	}
	in := b.Working.Inputs()
	if len(in) != 2 || in[0].From != "a" || in[0].Value != "not known" || in[1].At.Line != 1 {
		t.Errorf("got %+v", in)
	}
}

func TestUnitsMustFit(t *testing.T) {
	p := &Pad{}
	f := p.Figure("a", "", "", p.Written("wide", 3, mm, at(1)).Plus(p.Written("heavy", 2, measure.UnitG, at(1))), mm, "", Derived)
	if f.Value.Known() {
		t.Error("a length and a mass were added")
	}
	f = p.Figure("a", "", "", p.Written("wide", 3, mm, at(1)).Squared(), mm, "", Derived)
	if f.Value.Known() {
		t.Error("an area was called a length")
	}
}

func TestAsWritten(t *testing.T) {
	p := &Pad{}
	a := p.Figure("a", "", "", p.Written("a", 1, mm, at(1)), mm, "", Recorded)
	b := p.Figure("b", "", "", p.Of("a", &a).By(2), mm, "", Derived)
	if !a.AsWritten() || b.AsWritten() {
		t.Error("a stands in the record, b does not")
	}
}
