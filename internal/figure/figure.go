// Package figure makes derived values that cannot say something else than what
// was computed: the value, the sum with its numbers and the list of what went
// in all come from one expression.
//
// An expression is written on a [Pad], term by term. A term is a value written
// in a record, another figure, a default, a row of a published table, a bare
// number, or terms put together by an operator that knows their dimensions. A
// term that is not known, because something is missing, makes everything not
// known that rests on it. Sums are printed when they are asked for, in the
// units of the room, rounded so that the numbers shown give the result shown.
package figure

import (
	"time"

	"hembook/internal/fault"
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

// A Private figure rests on private data: a body, a price.
type Private = record.Private[Figure]

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

// A Working is how a figure was reached: its rule and that rule's source, and
// the expression, of which [Working.Sum] and [Working.Inputs] tell.
type Working struct {
	Rule   string       // in words and symbols: "r = W ÷ 2πk"
	Source trade.Source // where the rule is published, or one of the sources below

	pad    *Pad
	root   int32 // 1 + its node; 0 where there is none
	extras span  // inputs that decided something and stand in no sum
	unit   measure.Unit
}

// The sources of rules that nobody published.
const (
	Derived  trade.Source = "derived"
	Recorded trade.Source = "the record itself"
	Practice trade.Source = "common practice, no source"
	OurOwn   trade.Source = "our own choice"
)

// A Kind says where an input comes from.
type Kind uint8

// The kinds of inputs.
const (
	Written Kind = iota // it stands in a file, at its place
	Figured             // it is a figure, named by its ID
	Default             // nothing is written: what is usual is taken
	Tabled              // a row of a published table
	Told                // what else is known: a lay plan, a running clock
)

// An Input is one value that went into a figure.
type Input struct {
	Kind  Kind
	Name  string    // "waist"
	Value string    // as it was used: "700 mm"
	At    fault.Pos // where it was written; no place where it is not
	From  string    // of a figure its ID, of a table's row its source, else in words
	InSum bool      // the sum shows its value
}

// AsItStands is the value of an input that is only a place: what stands there is
// too long to say again.
const AsItStands = "as it stands"

// MomentForm is how moments are written in workings: the layout of package time.
const MomentForm = "2006-01-02 15:04"

// AsWritten reports whether the figure is nothing but one value that stands in
// a file: nothing was derived, so there is nothing to open.
func (f *Figure) AsWritten() bool {
	w := &f.Working
	if !f.Value.Known() || w.root == 0 || w.extras.n > 0 {
		return false
	}
	n := w.pad.nodes.at(w.root - 1)
	return n.op == opInput && w.pad.origins.at(n.a).kind == Written
}

// Tells reports whether the sum says more than the result.
func (w Working) Tells() bool {
	if w.root == 0 {
		return false
	}
	n := w.pad.nodes.at(w.root - 1)
	return n.why == 0 && n.op != opInput && n.op != opNumber
}

// Said reports whether the sum is words, not arithmetic: what a search or the
// geometry found, or a moment.
func (w Working) Said() bool {
	if w.root == 0 {
		return false
	}
	o := w.pad.nodes.at(w.root - 1).op
	return o == opRemark || o == opFound
}

// Clone is the figure with a copy of its own working alone, so that what else
// stood on its pad can be forgotten.
func (f Figure) Clone() Figure {
	out := f
	w := &f.Working
	if w.pad == nil {
		return out
	}
	pad := &Pad{imperial: w.pad.imperial, length: w.pad.length}
	c := copier{from: w.pad, to: pad}
	out.Working.pad = pad
	if w.root > 0 {
		out.Working.root = 1 + c.node(w.root-1)
	}
	list := make([]int32, 0, w.extras.n)
	for _, at := range w.extras.of(w.pad.extras) {
		list = append(list, c.node(at))
	}
	pad.extras, out.Working.extras = list, span{0, int32(len(list))}
	return out
}
