package measure

import (
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// currencySigns are signs that name one currency. A dollar, peso, crown or
// yen sign names many: there the code is asked for.
var currencySigns = map[string]string{"€": "EUR", "£": "GBP", "₹": "INR", "₺": "TRY", "₪": "ILS", "₴": "UAH", "₩": "KRW", "₫": "VND"}

// ParseMoney reads an amount such as "18.50 EUR", "EUR 18.50" or "€18.50"; an
// amount alone is in the default currency, and refused where that is empty.
// The amount is kept as it is written.
func ParseMoney(text, defaultCurrency string) (Money, error) {
	s := scanner{text: text, want: MoneyDim}
	s.skipSpace()
	if s.done() {
		return Money{}, fault(text, 0, len(text), "no money given", "")
	}
	before, from := s.currencyWord(), s.at
	s.skipSpace()
	if before != "" && s.done() {
		return Money{}, fault(text, s.at, s.at, "no amount beside "+quote(before), "write it like 18.50 EUR")
	}
	n, err := s.number()
	if err != nil {
		return Money{}, err
	}
	if strings.ContainsAny(text[n.from:n.to], "/\u2044\u2215¼½¾⅓⅔") || pow10Of(n.den) < 0 {
		return Money{}, fault(text, n.from, n.to, "money has no fractions", "write a decimal number")
	}
	s.skipSpace()
	at := s.at
	after := strings.TrimSpace(text[at:])
	code, err := s.currency(before, after, from-len(before), at, defaultCurrency)
	if err != nil {
		return Money{}, err
	}
	amount := decimal.NewFromBigInt(new(big.Int).SetUint64(n.num), -int32(pow10Of(n.den)))
	return Money{amount, code}, nil
}

// currencyWord reads what stands before the figures.
func (s *scanner) currencyWord() string {
	from := s.at
	for !s.done() && s.gap() == 0 && !isDigit(s.peek()) && s.peek() != '.' && s.peek() != '-' {
		s.at++
	}
	return s.text[from:s.at]
}

// currency finds the currency of an amount with words before or after it.
func (s *scanner) currency(before, after string, beforeAt, afterAt int, fallback string) (string, error) {
	word, at := before, beforeAt
	switch {
	case before != "" && after != "":
		return "", fault(s.text, afterAt, afterAt+len(after), "two currencies beside one amount", "leave one out")
	case before == "" && after == "" && fallback == "":
		return "", fault(s.text, 0, len(s.text), "the amount has no currency", "write it like 18.50 EUR")
	case before == "" && after == "":
		return fallback, nil
	case before == "":
		word, at = after, afterAt
	}
	if code, ok := currencySigns[word]; ok {
		return code, nil
	}
	if code := strings.ToUpper(word); KnownCurrency(code) {
		return code, nil
	}
	return "", fault(s.text, at, at+len(word), "unknown currency "+quote(word),
		"write its code of three letters, such as EUR, GBP or USD")
}

// pow10Of returns the power of ten that n is, or -1.
func pow10Of(n uint64) int {
	for i, p := range pow10 {
		if p == n {
			return i
		}
	}
	return -1
}
