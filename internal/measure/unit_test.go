package measure

import (
	"encoding/json"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// TestFactors asserts the published factors to their last printed digit.
func TestFactors(t *testing.T) {
	const (
		sp811   = "NIST SP 811 appendix B, from memory"
		derived = "derived from the row's exact factors"
	)
	rows := []struct {
		from   Quantity
		to     Unit
		want   float64
		digits float64 // half a unit of the last printed digit; 0 for exact
		source string
	}{
		{Quantity{1, UnitIn}, UnitMM, 25.4, 0, sp811},
		{Quantity{1, UnitFt}, UnitMM, 304.8, 0, sp811},
		{Quantity{1, UnitYd}, UnitMM, 914.4, 0, sp811},
		{Quantity{1, UnitLb}, UnitG, 453.59237, 0, sp811},
		{Quantity{1, UnitOz}, UnitG, 28.349523125, 0, sp811},
		{Quantity{16, UnitOz}, UnitLb, 1, 0, "sixteen ounces to the pound; " + sp811},
		{Quantity{1, UnitOzPerYd2}, UnitGPerM2, 33.90575, 5e-6, sp811 + "; 28.349523125 / 0.83612736"},
		{Quantity{1, UnitGPerM2}, UnitOzPerYd2, 0.0294935, 5e-8, derived},
		{Quantity{1, UnitMomme}, UnitGPerM2, 4.340, 5e-4, "1 lb by 100 yd of 45 in, definition from memory"},
		{Quantity{2.6, UnitOzPerYd2}, UnitGPerM2, 88.15, 5e-3, derived + "; 16 CFR 1610.1(d) prints 88.2"},
		{Quantity{4, UnitOzPerYd2}, UnitGPerM2, 135.62, 5e-3, derived},
		{Quantity{5, UnitOzPerYd2}, UnitGPerM2, 169.53, 5e-3, derived},
		{Quantity{6, UnitOzPerYd2}, UnitGPerM2, 203.43, 5e-3, derived},
		{Quantity{8, UnitOzPerYd2}, UnitGPerM2, 271.25, 5e-3, derived},
		{Quantity{10, UnitOzPerYd2}, UnitGPerM2, 339.06, 5e-3, derived},
		{Quantity{100, UnitGPerM2}, UnitOzPerYd2, 2.949, 5e-4, derived},
		{Quantity{150, UnitGPerM2}, UnitOzPerYd2, 4.424, 5e-4, derived},
		{Quantity{200, UnitGPerM2}, UnitOzPerYd2, 5.899, 5e-4, derived},
		{Quantity{300, UnitGPerM2}, UnitOzPerYd2, 8.848, 5e-4, derived},
		{Quantity{1, UnitIn2}, UnitMM2, 645.16, 0, "25.4²"},
		{Quantity{1, UnitYd2}, UnitM2, 0.83612736, 0, "0.9144²"},
		{Quantity{1, UnitYd2}, UnitIn2, 1296, 0, "36²"},
		{Quantity{0.9144, UnitMinPerYd}, UnitMinPerM, 1, 1e-15, "the yard"},
		{Quantity{10, UnitPerCM}, UnitPerInch, 25.4, 0, "the inch"},
		{Quantity{1, UnitWeek}, UnitHour, 168, 0, "7 × 24"},
		{Quantity{90, UnitSecond}, UnitMin, 1.5, 0, "sixty seconds to the minute"},
		{Quantity{1500, UnitG}, UnitKG, 1.5, 0, "SI"},
		{Quantity{2, UnitM}, UnitCM, 200, 0, "SI"},
	}
	for _, row := range rows {
		got := row.from.In(row.to)
		if got.Unit != row.to || math.Abs(got.Number-row.want) > row.digits {
			t.Errorf("%v: got %.12g %v, want %.12g (%s)", row.from, got.Number, got.Unit, row.want, row.source)
		}
	}
}

// The eighths of an inch, derived from 25.4 mm (NIST SP 811 appendix B, from
// memory).
func TestEighthsOfAnInch(t *testing.T) {
	for text, want := range map[string]string{
		"1/8 in": "3.175 mm", "1/4 in": "6.35 mm", "3/8 in": "9.525 mm", "1/2 in": "12.7 mm",
		"5/8 in": "15.875 mm", "3/4 in": "19.05 mm", "7/8 in": "22.225 mm", "1/64 in": "0.396875 mm",
	} {
		got, err := ParseLength(text, NoUnit)
		if err != nil || got.String() != want {
			t.Errorf("%s: got %v, %v, want %s", text, got, err, want)
		}
	}
}

func TestUnitTableIsWhole(t *testing.T) {
	seen := map[string]Unit{}
	measured := map[Dimension]bool{}
	for _, u := range AllUnits() {
		f := u.fact()
		if f.dim == NoDim || f.num <= 0 || f.den <= 0 {
			t.Errorf("unit %d has no dimension or factor", u)
		}
		if a, b := lowest(f.num, f.den); a != f.num || b != f.den {
			t.Errorf("%v: %d/%d is not in lowest terms", u, f.num, f.den)
		}
		if f.system != Both {
			if o := f.other.fact(); o.dim != f.dim || o.system == f.system || o.system == Both {
				t.Errorf("%v: %v is no neighbour in the other system", u, f.other)
			}
		}
		for _, name := range append([]string{u.Symbol()}, f.names...) {
			if v, twice := seen[name]; twice {
				t.Errorf("%q names both %v and %v", name, u, v)
			}
			seen[name] = u
			if name == "" {
				continue
			}
			if got, ok := ParseUnit(name); !ok || got != u {
				t.Errorf("%q reads as %v, want %v", name, got, u)
			}
		}
		measured[f.dim] = true
	}
	for d := NoDim + 1; d < lastDim; d++ {
		if measured[d] != (d != MoneyDim) || d.String() == "" {
			t.Errorf("%v: wrong set of units", d)
		}
		if base := baseUnit(d); d != MoneyDim && base.Dimension() != d {
			t.Errorf("%v has no base unit", d)
		}
	}
}

func TestUnitSpellings(t *testing.T) {
	for text, want := range map[string]Unit{
		"CM": UnitCM, "In.": UnitIn, "oz/yd2": UnitOzPerYd2, "oz / yd^2": UnitOzPerYd2,
		"oz per sq yd": UnitOzPerYd2, "g per m²": UnitGPerM2, "per cent": UnitPercent,
		"min per metre": NoUnit, "min per m": UnitMinPerM, "stitches per inch": UnitPerInch,
		"furlong": NoUnit, " ": NoUnit,
	} {
		if got, ok := ParseUnit(text); got != want || ok != (want != NoUnit) {
			t.Errorf("%q: got %v, want %v", text, got, want)
		}
	}
}

func TestConvertRefusesOtherDimensions(t *testing.T) {
	for _, to := range []Unit{UnitG, UnitCount, NoUnit, Unit(200)} {
		if got, err := (Quantity{1, UnitMM}).convert(to); err == nil {
			t.Errorf("1 mm in %v: got %v, want an error", to, got)
		}
	}
	if _, err := (Quantity{1, NoUnit}).convert(NoUnit); err == nil {
		t.Error("no unit in no unit: want an error")
	}
}

// TestConvertAgreesWithRationals compares with the slow, obvious way.
func TestConvertAgreesWithRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.SampledFrom(AllUnits()).Draw(t, "from")
		to := rapid.SampledFrom(AllUnits()).Filter(func(u Unit) bool {
			return u.Dimension() == from.Dimension()
		}).Draw(t, "to")
		x := rapid.Float64Range(-1e9, 1e9).Draw(t, "x")
		a, b := from.Factor()
		c, d := to.Factor()
		exact := new(big.Rat).SetFloat64(x)
		exact.Mul(exact, big.NewRat(a, b)).Quo(exact, big.NewRat(c, d))
		want, _ := exact.Float64()
		got := Quantity{x, from}.In(to).Number
		if math.Abs(got-want) > 4e-16*math.Abs(want) {
			t.Fatalf("%v in %v: got %v, want %v", Quantity{x, from}, to, got, want)
		}
	})
}

func TestUnitAsJSON(t *testing.T) {
	for _, u := range append(AllUnits(), NoUnit) {
		want := Quantity{1.5, u}
		text, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		var got Quantity
		if err := json.Unmarshal(text, &got); err != nil || got != want {
			t.Errorf("%s: got %v, %v", text, got, err)
		}
	}
	if err := new(Unit).UnmarshalText([]byte("furlong")); err == nil {
		t.Error("furlong: want an error")
	}
}
