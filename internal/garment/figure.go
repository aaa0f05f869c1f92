// Package garment turns a record into figures: lengths, areas, widths, cloth,
// thread, mass and cost, each a value with its unit and its working.
//
// It promises that nothing derived leaves it as a bare number: every figure
// names its inputs with the file and line they came from, the rule in words
// and symbols, and the rule's source; that a missing input makes a figure "not
// known, because …" and never a zero; and that a figure that rests on private
// data is private itself. It writes no HTML and opens no files.
package garment

import (
	"time"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A Figure is one derived value with its working.
type Figure struct {
	ID      string // unique in its build: "seam.sides.length"; its name in JSON and its anchor on a page
	Title   string // what it is: "length of the seam"
	Of      string // what it is of: "sides"
	Value   Value
	Working Working
}

// A Value is a number with its unit, an amount of money, a moment, or not known.
type Value struct {
	measure.Quantity                // zero where money, a moment or not known
	Money            *measure.Money // set for amounts of money
	Moment           *time.Time     // set for moments: what the clock on the wall shows, in UTC
	Why              string         // why it is not known; empty where it is
	Exact            bool           // a count or a length from the record: print all its digits
}

// Known reports whether there is a value.
func (v Value) Known() bool { return v.Why == "" }

// A Working is how a figure was reached.
type Working struct {
	Rule   string       // in words and symbols: "r = W ÷ 2πk"
	Sum    string       // the same with numbers: "700 mm ÷ (2π × 0.75) = 148.54 mm"
	Inputs []Input      // what went in
	Source trade.Source // where the rule is published, "common practice, no source", "from memory" or "derived"
}

// An Input is one value that went into a figure: written in a record, or a
// figure itself.
type Input struct {
	Name  string     // "waist"
	Value string     // as it was used: "700 mm"
	At    record.Pos // where it was written; no place where it is a figure or a default
	From  string     // the ID of the figure it comes from, "default", or the source of a table's value
}

// A PrivateFigure rests on private data: a body, a price.
type PrivateFigure = record.Private[Figure]
