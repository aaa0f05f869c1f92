package measure

import (
	"math/big"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// currencySigns are signs that name one currency.
var currencySigns = map[string]string{"€": "EUR", "£": "GBP", "₹": "INR", "₺": "TRY", "₪": "ILS", "₴": "UAH", "₩": "KRW", "₫": "VND"}

// sharedSigns are signs that several currencies share; they are read only
// where the default currency is one of them.
var sharedSigns = map[string][]string{
	"$":  {"USD", "AUD", "CAD", "HKD", "MXN", "NZD", "SGD", "TWD", "ARS", "BRL", "CLP", "COP"},
	"¥":  {"JPY", "CNY"},
	"kr": {"SEK", "NOK", "DKK", "ISK"},
}

// oftenMeant are the currencies that a slip of the pen is compared with.
var oftenMeant = []string{"EUR", "USD", "GBP", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "CAD", "AUD", "NZD", "JPY", "INR"}

// ParseMoney reads an amount such as "18.50 EUR", "EUR 18.50" or "€18.50"; an
// amount alone is in the default currency, and refused where that is empty.
// The amount is kept as it is written.
func ParseMoney(text, defaultCurrency string) (Money, error) {
	s := scanner{text: text, want: MoneyDim}
	s.skipSpace()
	if s.done() {
		return Money{}, wrongAt(text, 0, say.Of("measure.no-money-given"), "")
	}
	before, from := s.currencyWord(), s.at
	if word := strings.ToLower(before); word == "nan" || word == "inf" || word == "infinity" {
		s.at = from - len(before)
		return Money{}, s.notShown(s.at)
	}
	s.skipSpace()
	if before != "" && s.done() {
		return Money{}, wrongAt(text, s.at, say.Of("measure.no-amount-beside", quote(before)), say.Of("measure.write-it-like-18-50-eur"))
	}
	if from := s.at; s.dash() > 0 {
		s.at += s.dash()
		s.skipSpace()
		if n, err := s.number(); err == nil && n.num == 0 {
			return Money{}, s.minusNothing(from)
		}
		s.at = from
		return Money{}, wrongAt(text, from, say.Of("measure.money-here-cannot-be-negative"), say.Of("measure.leave-out-the-minus"))
	}
	n, err := s.number()
	if err != nil {
		return Money{}, err
	}
	if n.fraction {
		return Money{}, wrongAt(text, n.from, say.Of("measure.money-has-no-fractions"), say.Of("measure.write-a-decimal-number"))
	}
	s.skipSpace()
	at := s.at
	after := strings.TrimSpace(text[at:])
	code, err := s.currency(before, after, from-len(before), at, defaultCurrency)
	if err != nil {
		return Money{}, err
	}
	amount := decimal.NewFromBigInt(new(big.Int).SetUint64(n.num), -pow10Of(n.den))
	return Money{amount, code}, nil
}

// currencyWord reads what stands before the figures.
func (s *scanner) currencyWord() string {
	from := s.at
	for !s.done() && s.gap() == 0 && !isDigit(s.peek()) && s.peek() != '.' && s.dash() == 0 {
		if _, _, width := s.vulgar(); width > 0 {
			break
		}
		s.at++
	}
	return s.text[from:s.at]
}

// currency finds the currency of an amount with words before or after it.
func (s *scanner) currency(before, after string, beforeAt, afterAt int, fallback string) (string, error) {
	word, at := before, beforeAt
	switch {
	case before != "" && after != "":
		return "", wrongAt(s.text, afterAt, say.Of("measure.two-currencies-beside-one-amount"), say.Of("measure.leave-one-out"))
	case before == "" && after == "" && fallback == "":
		return "", wrongAt(s.text, 0, say.Of("measure.the-amount-has-no-currency"), say.Of("measure.write-it-like-18-50-eur"))
	case before == "" && after == "":
		return fallback, nil
	case before == "":
		word, at = after, afterAt
	}
	return s.currencyOf(word, at, fallback)
}

// currencyOf returns the code that a word or sign means.
func (s *scanner) currencyOf(word string, at int, fallback string) (string, error) {
	if code, ok := currencySigns[word]; ok {
		return code, nil
	}
	if code := strings.ToUpper(word); knownCurrency(code) {
		return code, nil
	}
	if codes, ok := sharedSigns[word]; ok {
		if slices.Contains(codes, fallback) {
			return fallback, nil
		}
		return "", wrongAt(s.text, at, say.Of("measure.stands-for-several-currencies", quote(word)),
			say.Of("measure.write-the-code-of-three-letters-such", codes[0], codes[1]))
	}
	hint, whole := say.Of("measure.write-the-code-of-three-letters-such-2"), ""
	if code := meant.Nearest(word, append([]string{fallback}, oftenMeant...)); code != "" {
		hint, whole = say.Of("measure.did-you-mean", code), s.text[:at]+code+s.text[at+len(word):]
	}
	return "", wrongAs(s.text, at, say.Of("measure.unknown-currency", quote(word)), hint, whole)
}

// pow10Of returns the power of ten that n is.
func pow10Of(n uint64) int32 {
	places := int32(0)
	for ; n >= 10; n /= 10 {
		places++
	}
	return places
}
