// Package derive works out everything that follows from a build's record, room
// by room: the garment, then how it fits, what its label says, and how it is made
// in time and for money.
package derive

import (
	"hembook/internal/fault"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/order"
	"hembook/internal/record"
)

// A Tailor knows what holds for every garment of a workroom. It is prepared once;
// what it knows never changes afterwards, and many goroutines may use it at once.
type Tailor struct {
	*garment.Tailor
	fitter   *fitting.Fitter
	labeller *label.Labeller
	planner  *order.Planner
}

// A Garment is a build with everything that follows from its record.
type Garment struct {
	*garment.Garment
	Fit *fitting.Fit
	*label.Label
	*order.Order
}

// NewTailor prepares a workroom's tailor and checks what concerns no single
// build. Faults never quote a body measurement.
func NewTailor(room *record.Room) (*Tailor, []fault.Fault) {
	t, faults := garment.NewTailor(room)
	f, bodies := fitting.New(room, t)
	l, more := label.New(room, t)
	return &Tailor{Tailor: t, fitter: f, labeller: l, planner: order.New(room)}, together(faults, bodies, more)
}

// Derive works out everything that follows from a build's record. It never
// fails: what cannot be known says why, and what is wrong is in the faults.
//
// The garment is as it is after the last round of fitting: see [Tailor.DeriveAt].
func (t *Tailor) Derive(b *record.Build) *Garment { return t.rest(t.Tailor.Derive(b)) }

// DeriveAt works out a build as it was after a round of fitting; 0 is the
// draft. A round that the record does not have is that of the last before it.
func (t *Tailor) DeriveAt(b *record.Build, round int) *Garment {
	return t.rest(t.Tailor.DeriveAt(b, round))
}

// rest works out what follows from a garment.
func (t *Tailor) rest(g *garment.Garment) *Garment {
	f, unfit := t.fitter.Derive(g)
	l, faults := t.labeller.Derive(g)
	g.Faults = together(g.Faults, unfit, faults)
	return &Garment{Garment: g, Fit: f, Label: l, Order: t.planner.Derive(g)}
}

// together puts the faults of several rooms in order.
func together(rooms ...[]fault.Fault) []fault.Fault {
	var all fault.Faults
	for _, list := range rooms {
		all.Add(list...)
	}
	return all.Sorted()
}

// Timing looks at a garment's order of work from a moment.
func (t *Tailor) Timing(g *Garment, from order.Standing) *order.Timing {
	return t.planner.Timing(g.Order, from)
}

// Care works out what a garment stands.
func (t *Tailor) Care(g *Garment) *label.Care { return t.labeller.Care(g.Garment) }

// Content works out what a garment is made of.
func (t *Tailor) Content(g *Garment) *label.Content { return t.labeller.Content(g.Garment) }

// ContentBy is the same by the rules of a market: eu or us.
func (t *Tailor) ContentBy(g *Garment, market string) *label.Content {
	return t.labeller.ContentBy(g.Garment, market)
}

// Customs works out the heading and the net mass of a garment.
func (t *Tailor) Customs(g *Garment, c *label.Content) *label.Customs {
	return t.labeller.Customs(g.Garment, c)
}

// Worn works out the fit table.
func (t *Tailor) Worn(g *Garment) []fitting.Worn { return t.fitter.Worn(g.Garment, g.Fit) }

// Rounds works out what every round of fitting did.
func (t *Tailor) Rounds(g *Garment) *fitting.Rounds { return t.fitter.Rounds(g.Garment) }
