package measure

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestLengthPrints(t *testing.T) {
	metric, imperial, both := Style{}, Style{System: Imperial}, Style{System: Both}
	rows := []struct {
		style Style
		l     Length
		want  string
	}{
		{metric, MM(15), "15 mm"},
		{metric, MM(15.875), "16 mm"},
		{metric, MM(15.85), "16 mm"},
		{metric, MM(-15.85), "−16 mm"},
		{metric, MM(-0.04), "0 mm"},
		{metric, MM(2.5), "2.5 mm"},
		{metric, MM(2.54), "3 mm"},
		{metric, MM(9.9), "9.9 mm"},
		{metric, MM(9.96), "10 mm"},
		{metric, MM(0.4321), "0 mm"},
		{metric, MM(203.94), "204 mm"},
		{Style{Unit: UnitCM}, MM(203.94), "20.4 cm"},
		{Style{Unit: UnitCM}, MM(2.5), "0.25 cm"},
		{metric, MM(1250), "1250 mm"},
		{metric, MM(12500), "12\u202f500 mm"},
		{metric, MM(9999.96), "10\u202f000 mm"},
		{metric, math.MinInt64, "−9\u202f223\u202f372\u202f036\u202f855 mm"},
		{Style{Unit: UnitCM}, MM(15.85), "1.6 cm"},
		{Style{Unit: UnitM}, MM(1250), "1.25 m"},
		{Style{Language: "de"}, MM(15.85), "16 mm"},
		{Style{Language: "de-CH"}, MM(15.85), "16 mm"},
		{Style{Language: "??"}, MM(15.85), "16 mm"},
		{Style{Language: "ar-EG"}, MM(15.85), "16 mm"},
		{imperial, 24*Inch + 5*Inch/8, "24 5/8 in"},
		{imperial, MM(15), "9/16 in"},
		{both, MM(15.875), "16 mm (5/8 in)"},
	}
	for _, row := range rows {
		if got := row.style.Length(row.l); got != row.want {
			t.Errorf("%+v %v: got %q, want %q", row.style, row.l, got, row.want)
		}
	}
}

func TestPrecisePrints(t *testing.T) {
	l := MM(148.54461)
	for style, want := range map[Style]string{
		{}: "148.545 mm", {Unit: UnitCM}: "14.8545 cm", {System: Imperial}: "5.848 in",
		{System: Both}: "148.545 mm (5.848 in)", {Language: "fr"}: "148,545 mm",
	} {
		if got := style.Precise(l); got != want {
			t.Errorf("%+v: got %q, want %q", style, got, want)
		}
	}
}

func TestClothPrints(t *testing.T) {
	metric, imperial := Style{}, Style{System: Imperial}
	rows := []struct {
		style Style
		l     Length
		want  string
	}{
		{metric, MM(2500), "2.5 m"},
		{metric, MM(2344), "2.34 m"},
		{metric, MM(2345), "2.35 m"},
		{imperial, 19 * Yard / 8, "2 3/8 yd"},
		{imperial, 2 * Yard, "2 yd"},
		{imperial, 2*Yard + 10*Inch, "2 yd 10 in"},
		{imperial, 10 * Inch, "10 in"},
		{imperial, -2*Yard - 10*Inch, "−2 yd 10 in"},
		{imperial, 2*Yard - 1, "2 yd"},
	}
	for _, row := range rows {
		if got := row.style.Cloth(row.l); got != row.want {
			t.Errorf("%+v %v: got %q, want %q", row.style, row.l, got, row.want)
		}
	}
}

func TestQuantityPrints(t *testing.T) {
	rows := []struct {
		q                      Quantity
		metric, imperial, both string
	}{
		{Quantity{15.875, UnitMM}, "16 mm", "5/8 in", "16 mm (5/8 in)"},
		{Quantity{2.5, UnitYd}, "2.29 m", "2 1/2 yd", "2.29 m (2 1/2 yd)"},
		{Quantity{20500, UnitMM2}, "20\u202f500 mm²", "31.8 in²", "20\u202f500 mm² (31.8 in²)"},
		{Quantity{2.6684, UnitM2}, "2.668 m²", "3.191 yd²", "2.668 m² (3.191 yd²)"},
		{Quantity{630, UnitG}, "630 g", "22.2 oz", "630 g (22.2 oz)"},
		{Quantity{180, UnitGPerM2}, "180 g/m²", "5.3 oz/yd²", "180 g/m² (5.3 oz/yd²)"},
		{Quantity{16, UnitMomme}, "16 momme", "16 momme", "16 momme"},
		{Quantity{4, UnitPercent}, "4 %", "4 %", "4 %"},
		{Quantity{1.5, UnitRatio}, "1.5 ×", "1.5 ×", "1.5 ×"},
		{Quantity{12, UnitCount}, "12", "12", "12"},
		{Quantity{57.296, UnitDegree}, "57°", "57°", "57°"},
		{Quantity{80, UnitMin}, "1 h 20 min", "1 h 20 min", "1 h 20 min"},
		{Quantity{7.5, UnitMin}, "7.5 min", "7.5 min", "7.5 min"},
		{Quantity{0.5, UnitHour}, "30 min", "30 min", "30 min"},
		{Quantity{2, UnitDay}, "2 d", "2 d", "2 d"},
		{Quantity{3.2, UnitMinPerM}, "3.2 min/m", "2.9 min/yd", "3.2 min/m (2.9 min/yd)"},
		{Quantity{math.NaN(), UnitMM}, "not known", "not known", "not known"},
		{Quantity{math.Inf(1), UnitPercent}, "not known", "not known", "not known"},
		{Quantity{5, NoUnit}, "5", "5", "5"},
	}
	for _, row := range rows {
		for style, want := range map[Style]string{
			{}: row.metric, {System: Imperial}: row.imperial, {System: Both}: row.both,
		} {
			if got := style.Quantity(row.q); got != want {
				t.Errorf("%v in %+v: got %q, want %q", row.q, style, got, want)
			}
		}
	}
	if got := (Style{Unit: UnitCM}).Quantity(Quantity{15, UnitMM}); got != "1.5 cm" {
		t.Errorf("15 mm in a workroom of centimetres: got %q", got)
	}
	if got := (Quantity{1.0 / 3, UnitM}).String(); got != "0.333 m" {
		t.Errorf("a third of a metre: got %q", got)
	}
}

func TestNumberPrints(t *testing.T) {
	rows := []struct {
		x        float64
		decimals int
		want     string
	}{
		{1.15, 1, "1.2"},
		{-1.15, 1, "−1.2"},
		{2.5, 0, "3"},
		{0.5, 0, "1"},
		{0.49999, 0, "0"},
		{1.1499999999999999, 1, "1.2"},
		{0.1 + 0.2, 15, "0.3"},
		{9.99, 1, "10"},
		{99.96, 1, "100"},
		{0.05, 1, "0.1"},
		{0.04, 1, "0"},
		{-0.04, 1, "0"},
		{1e-300, 3, "0"},
		{0, 2, "0"},
		{12345.678, 2, "12\u202f345.68"},
		{1e20, 1, "100\u202f000\u202f000\u202f000\u202f000\u202f000\u202f000"},
		{9999, 0, "9999"},
		{10000, 0, "10\u202f000"},
		{0.0005, 3, "0.001"},
		{5, -1, "5"},
		{1.25, 99, "1.25"},
	}
	for _, row := range rows {
		if got := (Style{}).Number(row.x, row.decimals); got != row.want {
			t.Errorf("%v to %d decimals: got %q, want %q", row.x, row.decimals, got, row.want)
		}
	}
}

// TestScaledAgreesWithRationals compares with big.Rat, which also rounds half
// away from zero.
func TestScaledAgreesWithRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64().Draw(t, "n")
		scale := rapid.IntRange(0, 9).Draw(t, "scale")
		decimals := rapid.IntRange(0, 9).Draw(t, "decimals")
		exact := big.NewRat(n, int64(pow10[scale]))
		want := exact.FloatString(decimals)
		if strings.Contains(want, ".") {
			want = strings.TrimRight(strings.TrimRight(want, "0"), ".")
		}
		if strings.Trim(want, "-0.") == "" {
			want = "0"
		}
		got := string(appendScaled(nil, n, scale, decimals, "."))
		got = strings.NewReplacer(groupGap, "", minusSign, "-").Replace(got)
		if got != want {
			t.Fatalf("%d ÷ 10^%d to %d decimals: got %s, want %s", n, scale, decimals, got, want)
		}
	})
}

// TestPrintsReadBack reads every print of a length back to within half of the
// last place shown.
func TestPrintsReadBack(t *testing.T) {
	styles := []struct {
		name string
		show func(Length) string
		off  Length
	}{
		{"mm", Style{}.Length, Millimetre / 2},
		{"cm", Style{Unit: UnitCM}.Length, Millimetre / 2},
		{"m", Style{Unit: UnitM}.Length, Millimetre / 2},
		{"precise mm", Style{}.Precise, 500},
		{"precise in", Style{System: Imperial}.Precise, Inch/2000 + 1},
		{"cloth m", Style{}.Cloth, 5 * Millimetre},
		{"cloth yd", Style{System: Imperial}.Cloth, Inch / 2},
		{"string", Length.String, 0},
	}
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-9e13, 9e13).Draw(t, "nm"))
		for _, s := range styles {
			text := s.show(l)
			got, err := ParseSigned(text, NoUnit)
			if err != nil || (got-l).Abs() > s.off {
				t.Fatalf("%s: %d nm printed %q, read %d nm, %v", s.name, l, text, got, err)
			}
		}
	})
}

// TestPreciseInInches: to the last digit, in the units of an inch room; what has
// no unit stays as it is.
func TestPreciseInInches(t *testing.T) {
	s := Style{System: Imperial}
	for want, q := range map[string]Quantity{
		"5/8 in": {15.875, UnitMM}, "2 1/4 in": {57.15, UnitMM}, "0.394 in": {10, UnitMM}, "1 oz": {28.349523125, UnitG}, "3": {3, UnitCount}, "0": {},
	} {
		if got := s.PreciseQuantity(q); got != want {
			t.Errorf("%v: %q, want %q", q, got, want)
		}
	}
}

// TestTwo: what Quantity prints with the other system in brackets, one by one.
func TestTwo(t *testing.T) {
	for _, c := range []struct {
		style      Style
		q          Quantity
		one, other string
	}{
		{Style{}, Quantity{25.4, UnitMM}, "25 mm", ""},
		{Style{System: Imperial}, Quantity{25.4, UnitMM}, "1 in", ""},
		{Style{System: Both}, Quantity{25.4, UnitMM}, "25 mm", "1 in"},
		{Style{System: Both, Unit: UnitCM}, Quantity{50.8, UnitMM}, "5.1 cm", "2 in"},
		{Style{System: Both}, Quantity{3, UnitCount}, "3", ""},
		{Style{System: Both}, Quantity{math.NaN(), UnitMM}, "not known", ""},
	} {
		one, other := c.style.Two(c.q)
		if one != c.one || other != c.other {
			t.Errorf("%v in %v: %q and %q, want %q and %q", c.q, c.style, one, other, c.one, c.other)
		}
		if joined := c.style.Quantity(c.q); other != "" && joined != one+" ("+other+")" || other == "" && joined != one {
			t.Errorf("%v: %q is not %q with %q", c.q, joined, one, other)
		}
	}
}

// What is less than half a sixteenth of an inch (0.79 mm) is not told as no inch beside the
// millimetre that it is.
func TestNoInchBesideAMillimetre(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		want string
	}{{0.62, "1 mm"}, {0.93, "1 mm (1/16 in)"}, {-0.62, "−1 mm"}, {0.6, "0.6 mm"}, {0, "0 mm (0 in)"}} {
		q := Quantity{Number: c.mm, Unit: UnitMM}
		one, other := Style{System: Both}.Two(q)
		if other != "" {
			one += " (" + other + ")"
		}
		if got := (Style{System: Both}).Quantity(q); got != c.want || one != c.want {
			t.Errorf("%v mm is told as %q and %q, want %q", c.mm, got, one, c.want)
		}
	}
}
