package measure

import (
	"errors"
	"math"
	"time"

	"hembook/internal/say"
)

// A Quantity is a number of units.
type Quantity struct {
	Number float64 `json:"number"`
	Unit   Unit    `json:"unit"`
}

// dimension returns what q measures.
func (q Quantity) dimension() Dimension { return q.Unit.Dimension() }

// convert returns q in another unit of the same dimension. The factor between
// the two units is an exact fraction in lowest terms, so 25.4 mm is 1 in and
// not a hair less. Units of different dimensions are an error.
func (q Quantity) convert(to Unit) (Quantity, error) {
	from := q.Unit.fact()
	dest := to.fact()
	if from.dim != dest.dim || from.dim == NoDim {
		return Quantity{}, errors.New(say.Of("measure.in-cannot-be-given-in-is-not", from.dim, q.Unit, to, from.dim, dest.dim))
	}
	if q.Unit == to {
		return q, nil
	}
	num, den := lowest(from.num, dest.num)
	top, bottom := lowest(dest.den, from.den)
	num, bottom = lowest(num, bottom)
	top, den = lowest(top, den)
	n := q.Number * float64(num*top)
	return Quantity{Number: n / float64(den*bottom), Unit: to}, nil
}

// In is Convert for units that are known to fit; a unit of another dimension
// is our own mistake and panics. Use Convert for a unit that a maker chose.
func (q Quantity) In(to Unit) Quantity {
	got, err := q.convert(to)
	if err != nil {
		panic("measure: " + err.Error())
	}
	return got
}

// Length returns q as a length, and false when q is none or does not fit.
func (q Quantity) Length() (Length, bool) {
	if q.dimension() != LengthDim {
		return 0, false
	}
	return fromMM(q.In(UnitMM).Number)
}

// duration returns q as a duration, and false when q is none or does not fit.
func (q Quantity) duration() (time.Duration, bool) {
	if q.dimension() != DurationDim {
		return 0, false
	}
	ns := math.Round(q.In(UnitSecond).Number * 1e9)
	if !(ns >= -(1<<63) && ns < 1<<63) {
		return 0, false
	}
	return time.Duration(ns), true
}

// String prints q precisely, with up to three decimals, in its own unit.
func (q Quantity) String() string {
	return Style{System: Both}.inUnit(q, 3)
}

// lowest returns the fraction a/b of two positive numbers in lowest terms.
func lowest(a, b int64) (int64, int64) {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x, b / x
}
