package record

import (
	"strconv"
	"time"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record/phrase"
)

// A Val is one written value with its place. The zero Val was not written.
type Val[T any] struct {
	V  T
	At fault.Pos
}

// Given reports whether the maker wrote the value.
func (v Val[T]) Given() bool { return v.At.Given() }

// Or returns the value, or def where none was written.
func (v Val[T]) Or(def T) T {
	if v.Given() {
		return v.V
	}
	return def
}

// otherwise is the value, or the other where none was written.
func (v Val[T]) otherwise(other Val[T]) Val[T] {
	if v.Given() {
		return v
	}
	return other
}

// The kinds of scalar a record holds.
type (
	Text     = Val[string]
	Flag     = Val[bool]
	Count    = Val[int]
	Number   = Val[float64]
	Length   = Val[measure.Length]
	Duration = Val[time.Duration]
	Date     = Val[Day]
	Moment   = Val[time.Time]
	Percent  = Val[Share]
	Areal    = Val[GramsPerSquareMetre]
	Mass     = Val[Grams]
	Turns    = Val[Ratio]
	Money    = Val[measure.Money]
	Where    = Val[phrase.Where]
)

// A Share is a percentage, 0 to 100 where nothing else is said.
type Share float64

// GramsPerSquareMetre is a mass per area.
type GramsPerSquareMetre float64

// Grams is a mass.
type Grams float64

// A Ratio is a plain number that may be written as a fraction: 3/4, 1 1/2, 0.75.
type Ratio float64

// A Day is a date without a time, ISO 8601: 2026-08-03.
type Day struct {
	Year  int
	Month time.Month
	Day   int
}

// String prints the day as 2026-08-03, the zero Day as nothing.
func (d Day) String() string {
	if d == (Day{}) {
		return ""
	}
	return d.Time().Format(time.DateOnly)
}

// Words writes the day as people read it, 3 August 2026; the zero Day as nothing.
func (d Day) Words() string {
	if d == (Day{}) {
		return ""
	}
	return strconv.Itoa(d.Day) + " " + d.Month.String() + " " + strconv.Itoa(d.Year)
}

// Time is the start of the day in UTC.
func (d Day) Time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// before reports whether d comes before e.
func (d Day) before(e Day) bool { return d.Time().Before(e.Time()) }

// A List may be written as one value or as a list of them.
type List[T any] []T

// A Named is one entry of a Dict.
type Named[T any] struct {
	Name Text
	V    T
}

// A Dict is a mapping from names of the maker's choice, in the order written.
type Dict[T any] []Named[T]

// Get returns the entry of that name.
func (d Dict[T]) Get(name string) (T, bool) {
	for i := range d {
		if d[i].Name.V == name {
			return d[i].V, true
		}
	}
	var none T
	return none, false
}

// Names returns the names in the order written.
func (d Dict[T]) Names() []string {
	out := make([]string, len(d))
	for i := range d {
		out[i] = d[i].Name.V
	}
	return out
}
