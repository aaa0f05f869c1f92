package measure

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestParseMoney(t *testing.T) {
	rows := []struct{ text, fallback, amount, code string }{
		{"18.50 EUR", "", "18.5", "EUR"},
		{"EUR 18.50", "GBP", "18.5", "EUR"},
		{"18.50eur", "", "18.5", "EUR"},
		{"€18.50", "", "18.5", "EUR"},
		{"18.50 €", "", "18.5", "EUR"},
		{"£6", "", "6", "GBP"},
		{"18.50", "CHF", "18.5", "CHF"},
		{"$5", "NZD", "5", "NZD"},
		{"250 kr", "SEK", "250", "SEK"},
		{"0.005 EUR", "", "0.005", "EUR"},
		{"12\u202f500 JPY", "", "12500", "JPY"},
		{"0 EUR", "", "0", "EUR"},
		{"1.10 SLE", "", "1.1", "SLE"},
	}
	for _, row := range rows {
		got, err := ParseMoney(row.text, row.fallback)
		if err != nil || got.Amount.String() != row.amount || got.Currency != row.code {
			t.Errorf("%q: got %v %v, %v, want %s %s", row.text, got.Amount, got.Currency, err, row.amount, row.code)
		}
	}
}

func TestRefusalsOfMoney(t *testing.T) {
	rows := []struct {
		text          string
		offset        int
		message, hint string
	}{
		{"", 0, "no money given", ""},
		{"18.50", 0, "the amount has no currency", "write it like 18.50 EUR"},
		{"18,50 EUR", 0, "a comma inside a number", "write 18.50 EUR"},
		{"$5", 0, `"$" stands for several currencies`, "write the code of three letters, such as USD or AUD"},
		{"5 EURO", 2, `unknown currency "EURO"`, "did you mean EUR?"},
		{"5 shells", 2, `unknown currency "shells"`, "write the code of three letters, such as EUR, GBP or USD"},
		{"-5 EUR", 0, "money here cannot be negative", "leave out the minus"},
		{"1/2 EUR", 0, "money has no fractions", "write a decimal number"},
		{"½ EUR", 0, "money has no fractions", "write a decimal number"},
		{"EUR", 3, `no amount beside "EUR"`, "write it like 18.50 EUR"},
		{"EUR 5 EUR", 6, "two currencies beside one amount", "leave one out"},
	}
	for _, row := range rows {
		_, err := ParseMoney(row.text, "")
		checkRefusal(t, row.text, err, row.offset, row.message, row.hint)
	}
}

func money(amount, code string) Money { return Money{decimal.RequireFromString(amount), code} }

func TestMoneyRounds(t *testing.T) {
	for _, row := range []struct {
		m    Money
		want string
	}{
		{money("18.505", "EUR"), "18.51 EUR"},
		{money("-18.505", "EUR"), "−18.51 EUR"},
		{money("18.5", "JPY"), "19 JPY"},
		{money("18.5005", "BHD"), "18.501 BHD"},
		{money("12500", "EUR"), "12\u202f500.00 EUR"},
		{money("0.004", "EUR"), "0.00 EUR"},
		{money("-0.004", "EUR"), "0.00 EUR"},
		{money("5", ""), "5.00"},
	} {
		if got := row.m.String(); got != row.want {
			t.Errorf("%v %s: got %q, want %q", row.m.Amount, row.m.Currency, got, row.want)
		}
	}
	if got := (Style{Language: "de"}).Money(money("18.5", "EUR")); got != "18,50 EUR" {
		t.Errorf("in German: got %q", got)
	}
}

func TestMoneySums(t *testing.T) {
	sum, err := money("0.1", "EUR").Add(money("0.2", "EUR"))
	if err != nil || !sum.Amount.Equal(decimal.RequireFromString("0.3")) {
		t.Errorf("0.1 + 0.2: got %v, %v", sum.Amount, err)
	}
	if _, err := sum.Add(money("1", "GBP")); err == nil {
		t.Error("EUR + GBP: want an error")
	}
}

func TestAmountsThatAreNoPlainNumbers(t *testing.T) {
	for _, row := range []struct {
		text          string
		offset        int
		message, hint string
	}{
		{"NaN", 0, `"NaN" is not a plain number`, "write it in figures, as 12.5"},
		{"Inf EUR", 0, `"Inf" is not a plain number`, "write it in figures, as 12.5"},
		{".inf", 0, `".inf" is not a plain number`, "write it in figures, as 12.5"},
		{"1e308 EUR", 0, `"1e308" is not a plain number`, "write it in figures, as 12.5"},
		{"EUR 1_000", 4, `"1_000" is not a plain number`, "write 1000"},
		{"0x10 EUR", 0, `"0x10" is not a plain number`, "write it in figures, as 12.5"},
		{"-0 EUR", 0, `"-0" is not a plain number`, "write 0 without the minus"},
		{"-5 EUR", 0, "money here cannot be negative", "leave out the minus"},
	} {
		_, err := ParseMoney(row.text, "EUR")
		checkRefusal(t, row.text, err, row.offset, row.message, row.hint)
	}
}

func TestMoneyReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.SampledFrom([]string{"EUR", "JPY", "BHD", "CLF"}).Draw(t, "code")
		minor := rapid.Int64Range(0, 1e15).Draw(t, "minor")
		want := Money{decimal.New(minor, -MinorUnits(code)), code}
		got, err := ParseMoney(want.String(), "")
		if err != nil || !got.Amount.Equal(want.Amount) || got.Currency != code {
			t.Fatalf("%s: got %v, %v", want, got, err)
		}
	})
}
