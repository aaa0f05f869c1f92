package garment

import (
	"time"

	"hembook/internal/measure"
	"hembook/internal/schedule"
)

const (
	orderRule  = "the steps left set one after the other into the working hours, none before what it needs is over; waits pass on the clock, nights and days off included"
	latestRule = "the latest moment from which the same sequence is over when it must be"
	slackRule  = "working time between the earliest and the latest moment to begin"
)

// outlook orders what is left and says when it is over.
func (c *clerk) outlook() {
	why := c.closed
	switch {
	case len(c.out.Steps) == 0:
		why = "no order of work is written"
	case c.broken != "":
		why = c.broken
	case c.out.Now.IsZero():
		why = "nothing says when the work stands where it stands: write begun:"
	}
	if why != "" {
		c.undated(why)
		return
	}
	estimates := make([]schedule.Estimate, len(c.guesses))
	for i, e := range c.guesses {
		if estimates[i] = e; !e.Known() {
			estimates[i] = schedule.Guess(0)
		}
	}
	look, faults := schedule.NewOutlook(c.doings, estimates, c.cal, schedule.Standing{Now: c.out.Now, Due: c.due(), Progress: c.reports})
	if len(faults) > 0 {
		c.place(faults)
		c.undated("the order of work cannot be: " + faults[0].Text)
		return
	}
	c.order(look.Order)
	c.finished(look)
	c.dueHolds(look)
}

func (c *clerk) due() time.Time {
	if d := c.g.Build.Due; d.Given() {
		return d.V.Time()
	}
	return time.Time{}
}

// undated fills in figures that need a calendar and have none.
func (c *clerk) undated(why string) {
	of := c.g.Build.Name.V
	c.out.Finish = c.figure("order.finish", "all is over", of, unknown(why), orderRule, derived)
	if c.g.Build.Due.Given() {
		c.out.Slack = c.figure("order.slack", "slack until the due date", of, unknown(why), "", derived)
	}
	c.out.Over = len(c.out.Steps) > 0
	for _, st := range c.out.Steps {
		if st.State == Done {
			continue
		}
		c.out.Over = false
		for _, f := range []struct {
			into     *Figure
			id, name string
		}{{&st.Start, ".start", "earliest to begin"}, {&st.Latest, ".latest", "latest to begin"}, {&st.Slack, ".slack", "slack"}} {
			*f.into = c.figure(c.join(st.base, f.id), f.name, st.ID, unknown(why), orderRule, derived)
		}
	}
}

// order fills in when each step left is done.
func (c *clerk) order(o *schedule.Order) {
	c.out.Shortest = o.Shortest && len(c.out.Unknown) == 0
	for i := range o.Slots {
		slot := &o.Slots[i]
		st := c.out.Steps[slot.Place]
		st.Turn = i + 1
		c.out.Order = append(c.out.Order, st)
		c.slot(st, slot)
		for s := range c.cal.Stretches(slot.Start, slot.End) {
			st.Ahead = append(st.Ahead, Stretch(s))
		}
	}
	for _, name := range o.Now {
		c.out.Start = append(c.out.Start, c.byName[name])
	}
	for _, name := range o.Early {
		c.out.Early = append(c.out.Early, c.byName[name])
	}
}

func (c *clerk) slot(st *StepTime, slot *schedule.Slot) {
	moments := func(into *Figure, id, title string, at time.Time, rule string) {
		c.note(Input{Name: "now", Value: c.out.Now.Format(MomentForm), From: "the moment asked about"})
		c.figureIn("labour left", &st.Left)
		for _, a := range st.Record.After {
			if need := c.byName[a.V]; need != nil && need.Ready.ID != "" {
				c.figureIn(need.ID, &need.Ready)
			}
		}
		c.s("step ").i(st.Turn).s(" of those left: ").s(at.Format(MomentForm))
		*into = c.figure(c.join(st.base, id), title, st.ID, moment(at), rule, derived)
	}
	moments(&st.Start, ".start", "earliest to begin", slot.Start, orderRule)
	moments(&st.End, ".end", "its labour is over", slot.End, orderRule)
	moments(&st.Ready, ".ready", "what needs it can begin", slot.Over, orderRule)
	moments(&st.Latest, ".latest", "latest to begin", slot.Latest, latestRule)
	c.figureIn("earliest", &st.Start).figureIn("latest", &st.Latest)
	c.n(slot.Slack.Minutes()).s(" min")
	st.Slack = c.figure(c.join(st.base, ".slack"), "slack", st.ID, inMin(slot.Slack), slackRule, derived)
}

// finished says when all is over.
func (c *clerk) finished(look *schedule.Outlook) {
	of, o := c.g.Build.Name.V, look.Order
	c.out.Over = len(o.Slots) == 0
	if c.out.Over {
		c.overAlready(o)
		return
	}
	best := "; this is the earliest of the orders tried"
	if o.Shortest {
		best = "; no order of one pair of hands is over earlier"
	}
	at := func(id, title string, t time.Time, v Value, left *Figure, more string) Figure {
		c.note(Input{Name: "now", Value: c.out.Now.Format(MomentForm), From: "the moment asked about"})
		c.figureIn("labour left", left)
		c.hoursIn()
		c.i(len(o.Slots)).s(" steps: ").s(t.Format(MomentForm))
		return c.figure(id, title, of, v, orderRule+more, derived)
	}
	if len(c.out.Unknown) > 0 {
		c.out.Finish = at("order.finish", "all is over", o.Finish, unknown(c.timeless()), &c.out.Left, "")
		c.out.NotBefore = at("order.not-before", "not over before", o.Finish, moment(o.Finish), &c.out.Left, "; steps whose time nobody knows count as nothing")
		return
	}
	c.finish = o.Finish
	c.out.Finish = at("order.finish", "all is over", o.Finish, moment(o.Finish), &c.out.Left, best)
	if look.Low.Equal(look.High) {
		return // every step rests on a guess: there is no range to tell
	}
	c.out.FinishLow = at("order.finish-low", "all is over, if all goes well", look.Low, moment(look.Low), &c.out.LeftLow, "; in the same sequence, every step at its lower quartile")
	c.out.FinishHigh = at("order.finish-high", "all is over, if all goes badly", look.High, moment(look.High), &c.out.LeftHigh, "; in the same sequence, every step at its upper quartile")
}

// overAlready says when all was over, where the journal tells.
func (c *clerk) overAlready(o *schedule.Order) {
	var last time.Time
	var which *StepTime
	for _, st := range c.out.Steps {
		if end := c.ended(st); !end.IsZero() {
			if end = end.Add(max(st.Record.Wait.V, 0)); end.After(last) {
				last, which = end, st
			}
		}
	}
	v := unknown("the journal does not say when the last step was done")
	if which != nil {
		c.finish, v = last, moment(last)
		c.figureIn(which.ID, &which.Spent)
		c.s(which.ID).s(" was over last: ").s(last.Format(MomentForm))
	}
	c.out.Finish = c.figure("order.finish", "all was over", c.g.Build.Name.V, v, "the end of the last step by the journal, its wait included", derived)
}

// hoursIn adds the workroom's hours as an input.
func (c *clerk) hoursIn() {
	h := c.t.room.Workroom.Hours
	if len(h) > 0 {
		c.note(Input{Name: "working hours", Value: "by weekday", At: h[0].Name.At})
	}
	if off := c.t.room.Workroom.DaysOff; len(off) > 0 {
		c.note(Input{Name: "days off", Value: c.i(len(off)).end(), At: off[0].At})
	}
}

// dueHolds holds the finish against the due date.
func (c *clerk) dueHolds(look *schedule.Outlook) {
	o, of, due := look.Order, c.g.Build.Name.V, c.g.Build.Due
	if !due.Given() {
		c.out.Holds, c.out.HighHolds = true, true
		return
	}
	c.note(Input{Name: "due", Value: due.V.String(), At: due.At})
	c.hoursIn()
	c.s(o.Due.Format(MomentForm))
	c.out.Due = c.figure("order.due", "due", of, moment(o.Due), "the end of working hours of the day it is due", derived)
	const rule = "working time between the finish and the due date, less than nothing where the due date is the earlier"
	if c.finish.IsZero() {
		c.out.Holds = false
		c.out.Slack = c.figure("order.slack", "slack until the due date", of, unknown(c.out.Finish.Value.Why), rule, derived)
		return
	}
	slack := c.cal.Worked(c.finish, o.Due)
	c.out.Holds = !c.finish.After(o.Due)
	c.out.HighHolds = c.out.Holds && (c.out.Over || look.HighHolds)
	c.figureIn("finish", &c.out.Finish).figureIn("due", &c.out.Due)
	c.n(slack.Minutes()).s(" min")
	c.out.Slack = c.figure("order.slack", "slack until the due date", of, valueIn(slack.Minutes(), measure.UnitMin), rule, derived)
}

// stretches lists when each step rests.
func (c *clerk) stretches() {
	for _, st := range c.out.Steps {
		wait := st.Record.Wait.V
		if wait <= 0 {
			continue
		}
		switch {
		case st.State == Done:
			if end := c.ended(st); !end.IsZero() {
				st.Resting = Stretch{end, end.Add(wait)}
			}
		case st.End.Value.Moment != nil:
			st.Resting = Stretch{*st.End.Value.Moment, *st.Ready.Value.Moment}
		}
	}
}

// planned orders all steps from the build's first day, as if nothing had
// happened yet: what was planned, to be held against what did.
func (c *clerk) planned() {
	begun := c.g.Build.Begun
	if !begun.Given() || c.cal == nil || c.broken != "" {
		return
	}
	network, faults := schedule.Plan(c.doings)
	if len(faults) > 0 {
		c.place(faults)
		return
	}
	order, faults := network.Order(c.cal, schedule.Standing{Now: begun.V.Time(), Due: c.due()})
	if len(faults) > 0 {
		c.place(faults)
		return
	}
	for i := range order.Slots {
		slot := &order.Slots[i]
		st := c.out.Steps[slot.Place]
		for s := range c.cal.Stretches(slot.Start, slot.End) {
			st.Plan = append(st.Plan, Stretch(s))
		}
		if slot.Over.After(slot.End) {
			st.PlanWait = Stretch{slot.End, slot.Over}
		}
	}
	for _, st := range c.out.Steps {
		if !st.Estimate.Known {
			return
		}
	}
	c.note(Input{Name: "begun", Value: begun.V.String(), At: begun.At})
	c.figureIn("labour planned", &c.out.Planned)
	c.hoursIn()
	c.i(len(order.Slots)).s(" steps: ").s(order.Finish.Format(MomentForm))
	c.out.PlanFinish = c.figure("order.plan-finish", "all was to be over, as planned", c.g.Build.Name.V, moment(order.Finish), orderRule+"; begun on the first day and kept at", derived)
}

// Figures lists the figures of a timing, steps first. Their IDs are unique and
// unlike those of the garment, but for what is spent, which is the garment's
// own.
func (t *Timing) Figures() []Figure {
	var out []Figure
	for _, s := range t.Steps {
		out = append(out, s.Figures()...)
	}
	return append(out, t.Overall()...)
}

// Figures lists the figures of one step that are set.
func (s *StepTime) Figures() []Figure {
	return set(&s.Estimate.Figure, &s.Estimate.LowFigure, &s.Estimate.HighFigure, &s.Spent, &s.Left,
		&s.Start, &s.End, &s.Ready, &s.Latest, &s.Slack)
}

// Overall lists the figures of the whole that are set.
func (t *Timing) Overall() []Figure {
	return set(&t.Planned, &t.Spent, &t.Left, &t.LeftLow, &t.LeftHigh, &t.ChainLong,
		&t.Finish, &t.FinishLow, &t.FinishHigh, &t.NotBefore, &t.Due, &t.Slack, &t.PlanFinish)
}

func set(figures ...*Figure) []Figure {
	out := make([]Figure, 0, len(figures))
	for _, f := range figures {
		if f.ID != "" {
			out = append(out, *f)
		}
	}
	return out
}
