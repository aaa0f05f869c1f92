package measure

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// A Price is money for one unit of something: 18.50 EUR by the metre, or by
// the piece (UnitCount).
type Price struct {
	Money
	Per Unit `json:"per"`
}

// ParsePrice reads a price such as "18.50 EUR/m" or "6 GBP per yd"; money
// alone is for one of the bare unit.
func ParsePrice(text, defaultCurrency string, bare Unit) (Price, error) {
	at, width := strings.LastIndexByte(text, '/'), len("/")
	if at < 0 {
		at, width = strings.Index(text, " per "), len(" per ")
	}
	if at < 0 {
		m, err := ParseMoney(text, defaultCurrency)
		return Price{m, bare}, err
	}
	m, err := ParseMoney(text[:at], defaultCurrency)
	if err != nil {
		return Price{}, within(err, text, 0)
	}
	word := strings.TrimSpace(text[at+width:])
	if word == "piece" || word == "each" {
		return Price{m, UnitCount}, nil
	}
	u, ok := ParseUnit(word)
	if !ok || u.Dimension() != bare.Dimension() && bare != NoUnit {
		hint := "write it like 18.50 EUR/m"
		if bare.Symbol() != "" {
			hint = writeIn(bare.Dimension())
		}
		return Price{}, fault(text, at+width, len(text), quote(word)+" is no unit of this price", hint)
	}
	return Price{m, u}, nil
}

// ForLength returns what a length costs, exact to 12 decimals and not yet
// rounded to the currency. A price that is not by length is an error.
func (p Price) ForLength(l Length) (Money, error) {
	f := p.Per.fact()
	if f.dim != LengthDim {
		return Money{}, fmt.Errorf("a price by %s cannot be had for a length", p.Per)
	}
	nm := decimal.NewFromInt(int64(l))
	per := decimal.NewFromInt(f.num * int64(Millimetre) / f.den)
	return Money{p.Amount.Mul(nm).DivRound(per, 12), p.Currency}, nil
}

// Price prints p like "18.50 EUR/m".
func (s Style) Price(p Price) string {
	if p.Per.Symbol() == "" {
		return s.Money(p.Money)
	}
	return s.Money(p.Money) + "/" + p.Per.Symbol()
}
