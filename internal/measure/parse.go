package measure

import (
	"math/big"
	"math/bits"
	"strings"
	"unicode/utf8"

	"hembook/internal/say"
)

// unitNames finds a unit by every spelling that is read.
var unitNames = func() map[string]Unit {
	names := make(map[string]Unit)
	for _, u := range AllUnits() {
		if u.Symbol() != "" {
			names[u.Symbol()] = u
		}
		for _, name := range u.fact().names {
			names[name] = u
		}
	}
	return names
}()

// lookUp finds a unit by its spelling, loosely: case, spaces round a slash,
// "per", "^2" and a closing full stop do not matter.
func lookUp(text string) Unit {
	if u, ok := unitNames[text]; ok {
		return u
	}
	return unitNames[tidy(text)]
}

// tidy brings the spelling of a unit into the form that unitNames uses.
func tidy(text string) string {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	text = strings.TrimSuffix(text, ".")
	if text != "per cent" {
		text = strings.ReplaceAll(text, "per ", "/")
	}
	text = strings.ReplaceAll(text, " /", "/")
	text = strings.ReplaceAll(text, "/ ", "/")
	text = strings.ReplaceAll(text, "^2", "²")
	if cut, ok := strings.CutSuffix(text, "2"); ok {
		text = cut + "²"
	}
	return text
}

// An amount is a number and the unit after it.
type amount struct {
	ratio
	unit         Unit // the bare unit where none stands there
	bare         bool
	unitFrom, to int
}

// part reads a number and its unit.
func (s *scanner) part(bare Unit) (amount, error) {
	n, err := s.number()
	if err != nil {
		return amount{}, err
	}
	s.skipSpace()
	p := amount{ratio: n, unit: bare, unitFrom: s.at, to: n.to}
	word := s.unitWord()
	if word == "" {
		p.bare = true
		if bare == NoUnit {
			hint, meant := withUnit(s.text[n.from:n.to], s.want, s.last)
			if s.want == DurationDim && s.last == UnitHour {
				whole := apart(strings.TrimSpace(s.text[:n.from]) + " " + meant + s.text[n.to:])
				return p, wrongAs(s.text, n.from, say.Of("measure.the-number-has-no-unit"), say.Of("measure.write", whole), whole)
			}
			return p, wrongAs(s.text, n.from, say.Of("measure.the-number-has-no-unit"), hint, s.text[:n.from]+meant+s.text[n.to:])
		}
		return p, nil
	}
	p.to = p.unitFrom + len(word)
	p.unit = lookUp(word)
	switch {
	case p.unit == NoUnit:
		return p, s.unknownUnit(p, word)
	case p.unit.Dimension() != s.want:
		hint, meant := wrongKind(s.text[n.from:n.to], p, s.want)
		if meant != "" {
			meant = s.text[:n.from] + meant + s.text[p.to:]
		}
		return p, wrongAs(s.text, p.unitFrom,
			say.Of("measure.is-a-unit-of-not-of", p.unit.Symbol(), p.unit.Dimension().String(), s.want.String()), hint, meant)
	}
	return p, nil
}

// unitWord reads up to the next number and returns what stands there, without
// the space after it.
func (s *scanner) unitWord() string {
	from, to := s.at, s.at
	for !s.done() {
		if n := s.gap(); n > 0 {
			s.at += n
			continue
		}
		if isDigit(s.peek()) && !s.squareFigure() {
			break
		}
		if c := s.peek(); s.at > to && (c == '-' || c == '+' || c == '.' && isDigit(s.ahead(1))) {
			break
		}
		if _, _, width := s.vulgar(); width > 0 {
			break
		}
		_, width := utf8.DecodeRuneInString(s.text[s.at:])
		s.at += width
		to = s.at
	}
	return s.text[from:to]
}

// squareFigure tells whether the figure at hand is the 2 of "m2" or "m^2". In
// a length, mass or time, where "3ft2in" is read, it is so only at the end.
func (s *scanner) squareFigure() bool {
	if s.at == 0 || s.peek() != '2' || isDigit(s.ahead(1)) {
		return false
	}
	before := s.text[s.at-1]
	square := s.want == AreaDim || s.want == ArealMassDim || s.at+1 == len(s.text)
	return before == '^' || square && isUnitLetter(before) && before < utf8.RuneSelf
}

// unknownUnit says what a word that is no unit may have meant.
func (s *scanner) unknownUnit(p amount, word string) error {
	first, rest, spaced := strings.Cut(word, " ")
	if u := lookUp(first); spaced && u.Dimension() == s.want {
		from := p.to - len(strings.TrimLeft(rest, " "))
		return wrongAs(s.text, from, say.Of("measure.stands-after-the-unit", quote(s.text[from:p.to])), say.Of("measure.leave-it-out"), strings.TrimSpace(s.text[:from]+s.text[p.to:]))
	}
	hint, meant := writeIn(s.want), ""
	if u := nearest(word, s.want); u != "" {
		number := s.text[p.from:p.ratio.to]
		hint = say.Of("measure.did-you-mean", number+" "+u)
		meant = s.text[:p.from] + number + " " + u + s.text[p.to:]
	}
	return wrongAs(s.text, p.unitFrom, say.Of("measure.unknown-unit", quote(word)), hint, meant)
}

// parts reads a sign and one or more parts, largest unit first, and hands
// each to add.
func (s *scanner) parts(bare Unit, signed bool, add func(amount) error) (negative bool, err error) {
	s.bare = bare
	s.skipSpace()
	if s.done() {
		return false, wrongAt(s.text, 0, say.Of("measure.no-given", s.want.String()), "")
	}
	from := s.at
	negative, given := s.sign()
	if given {
		s.skipSpace()
	}
	var last amount
	nothing := true
	for first := true; first || !s.done(); first = false {
		p, err := s.part(bare)
		if err != nil {
			return negative, err
		}
		if !first {
			if err := s.follows(last, p); err != nil {
				return negative, err
			}
		}
		if err := add(p); err != nil {
			return negative, err
		}
		last, bare, s.last = p, NoUnit, p.unit
		nothing = nothing && p.num == 0
		s.skipSpace()
	}
	if negative && nothing && !(signed && s.want == LengthDim) { // a coordinate that was turned or mirrored may be −0
		return negative, s.minusNothing(from)
	}
	if negative && !signed {
		return negative, wrongAs(s.text, from, say.Of("measure.here-cannot-be-negative", article(s.want)), say.Of("measure.leave-out-the-minus"), strings.TrimLeft(s.text, " -–"+minusSign))
	}
	return negative, nil
}

// follows checks that q may follow p, as inches follow feet.
func (s *scanner) follows(p, q amount) error {
	a, b := p.unit.fact(), q.unit.fact()
	switch {
	case !s.compound():
		return wrongAt(s.text, q.from, say.Of("measure.one-is-one-value-and-here-are", s.want.String()), "")
	case a.system != b.system:
		return wrongAt(s.text, p.from, say.Of("measure.metric-and-imperial-units-in-one", s.want.String()), say.Of("measure.write-it-in-one-of-them"))
	case float64(a.num)/float64(a.den) <= float64(b.num)/float64(b.den):
		return wrongAt(s.text, q.unitFrom, say.Of("measure.cannot-follow", b.symbol, a.symbol), say.Of("measure.write-the-larger-unit-first-each-once"))
	}
	return nil
}

// compound tells whether a measure may be written in several parts.
func (s *scanner) compound() bool {
	return s.want == LengthDim || s.want == MassDim || s.want == DurationDim
}

// longestParsed is the longest length that is read from text, 1000 km: what
// is longer is a slip, and sums of what is shorter cannot overflow.
const longestParsed = 1_000_000 * Metre

// ParseLength reads a length such as "15", "1.5 cm", `5/8"`, "1 1/4 yd" or
// "3 ft 2 in". A number without a unit is in the bare unit; with NoUnit it is
// refused. Each number is rounded to the nearest nanometre, half away from
// zero. A negative length is refused. Errors are of type [fault.List].
func ParseLength(text string, bare Unit) (Length, error) {
	return parseLength(text, bare, false)
}

// ParseSigned is ParseLength for lengths that may be negative, such as a move.
func ParseSigned(text string, bare Unit) (Length, error) {
	return parseLength(text, bare, true)
}

func parseLength(text string, bare Unit, signed bool) (Length, error) {
	s := scanner{text: text, want: LengthDim}
	var sum uint64
	negative, err := s.parts(bare, signed, func(p amount) error {
		nm, ok := p.nanometres()
		sum += nm
		if !ok || sum > uint64(longestParsed) {
			return wrongAt(text, p.from, say.Of("measure.the-length-is-too-large-to-be"), say.Of("measure.is-the-unit-right"))
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	if negative {
		return -Length(sum), nil
	}
	return Length(sum), nil
}

// nanometres returns the length of p, rounded half up, and false if it is
// longer than any that is read.
func (p amount) nanometres() (uint64, bool) {
	f := p.unit.fact()
	high, low := bits.Mul64(p.num, uint64(f.num*int64(Millimetre)/f.den))
	if high >= p.den {
		return 0, false
	}
	nm, rest := bits.Div64(high, low, p.den)
	if rest >= p.den-rest {
		nm++
	}
	return nm, nm <= uint64(longestParsed)
}

// largestParsed bounds the other measures, in any unit.
const largestParsed = 1e12

// parseQuantity reads a measure of any dimension but money, into the base
// unit of the dimension (see [Unit.Factor]), as the float64 nearest to what
// is written. A number without a unit is in the bare unit; with NoUnit it is
// refused. A sign is read only if signed is set.
func parseQuantity(text string, dim Dimension, bare Unit, signed bool) (Quantity, error) {
	s := scanner{text: text, want: dim}
	all := newSum()
	var base Unit
	negative, err := s.parts(bare, signed, func(p amount) error {
		base = baseUnit(p.unit.Dimension())
		if p.above(largestParsed) {
			return wrongAt(text, p.from, say.Of("measure.the-number-is-too-large-to-be", article(dim)), say.Of("measure.is-the-unit-right"))
		}
		num, den := p.unit.Factor()
		all.add(p.ratio, num, den)
		return nil
	})
	if err != nil {
		return Quantity{}, err
	}
	number := all.float()
	if negative && number != 0 {
		number = -number
	}
	return Quantity{Number: number, Unit: base}, nil
}

// rat returns the number of p.
func (r ratio) rat() *big.Rat {
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(r.num), new(big.Int).SetUint64(r.den))
}

// baseUnit returns the unit of a dimension whose factor is 1, the first in
// the table; NoUnit if it has none.
func baseUnit(dim Dimension) Unit {
	for u := NoUnit + 1; u < lastUnit; u++ {
		if f := u.fact(); f.dim == dim && f.num == f.den {
			return u
		}
	}
	return NoUnit
}

// ParseAreal reads a mass by area such as "180 g/m²", "5 oz/yd2" or
// "16 momme", into g/m². The unit must be given.
func ParseAreal(text string) (Quantity, error) {
	return parseQuantity(text, ArealMassDim, NoUnit, false)
}

// ParseMass reads a mass such as "250 g" or "1 lb 4 oz", into grams. The unit
// must be given.
func ParseMass(text string) (Quantity, error) {
	return parseQuantity(text, MassDim, NoUnit, false)
}

// ParsePercent reads a percentage such as "4 %" or "4"; it may be negative.
func ParsePercent(text string) (Quantity, error) {
	return parseQuantity(text, PercentDim, UnitPercent, true)
}
