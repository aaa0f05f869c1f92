package measure

import (
	"errors"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"golang.org/x/text/currency"

	"hembook/internal/say"
)

// Money is an exact amount of a currency, named by its ISO 4217 code.
type Money struct {
	Amount   decimal.Decimal `json:"amount"`
	Currency string          `json:"currency"`
}

// minorUnits holds how many decimals a currency has where that is not two
// (ISO 4217, list one, from memory).
var minorUnits = map[string]int32{
	"BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0,
	"RWF": 0, "UGX": 0, "UYI": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
	"BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3, "CLF": 4, "UYW": 4,
}

// newerCurrencies are codes that the currency library does not know yet (ISO
// 4217 amendments, from memory).
var newerCurrencies = []string{"SLE", "VED", "XCG", "ZWG"}

// MinorUnits returns how many decimals amounts of a currency have, two if it
// is not known to differ.
func MinorUnits(code string) int32 {
	if n, ok := minorUnits[code]; ok {
		return n
	}
	return 2
}

// knownCurrency tells whether code is an ISO 4217 code in capitals.
func knownCurrency(code string) bool {
	if len(code) != 3 || strings.ToUpper(code) != code {
		return false
	}
	_, err := currency.ParseISO(code)
	return err == nil || slices.Contains(newerCurrencies, code)
}

// Add returns the sum of two amounts of one currency.
func (m Money) Add(n Money) (Money, error) {
	if m.Currency != n.Currency {
		return Money{}, errors.New(say.Of("measure.and-cannot-be-added-no-rate-of", m.Currency, n.Currency))
	}
	return Money{m.Amount.Add(n.Amount), m.Currency}, nil
}

// Round returns m to the minor unit of its currency, half away from zero.
func (m Money) Round() Money {
	return Money{m.Amount.Round(MinorUnits(m.Currency)), m.Currency}
}

// String prints m like the zero Style does.
func (m Money) String() string { return Style{}.Money(m) }

// Money prints m rounded to the minor unit of its currency, such as
// "18.50 EUR".
func (s Style) Money(m Money) string {
	places := MinorUnits(m.Currency)
	whole := m.Amount.Round(places).Shift(places).BigInt()
	d := scaledText(whole.String(), int(places))
	text := d.append(nil, int(places), false, s.mark())
	if m.Currency == "" {
		return string(text)
	}
	return string(text) + " " + m.Currency
}
