package workings

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/workings/reckon"
)

// An entry is a figure as a maker meets it: text, and the number behind it.
// The judge knows nothing else of how figures are made.
type entry struct {
	ID, Title, Of string

	Known  bool
	Why    string
	Number float64
	Unit   string // its symbol as in --json
	Value  reckon.Amount
	Moment string // for moments: "2006-01-02 15:04"
	Shown  string // as the room's pages and the terminal print the value

	Rule, Sum, Source string
	Told              bool // the working says that its sum is a sentence: "skirt 1 ends from the cut end: 1540 mm"
	Inputs            []input
	Private           bool
}

// An input is what went into a figure.
type input struct {
	Name, Value string
	File        string // where it is written …
	Line        int
	From        string // … or whose it is: a figure's ID, a default, a table
	Default     bool   // it is shown as a default
	Table       bool   // a row of a published table, whose source From is
}

// entryOf is the one place that knows the types of the program's figures.
func entryOf(f *figure.Figure, private bool, style measure.Style) entry {
	e := entry{
		ID: f.ID, Title: f.Title, Of: f.Of, Known: f.Value.Known(), Why: f.Value.Why, Number: f.Value.Number, Unit: f.Value.Unit.Symbol(),
		Rule: f.Working.Rule, Sum: f.Working.Sum(), Source: string(f.Working.Source), Private: private,
		Told: f.Working.Said(),
	}
	switch {
	case !e.Known:
	case f.Value.Money != nil:
		e.Number, _ = f.Value.Money.Amount.Float64()
		e.Unit, e.Shown = f.Value.Money.Currency, style.Money(f.Value.Money.Round())
	case f.Value.Moment != nil:
		e.Moment = f.Value.Moment.Format("2006-01-02 15:04")
	case f.Value.Exact:
		e.Shown = style.PreciseQuantity(f.Value.Quantity)
	default:
		e.Shown = style.Quantity(f.Value.Quantity)
	}
	e.Value, _ = reckon.Of(e.Number, e.Unit)
	for _, in := range f.Working.Inputs() {
		e.Inputs = append(e.Inputs, input{
			Name: in.Name, Value: in.Value, File: in.At.File(), Line: int(in.At.Line), From: in.From,
			Table:   in.Kind == figure.Tabled,
			Default: in.Kind == figure.Default, // as the pages have it
		})
	}
	return e
}
