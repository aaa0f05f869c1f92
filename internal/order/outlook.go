package order

import (
	"strconv"
	"time"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/schedule"
	"hembook/internal/words"
)

var (
	orderRule  = say.Of("order.the-steps-to-do-set-one-after")
	latestRule = say.Of("order.the-latest-moment-to-start-in-the")
	dueRule    = say.Of("order.working-time-between-the-finish-and-the")
	slackRule  = say.Of("order.working-time-between-start-from-and")
)

// outlook orders what is left and says when it is over.
func (c *clerk) outlook() {
	why := c.closed
	switch {
	case len(c.out.Steps) == 0:
		why = say.Of("order.no-order-of-work-is-written")
	case c.broken != "":
		why = c.broken
	case c.out.Now.IsZero():
		why = say.Of("order.the-record-has-no-day-yet-write")
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
		c.undated(say.Of("order.the-order-of-work-cannot-be", faults[0].Message))
		return
	}
	c.order(look.Order)
	c.finished(look)
	c.dueHolds(look)
}

func (c *clerk) due() time.Time {
	if d := c.o.build.Due; d.Given() {
		return d.V.Time()
	}
	return time.Time{}
}

// undated fills in figures that need a calendar and have none.
func (c *clerk) undated(why string) {
	of := c.o.build.Name.V
	c.out.Finish = c.Moment("order.finish", "finished", of, "", unknown(why), orderRule, figure.Derived)
	if c.o.build.Due.Given() {
		c.out.Slack = c.Figure("order.slack", say.Of("order.time-to-spare"), of, c.Unknown(why), measure.UnitMin, dueRule, figure.Derived)
	}
	c.out.Over = len(c.out.Steps) > 0
	for _, st := range c.out.Steps {
		if st.State == Done {
			continue
		}
		c.out.Over = false
		st.Start = c.Moment(c.Join(st.base, ".start"), say.Of("order.start-from"), st.ID, "", unknown(why), orderRule, figure.Derived)
		st.Latest = c.Moment(c.Join(st.base, ".latest"), say.Of("order.start-by"), st.ID, "", unknown(why), latestRule, figure.Derived)
		st.Slack = c.Figure(c.Join(st.base, ".slack"), say.Of("order.to-spare"), st.ID, c.Unknown(why), measure.UnitMin, slackRule, figure.Derived)
	}
}

// order fills in when each step left is done.
func (c *clerk) order(o *schedule.Order) {
	c.out.Shortest = o.Shortest && len(c.out.Unknown) == 0
	for i := range o.Slots {
		slot := &o.Slots[i]
		st := c.out.Steps[slot.Index]
		st.Turn = i + 1
		c.out.Order = append(c.out.Order, st)
		c.slot(st, slot)
		for s := range c.cal.Spells(slot.Start, slot.End) {
			st.Ahead = append(st.Ahead, Spell(s))
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
	words := c.Join("step ", strconv.Itoa(st.Turn), " of those to do")
	moments := func(id, title string, at time.Time, rule string) figure.Figure {
		c.now()
		c.Note(c.Of(say.Of("order.to-do"), &st.Left), c.Of(say.Of("order.to-do-all-steps"), &c.out.Left)) // each waits its turn
		c.waitIn(st)
		for _, a := range st.Record.After {
			need := c.byName[a.V]
			switch {
			case need == nil:
			case need.Ready.ID != "":
				c.Note(c.Of(need.ID, &need.Ready))
			default:
				c.overIn(need)
			}
		}
		return c.Moment(c.Join(st.base, id), title, st.ID, words, moment(at), rule, figure.Derived)
	}
	st.Start = moments(".start", say.Of("order.start-from"), slot.Start, orderRule)
	st.End = moments(".end", say.Of("order.its-work-is-finished"), slot.End, orderRule)
	st.Ready = moments(".ready", say.Of("order.what-needs-it-can-begin"), slot.Over, orderRule)
	st.Latest = moments(".latest", say.Of("order.start-by"), slot.Latest, latestRule)
	c.Note(c.Of("earliest", &st.Start), c.Of("latest", &st.Latest))
	slack := c.Found(say.Of("order.working-hours-between-the-two"), slot.Slack.Minutes(), measure.UnitMin)
	st.Slack = c.Figure(c.Join(st.base, ".slack"), say.Of("order.to-spare"), st.ID, slack, measure.UnitMin, slackRule, figure.Derived)
}

// waitIn notes how long a step rests after its labour.
func (c *clerk) waitIn(st *StepTime) {
	if wait := st.Record.Wait; wait.Given() {
		c.Note(c.Written(say.Of("order.wait-after", st.ID), wait.V.Minutes(), measure.UnitMin, wait.At))
	}
}

// overIn notes what tells when a step that is done was over.
func (c *clerk) overIn(st *StepTime) {
	c.Note(c.Of(st.ID, &st.Spent))
	c.waitIn(st)
}

// now notes the moment that is asked about.
func (c *clerk) now() {
	c.Remark(figure.Told, "now", c.out.Now.Format(figure.MomentForm), fault.Pos{}, say.Of("order.the-moment-asked-about"))
}

// finished says when all is over.
func (c *clerk) finished(look *schedule.Outlook) {
	of, o := c.o.build.Name.V, look.Order
	c.out.Over = len(o.Slots) == 0
	if c.out.Over {
		c.overAlready(o)
		return
	}
	best := say.Of("order.this-is-the-earliest-of-the-orders")
	if o.Shortest {
		best = say.Of("order.no-other-order-with-one-pair-of")
	}
	at := func(id, title string, v figure.Value, left *figure.Figure, more string) figure.Figure {
		c.now()
		c.Note(c.Of(say.Of("order.work-to-do"), left))
		c.hoursIn()
		return c.Moment(id, title, of, words.Count(len(o.Slots), "step"), v, orderRule+more, figure.Derived)
	}
	if len(c.out.Unknown) > 0 {
		c.out.Finish = at("order.finish", "finished", unknown(c.timeless()), &c.out.Left, "")
		c.out.NotBefore = at("order.not-before", say.Of("order.not-finished-before"), moment(o.Finish), &c.out.Left, say.Of("order.steps-that-have-no-time-yet-count"))
		return
	}
	c.finish = o.Finish
	for i := range o.Slots {
		if st := c.out.Steps[o.Slots[i].Index]; o.Slots[i].Over.Equal(o.Finish) {
			c.Note(c.Of(st.ID, &st.Ready))
		}
	}
	c.out.Finish = at("order.finish", "finished", moment(o.Finish), &c.out.Left, best)
	if look.Low.Equal(look.High) {
		return // every step rests on a guess: there is no range to tell
	}
	c.out.FinishLow = at("order.finish-low", say.Of("order.finished-if-quick"), moment(look.Low), &c.out.LeftLow, say.Of("order.in-the-same-sequence-every-step-at"))
	c.out.FinishHigh = at("order.finish-high", say.Of("order.finished-if-slow"), moment(look.High), &c.out.LeftHigh, say.Of("order.in-the-same-sequence-every-step-at-2"))
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
	v, words := unknown(say.Of("order.the-journal-does-not-say-when-the")), ""
	if which != nil {
		c.finish, v, words = last, moment(last), say.Of("order.was-over-last", which.ID)
		c.Note(c.Of(which.ID, &which.Spent))
	}
	c.out.Finish = c.Moment("order.finish", "finished", c.o.build.Name.V, words, v, say.Of("order.the-end-of-the-last-step-by"), figure.Derived)
}

// hoursIn adds the workroom's hours as an input.
func (c *clerk) hoursIn() {
	h := c.room.Workroom.Hours
	if len(h) > 0 {
		c.Remark(figure.Written, say.Of("order.working-hours"), figure.AsItStands, h[0].Name.At, "")
	}
	if off := c.room.Workroom.DaysOff; len(off) > 0 {
		c.Remark(figure.Written, say.Of("order.days-off"), strconv.Itoa(len(off)), off[0].At, "")
	}
}

// dueHolds holds the finish against the due date.
func (c *clerk) dueHolds(look *schedule.Outlook) {
	o, of, due := look.Order, c.o.build.Name.V, c.o.build.Due
	if !due.Given() {
		c.out.Holds, c.out.HighHolds = true, true
		return
	}
	c.Remark(figure.Written, "due", due.V.String(), due.At, "")
	c.hoursIn()
	c.out.Due = c.Moment("order.due", "due", of, say.Of("order.the-days-work-ends"), moment(o.Due), say.Of("order.the-end-of-working-hours-of-the"), figure.Derived)
	if c.finish.IsZero() {
		c.out.Holds = false
		c.out.Slack = c.Figure("order.slack", say.Of("order.time-to-spare"), of, c.Unknown(c.out.Finish.Value.Why), measure.UnitMin, dueRule, figure.Derived)
		return
	}
	slack := c.cal.Worked(c.finish, o.Due)
	c.out.Holds = !c.finish.After(o.Due)
	c.out.HighHolds = c.out.Holds && (c.out.Over || look.HighHolds)
	c.Note(c.Of("finish", &c.out.Finish), c.Of("due", &c.out.Due))
	t := c.Found(say.Of("order.working-hours-between-the-two"), slack.Minutes(), measure.UnitMin)
	c.out.Slack = c.Figure("order.slack", say.Of("order.time-to-spare"), of, t, measure.UnitMin, dueRule, figure.Derived)
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
				st.Resting = Spell{end, end.Add(wait)}
			}
		case st.End.Value.Moment != nil:
			st.Resting = Spell{*st.End.Value.Moment, *st.Ready.Value.Moment}
		}
	}
}

// planned orders all steps from the build's first day, as if nothing had
// happened yet: what was planned, to be held against what did.
func (c *clerk) planned() {
	begun := c.o.build.Begun
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
		st := c.out.Steps[slot.Index]
		for s := range c.cal.Spells(slot.Start, slot.End) {
			st.Plan = append(st.Plan, Spell(s))
		}
		if slot.Over.After(slot.End) {
			st.PlanWait = Spell{slot.End, slot.Over}
		}
	}
	for _, st := range c.out.Steps {
		if !st.Estimate.Known {
			return
		}
	}
	c.Remark(figure.Written, "begun", begun.V.String(), begun.At, "")
	c.Note(c.Of(say.Of("order.work-planned"), &c.out.Planned))
	c.hoursIn()
	c.out.PlanFinish = c.Moment("order.plan-finish", say.Of("order.planned-to-be-finished"), c.o.build.Name.V, words.Count(len(order.Slots), "step"), moment(order.Finish),
		say.Of("order.begun-on-the-first-day-and-kept", orderRule), figure.Derived)
}

// Figures lists the figures of a timing, steps first. Their IDs are unique and
// unlike those of the garment, but for what is spent, which is the garment's
// own.
func (t *Timing) Figures() []figure.Figure {
	var out []figure.Figure
	for _, s := range t.Steps {
		out = append(out, s.Figures()...)
	}
	return append(out, t.Overall()...)
}

// Figures lists the figures of one step that are set.
func (s *StepTime) Figures() []figure.Figure {
	return set(&s.Estimate.Figure, &s.Estimate.LowFigure, &s.Estimate.HighFigure, &s.Spent, &s.Left,
		&s.Start, &s.End, &s.Ready, &s.Latest, &s.Slack)
}

// Overall lists the figures of the whole that are set.
func (t *Timing) Overall() []figure.Figure {
	return set(&t.Planned, &t.Spent, &t.Left, &t.LeftLow, &t.LeftHigh, &t.ChainLong,
		&t.Finish, &t.FinishLow, &t.FinishHigh, &t.NotBefore, &t.Due, &t.Slack, &t.PlanFinish)
}

func set(figures ...*figure.Figure) []figure.Figure {
	out := make([]figure.Figure, 0, len(figures))
	for _, f := range figures {
		if f.ID != "" {
			out = append(out, *f)
		}
	}
	return out
}

// unknown is a value that is not known, because …
func unknown(why string) figure.Value { return figure.Value{Why: why} }

func moment(t time.Time) figure.Value { return figure.Value{Moment: &t} }
