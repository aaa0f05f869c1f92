package measure

import (
	"testing"

	"golang.org/x/text/currency"
	"golang.org/x/text/unicode/norm"
)

// TestFractionCharacters reads every character that the Unicode Character
// Database decomposes into a fraction, alone and as its decomposition.
func TestFractionCharacters(t *testing.T) {
	count := 0
	for _, r := range append([]rune{'¼', '½', '¾'}, span('⅐', '⅞')...) {
		apart := norm.NFKD.String(string(r)) // such as 5⁄8
		one, err := ParseLength(string(r), UnitIn)
		two, errApart := ParseLength(apart, UnitIn)
		if err != nil || errApart != nil || one != two || one == 0 {
			t.Errorf("%c: got %v, %v; %s: got %v, %v", r, one, err, apart, two, errApart)
		}
		mixed, err := ParseLength("2"+string(r), UnitIn)
		if err != nil || mixed != 2*Inch+one {
			t.Errorf("2%c: got %v, %v", r, mixed, err)
		}
		count++
	}
	if count != 18 {
		t.Errorf("tried %d characters, want 18", count)
	}
}

func span(from, to rune) (all []rune) {
	for r := from; r <= to; r++ {
		all = append(all, r)
	}
	return all
}

// TestMinorUnits compares with the decimals that the Unicode Common Locale
// Data Repository gives (as golang.org/x/text/currency carries them). It
// shows no fils for the Iraqi dinar, whose minor unit ISO 4217 gives as three.
func TestMinorUnits(t *testing.T) {
	codes := []string{"EUR", "GBP", "USD", "CHF", "SEK", "CAD", "AUD", "NZD", "INR", "MXN", "PLN"}
	for code := range minorUnits {
		if code != "IQD" && code != "UYW" { // the library does not know UYW
			codes = append(codes, code)
		}
	}
	for _, code := range codes {
		unit, err := currency.ParseISO(code)
		if err != nil {
			t.Errorf("%s: %v", code, err)
			continue
		}
		if want, _ := currency.Standard.Rounding(unit); int(MinorUnits(code)) != want {
			t.Errorf("%s: got %d decimals, want %d", code, MinorUnits(code), want)
		}
	}
}

func TestKnownCurrency(t *testing.T) {
	for code, want := range map[string]bool{"EUR": true, "XCG": true, "eur": false, "EURO": false, "": false, "QQQ": false} {
		if got := knownCurrency(code); got != want {
			t.Errorf("%q: got %v, want %v", code, got, want)
		}
	}
}
