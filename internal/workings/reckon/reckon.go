// Package reckon reads a printed sum as a person would and works it out again.
//
// It is the judge of the workings that hembook prints, so it shares no code
// with what prints them: it imports nothing of the project, and only tests may
// import it. What it reads is text: numbers with their units, + − × ÷, powers,
// roots, brackets, π, min, max, sines, lengths along curves, roundings; and chains "a = b = c" of which every
// link must be equal.
package reckon

import (
	"fmt"
	"math"
	"strings"
)

// A Dim is the kind of a quantity: powers of millimetre, gram, minute, degree
// and of one currency.
type Dim struct {
	Length, Mass, Time, Angle, Money int
	Currency                         string
}

// None is the kind of plain numbers, ratios and percentages.
var None = Dim{}

func (d Dim) times(e Dim, sign int) (Dim, bool) {
	out := Dim{d.Length + sign*e.Length, d.Mass + sign*e.Mass, d.Time + sign*e.Time, d.Angle + sign*e.Angle, d.Money + sign*e.Money, d.Currency}
	if out.Currency == "" {
		out.Currency = e.Currency
	}
	ok := d.Currency == "" || e.Currency == "" || d.Currency == e.Currency
	if out.Money == 0 {
		out.Currency = ""
	}
	return out, ok
}

// An Amount is a number in its base unit (mm, g, min, °, one of a currency),
// with how far the printing of it and of what it was reckoned from may have
// moved it.
type Amount struct {
	Value  float64
	Dim    Dim
	Half   float64 // half a step of the last digit shown; 0 where it was not printed as one number
	Err    float64 // what the rounding of the numbers it was reckoned from explains
	Factor float64 // base units in one of the printed unit
	Unit   bool    // a unit was printed with it, or with one of its parts
	Plain  bool    // one number and nothing else
}

// A Kind names what is wrong with a sum.
type Kind string

// The kinds of finds.
const (
	Unreadable   Kind = "unreadable"    // neither a sum nor, as far as one can tell, arithmetic
	UnitsMissing Kind = "units missing" // a number stands without the unit that its result needs
	UnitsMixed   Kind = "units mixed"   // millimetres and grams are added, or come out as one another
	False        Kind = "false"         // the numbers do not give the result, however they were rounded
	LastDigit    Kind = "last digit"    // with the numbers as printed, the last digit shown comes out otherwise
	OtherValue   Kind = "other value"   // the sum ends in another number than the figure has
)

// A Find is one thing wrong with a sum.
type Find struct {
	Kind Kind
	Say  string
}

// A Sum is a printed sum, read.
type Sum struct {
	Text  string
	Links []Link
}

// A Link is one of the expressions of a chain.
type Link struct {
	Text string
	Rel  string // what stands before it: "=", "≤", "rounded up to"; empty for the first
	Amount
}

// Read reads a printed sum. The finds are what is wrong with its form: what
// cannot be read, and units that do not go together.
func Read(text string) (*Sum, []Find) {
	s := &Sum{Text: text}
	var finds []Find
	steps := decimalsByUnit(text)
	for _, part := range chain(text) {
		p := parser{toks: scan(part.Text), steps: steps}
		a, err := p.all()
		if e, ok := err.(unitsError); ok {
			return nil, append(finds, Find{e.kind, fmt.Sprintf("%q: %s", part.Text, e.say)})
		}
		if err != nil {
			return nil, append(finds, Find{Unreadable, fmt.Sprintf("%q: %s", strings.TrimSpace(part.Text), err)})
		}
		if p.lacks != "" {
			finds = append(finds, Find{UnitsMissing, fmt.Sprintf("%q: %s", part.Text, p.lacks)})
		}
		part.Amount = a
		s.Links = append(s.Links, part)
	}
	return s, finds
}

// Of is an amount given as a number and the symbol of its unit, such as 12 and
// "mm" or 3.5 and "EUR". It reports false for a unit that it does not know.
func Of(number float64, symbol string) (Amount, bool) {
	if symbol == "" || symbol == "×" {
		return Amount{Value: number, Factor: 1}, true
	}
	u, ok := unitOf(symbol)
	return Amount{Value: number * u.factor, Dim: u.dim, Factor: u.factor, Unit: true}, ok
}

// chain parts a sum at the signs that compare.
func chain(text string) []Link {
	var out []Link
	rel, rest := "", text
	for {
		at, sign := len(rest), ""
		for _, r := range []string{"=", "≤", "≥", "≈", ", rounded up to ", ", rounded down to "} {
			if k := strings.Index(rest, r); k >= 0 && k < at {
				at, sign = k, r
			}
		}
		out = append(out, Link{Text: rest[:at], Rel: strings.Trim(rel, ", ")})
		if sign == "" {
			return out
		}
		rel, rest = sign, rest[at+len(sign):]
	}
}

// Judge looks whether a sum holds and gives the figure's value.
func Judge(text string, value Amount) []Find {
	s, finds := Read(text)
	if s == nil {
		return finds
	}
	last := s.Links[len(s.Links)-1]
	result := last.Amount
	if !result.Plain {
		result.Half = result.Err
	}
	ends := result
	for i := len(s.Links) - 1; i > 0; i-- {
		if r := s.Links[i].Rel; r == "≤" || r == "≥" { // what is compared with stands behind the value
			ends = s.Links[i-1].Amount
		}
	}
	if f, bad := agrees(ends, value); bad {
		finds = append(finds, f)
	}
	for i := 1; i < len(s.Links); i++ {
		finds = append(finds, s.step(i, value)...)
	}
	return unique(finds)
}

// agrees compares the number a sum ends in with the figure's value.
func agrees(r, value Amount) (Find, bool) {
	if r.Dim != value.Dim {
		kind := UnitsMixed
		if !r.Unit {
			kind = UnitsMissing
		}
		return Find{kind, "the result is of another kind than the figure"}, true
	}
	half := r.Half
	if half == 0 {
		half = r.Err
	}
	if math.Abs(r.Value-value.Value) > half+tiny(value.Value) {
		return Find{OtherValue, fmt.Sprintf("ends in %g, the figure is %g", r.Value/r.factor(), value.Value/r.factor())}, true
	}
	return Find{}, false
}

// step compares link i with the one before it.
func (s *Sum) step(i int, value Amount) []Find {
	a, b := s.Links[i-1].Amount, s.Links[i].Amount
	var finds []Find
	if a.Dim != b.Dim {
		if a.Unit && b.Unit || a.Dim != None && b.Dim != None {
			return []Find{{UnitsMixed, fmt.Sprintf("%q and %q are not of one kind", s.Links[i-1].Text, s.Links[i].Text)}}
		}
		finds = append(finds, Find{UnitsMissing, fmt.Sprintf("%q has no units", strings.TrimSpace(s.Links[i-1].Text))})
		if a.Unit { // the number after it is bare
			return finds
		}
		a = lend(a, b)
	}
	switch s.Links[i].Rel {
	case "≤", "≥":
		if low, high := a, b; s.Links[i].Rel == "≤" && low.Value > high.Value+tiny(b.Value) || s.Links[i].Rel == "≥" && low.Value < high.Value-tiny(b.Value) {
			finds = append(finds, Find{False, fmt.Sprintf("%q does not hold", s.Text)})
		}
		return finds
	case "rounded up to":
		if b.Value < a.Value-a.Err-tiny(b.Value) {
			finds = append(finds, Find{False, "rounded up, and less than before"})
		}
		return finds
	case "rounded down to":
		if b.Value > a.Value+a.Err+tiny(b.Value) {
			finds = append(finds, Find{False, "rounded down, and more than before"})
		}
		return finds
	}
	if f, bad := equal(a, b, value, i == len(s.Links)-1); bad {
		finds = append(finds, f)
	}
	return finds
}

// equal compares an expression with what it is said to be equal to. Reckoned
// with the numbers as printed, it must come out as printed. Where the result
// is the whole of the figure's value, it must also come out at that value, as
// near as the rounding of the numbers lets it: else "100 + 49.6 = 150" passed.
func equal(a, b, value Amount, last bool) (Find, bool) {
	off := math.Abs(a.Value - b.Value)
	half := b.Half
	if !b.Plain {
		half = b.Err
		if a.Plain {
			half += a.Half
		} else {
			half += a.Err
		}
	}
	say := fmt.Sprintf("gives %.6g, printed is %.6g", a.Value/b.factor(), b.Value/b.factor())
	explained := off <= b.Half+a.Err+b.Err+tiny(b.Value)
	switch {
	case off > half+tiny(b.Value) && explained:
		return Find{LastDigit, say}, true
	case off > half+tiny(b.Value):
		return Find{False, say}, true
	}
	if last && b.Plain && a.Dim == value.Dim {
		exact := math.Abs(a.Value - value.Value)
		if exact > shownHalf(b, value)+a.Err+tiny(value.Value) {
			return Find{False, fmt.Sprintf("gives %.6g, the figure is %.6g", a.Value/b.factor(), value.Value/b.factor())}, true
		}
	}
	return Find{}, false
}

// shownHalf is half a step of the digits that a printed number would still be
// right to: closing zeros are not printed, so "150" for 150.000 is exact, and
// for 149.6 it is a whole number.
func shownHalf(printed, value Amount) float64 {
	half := printed.Half
	if printed.Dim.Money != 0 {
		return half // money is shown to its minor unit
	}
	off := math.Abs(printed.Value - value.Value)
	for range 4 {
		if off > half/10+tiny(value.Value) {
			break
		}
		half /= 10
	}
	return half
}

// lend gives a bare number the unit in which it comes nearest to an amount.
func lend(a, to Amount) Amount {
	best := a
	far := math.Inf(1)
	for _, f := range likely(to) {
		one := a
		one.Value, one.Err, one.Half, one.Dim, one.Factor = a.Value*f, a.Err*f, a.Half*f, to.Dim, f
		if d := math.Abs(one.Value - to.Value); d < far {
			best, far = one, d
		}
	}
	return best
}

func (a Amount) factor() float64 {
	if a.Factor == 0 {
		return 1
	}
	return a.Factor
}

// tiny is what the reckoning in floating point may lose.
func tiny(x float64) float64 { return 1e-9 * (1 + math.Abs(x)) }

func unique(list []Find) []Find {
	var out []Find
	seen := map[Kind]bool{}
	for _, f := range list {
		if !seen[f.Kind] {
			seen[f.Kind] = true
			out = append(out, f)
		}
	}
	return out
}
