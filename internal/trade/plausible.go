package trade

import (
	"fmt"
	"math"

	"hembook/internal/say"
)

// Plausibility grades a measurement against what people measure.
type Plausibility int

// The levels. NoRange means nothing is known to hold the value against.
const (
	NoRange Plausibility = iota
	Fits
	Odd   // outside everyone measured: look again
	Wrong // outside even widened by a quarter: almost surely a slip
)

// widen is how far beyond the people measured a value may lie before it is
// taken for a slip. Source: derived; soldiers were measured, and civilians are
// smaller, larger and heavier.
const widen = 0.25

// Plausible holds a body measurement in mm (kg for mass) against the ranges
// measured, and says what is doubtful about it; the message is empty when
// nothing is. It recognises centimetres, inches and metres written as mm.
func Plausible(name string, value float64, who Wearer) (Plausibility, string) {
	m, ok := MeasurementNamed(name)
	if !ok {
		return NoRange, ""
	}
	if !(value > 0) || math.IsInf(value, 0) {
		return Wrong, say.Of("trade.a-of-cannot-be", m.Title, number(value), m.Unit)
	}
	low, high, ok := m.Span(who)
	if !ok {
		return NoRange, ""
	}
	if value >= low && value <= high {
		return Fits, ""
	}
	if who == Child {
		return m.childLevel(value, low, high)
	}
	text := say.Of("trade.a-of-is-outside-everyone-measured-to", m.Title, number(value), m.Unit, number(low), number(high))
	if value >= low*(1-widen) && value <= high*(1+widen) {
		return Odd, say.Of("trade.measure-again-to-be-sure", text)
	}
	return Wrong, text + m.slip(value, low, high)
}

// Span is the least and greatest value measured for a wearer, men and women
// together where the wearer is not known.
func (m Measurement) Span(who Wearer) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	if m.Women != nil && who != Man {
		low, high, ok = m.Women.Min, m.Women.Max, true
	}
	if m.Men != nil && who != Woman {
		low, high, ok = math.Min(low, m.Men.Min), math.Max(high, m.Men.Max), true
	}
	return low, high, ok
}

// childLevel refuses for a child only what no child is: larger than the
// largest adult, or so small that it must be in another unit.
func (m Measurement) childLevel(value, low, high float64) (Plausibility, string) {
	const smallest = 0.25 // of the smallest adult: below a newborn's measures
	switch {
	case value > high*(1+widen):
		return Wrong, say.Of("trade.a-of-is-more-than-any-adult", m.Title, number(value), m.Unit, m.slip(value, low*smallest, high))
	case value > high:
		return Odd, say.Of("trade.a-of-is-more-than-any-adult-2", m.Title, number(value), m.Unit)
	case value < low*smallest:
		return Wrong, say.Of("trade.a-of-is-too-small-for-a", m.Title, number(value), m.Unit, m.slip(value, low*smallest, high))
	default:
		return Fits, ""
	}
}

// slip asks whether the value was meant in another unit.
func (m Measurement) slip(value, low, high float64) string {
	if m.Unit != "mm" {
		const pound = 0.45359237 // kg, exact by definition
		if kg := value * pound; kg >= low && kg <= high {
			return say.Of("trade.did-you-mean-kg-lb", number(math.Round(kg*10)/10), number(value))
		}
		return ""
	}
	for _, u := range []struct {
		name   string
		factor float64
	}{{"cm", 10}, {"in", 25.4}, {"m", 1000}} {
		if mm := value * u.factor; mm >= low && mm <= high {
			return say.Of("trade.did-you-mean-mm", number(mm), number(value), u.name)
		}
	}
	if mm := value / 10; mm >= low && mm <= high {
		return say.Of("trade.did-you-mean-mm-2", number(mm))
	}
	return ""
}

// PlausibleRatio holds one measurement against another, both in mm. It never
// answers Wrong: bodies differ more than rules do.
func PlausibleRatio(of, to string, a, b float64, who Wearer) (Plausibility, string) {
	if !(a > 0) || !(b > 0) || who == Child {
		return NoRange, ""
	}
	for _, r := range sizeData().Ratios {
		if r.Of != of || r.To != to {
			continue
		}
		low, high := r.span(who)
		v := a / b
		if v >= low && v <= high {
			return Fits, ""
		}
		return Odd, fmt.Sprintf("%s ÷ %s = %s ÷ %s = %s, outside everyone measured (%s to %s); measure both once more",
			of, to, number(a), number(b), number(v), number(low), number(high))
	}
	return NoRange, ""
}

func (r Ratio) span(who Wearer) (low, high float64) {
	switch who {
	case Woman:
		return r.Women.Min, r.Women.Max
	case Man:
		return r.Men.Min, r.Men.Max
	default:
		return math.Min(r.Women.Min, r.Men.Min), math.Max(r.Women.Max, r.Men.Max)
	}
}
