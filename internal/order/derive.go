// Package order works out how a garment is made in time and for money: how far
// its steps have come, what is spent and left, how long each technique takes its
// maker, when all is over, and what it costs.
package order

import (
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A Planner works out the orders of work of a workroom's builds. It does not
// change, and many goroutines may use it at once.
type Planner struct{ room *record.Room }

// New prepares a workroom's planner.
func New(room *record.Room) *Planner { return &Planner{room} }

// An Order is the work of a build, with what went into it.
type Order struct {
	Steps  []*Step
	Stages []*TimeGroup     // time by stage, in the order of the work
	Ways   []*TimeGroup     // time by technique, in the order of the work
	Spent  figure.Figure    // time clocked, all steps together
	Hours  figure.Figure    // what they are to take, where nothing is clocked yet; not set elsewhere, and where a step does not say
	Costs  []figure.Private // cost of cloth used and bought, notions, labour, post, all

	build *record.Build
}

// A bookkeeper works one order out.
type bookkeeper struct {
	*figure.Pad
	room     *record.Room
	b        *record.Build
	g        *garment.Garment
	o        *Order
	currency string // of prices that name none
}

// Derive works out the steps, the time and the costs of a garment.
func (p *Planner) Derive(g *garment.Garment) *Order {
	room := p.room.Workroom
	w := &bookkeeper{Pad: figure.NewPad(room.Style()), room: p.room, b: g.Build, g: g, o: &Order{build: g.Build}, currency: room.Currency.Or("EUR")}
	w.steps()
	w.allSpent()
	w.costs()
	return w.o
}

// allSpent is the time clocked for the whole garment.
func (w *bookkeeper) allSpent() {
	var spent []*figure.Figure
	for _, s := range w.o.Steps {
		if s.Spent.Value.Known() {
			spent = append(spent, &s.Spent)
		}
	}
	w.o.Spent = w.Total("total.spent", "hours", w.b.Name.V, measure.UnitMin, spent, say.Of("order.no-time-is-noted-yet"), say.Of("order.of-the-times-noted-for-every-step"))
	if len(spent) == 0 {
		w.hoursPlanned()
	}
}

// hoursPlanned is the time that all steps are to take, as they say.
func (w *bookkeeper) hoursPlanned() {
	var terms []figure.Term
	for _, s := range w.o.Steps {
		switch r := s.Record; {
		case r.Takes.Given():
			terms = append(terms, w.Written(s.ID, r.Takes.V.Minutes(), measure.UnitMin, r.Takes.At))
		case !r.Wait.Given():
			return
		}
	}
	if len(terms) > 0 {
		w.o.Hours = w.Figure("total.hours-planned", say.Of("order.hours-planned"), w.b.Name.V, w.Sum(terms...), measure.UnitMin, say.Of("order.of-the-times-that-the-steps-are"), figure.Recorded)
	}
}
