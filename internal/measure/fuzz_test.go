package measure

import (
	"math/big"
	"strings"
	"testing"
)

// slips are texts that have been, or could be, trouble.
var slips = []string{
	"15", "1.5 cm", "5/8 in", `5/8"`, "1 1/4 yd", "1-1/4 yd", "3 ft 2 in", "1½ in", "1,5 cm", "-6", "−6 mm",
	"5/8 inhc", "15 kg", "1/0 in", "99999999999999999999", "NaN", ".inf", "", "١٥", "𝟙", "1e999999999",
	"1\u202f250 mm", "12\u202f500\u2009000", "5 \x80\xff", "5' 4", "1 h 20 min", "1:20", "24 h", "2 d", "90", ":",
	"180 g/m²", "5 oz per sq yd", "19 mm", "5 m^2", "5 m2", "4 %", "45°", "3:2", "1 1/2 : 1", "18.50 EUR", "€18.50",
	"$5", "EUR", "18.50 EUR/m", "6 GBP per yd", "0.000000000000000000001", "1..2", "10 – 12", "½½", "1 ⅓ / 2",
	"1/18446744073709551616", "999999999999999999 999999/999999", "per cent", "a/", "/2", "5 /2", "5 per", "\x00",
}

func seed(f *testing.F) {
	for _, text := range slips {
		f.Add(text)
	}
}

// FuzzParseLength asserts that nothing panics, that a refusal lies inside the
// text, and that what is read prints as text that reads the same.
func FuzzParseLength(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseSigned(text, UnitMM)
		unsigned, errUnsigned := ParseLength(text, UnitMM)
		if err != nil {
			checkError(t, text, err)
			if errUnsigned == nil {
				t.Fatalf("%q: refused only with a sign allowed", text)
			}
			return
		}
		if l.Abs() > longestParsed {
			t.Fatalf("%q: got %v", text, l)
		}
		if errUnsigned != nil {
			checkError(t, text, errUnsigned)
		} else if unsigned != l {
			t.Fatalf("%q: got %v, and %v with a sign allowed", text, unsigned, l)
		}
		again, err := ParseSigned(l.String(), NoUnit)
		if err != nil || again != l {
			t.Fatalf("%q: %v printed %q, read %v, %v", text, l, l.String(), again, err)
		}
	})
}

// FuzzNumber compares numbers with the rationals' own reading of them.
func FuzzNumber(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		if strings.Trim(text, "0123456789./") != "" {
			return
		}
		s := scanner{text: text, want: LengthDim}
		n, err := s.number()
		if err != nil || !s.done() {
			return
		}
		want := slowNumber(t, text)
		if n.rat().Cmp(want) != 0 {
			t.Fatalf("%q: got %v, want %v", text, n.rat(), want)
		}
	})
}

// slowNumber reads a decimal number or a fraction. It takes both sides of a
// slash by themselves, since big.Rat reads the 010 of 010/1 as octal.
func slowNumber(t *testing.T, text string) *big.Rat {
	above, below, isFraction := strings.Cut(text, "/")
	if !isFraction {
		below = "1"
	}
	if !strings.Contains(above, ".") {
		above += ".0"
	}
	top, okTop := new(big.Rat).SetString(above)
	bottom, okBottom := new(big.Rat).SetString(below + ".0")
	if !okTop || !okBottom {
		t.Fatalf("%q was read, and is no number", text)
	}
	return top.Quo(top, bottom)
}

func fuzzQuantity(f *testing.F, dim Dimension, read func(string) (Quantity, error)) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		q, err := read(text)
		if err != nil {
			checkError(t, text, err)
			return
		}
		if q.dimension() != dim || !finite(q.Number) || q.Unit != baseUnit(dim) {
			t.Fatalf("%q: got %v", text, q)
		}
		for _, s := range []Style{{}, {System: Imperial}, {System: Both, Language: "de"}} {
			if s.Quantity(q) == "" || s.PreciseQuantity(q) == "" {
				t.Fatalf("%q: %v prints as nothing", text, q.Number)
			}
		}
	})
}

func FuzzParseAreal(f *testing.F)   { fuzzQuantity(f, ArealMassDim, ParseAreal) }
func FuzzParseMass(f *testing.F)    { fuzzQuantity(f, MassDim, ParseMass) }
func FuzzParsePercent(f *testing.F) { fuzzQuantity(f, PercentDim, ParsePercent) }
func FuzzParseAngle(f *testing.F)   { fuzzQuantity(f, AngleDim, parseAngle) }
func FuzzParseRatio(f *testing.F)   { fuzzQuantity(f, RatioDim, ParseRatio) }

func FuzzParseDuration(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseDuration(text)
		if err != nil {
			checkError(t, text, err)
			return
		}
		// a clock holds four figures of hours, which is less
		if d < 0 || d > longestDuration {
			t.Fatalf("%q: got %v", text, d)
		}
		if _, err := ParseDuration(Style{}.Duration(d)); err != nil {
			t.Fatalf("%q: %q cannot be read back: %v", text, Style{}.Duration(d), err)
		}
	})
}

func FuzzParseMoney(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseMoney(text, "EUR")
		if err != nil {
			checkError(t, text, err)
			return
		}
		if m.Amount.IsNegative() || !knownCurrency(m.Currency) {
			t.Fatalf("%q: got %v %q", text, m.Amount, m.Currency)
		}
		rounded := m.Round() // of 16 figures and more, cents may not fit any more
		again, err := ParseMoney(rounded.String(), "")
		if err != nil && len(m.Amount.String()) < 16 || err == nil && !again.Amount.Equal(rounded.Amount) {
			t.Fatalf("%q: printed %q, read %v, %v", text, rounded, again, err)
		}
	})
}

func FuzzParseUnit(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		if u, ok := ParseUnit(text); ok != (u != NoUnit) {
			t.Fatalf("%q: got %v, %v", text, u, ok)
		}
	})
}
