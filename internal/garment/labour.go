package garment

import (
	"time"

	"hembook/internal/schedule"
)

const (
	leftRule  = "planned − spent, at least nothing; nothing for a step that is done"
	chainRule = "the longest chain of labour and waits, each step after what it needs, with any number of hands and no nights"
)

// labour works out what is planned, spent and left.
func (c *clerk) labour() {
	var sum [3]time.Duration
	planned, noPlan := time.Duration(0), ""
	for i, st := range c.out.Steps {
		e := c.guesses[i]
		if e.Known() {
			planned += e.Middle
		} else if noPlan == "" {
			noPlan = st.ID + ": " + st.Estimate.Figure.Value.Why
		}
		c.leftOf(st, e)
		if st.State == Done {
			continue
		}
		switch {
		case !e.Known():
			c.out.Unknown = append(c.out.Unknown, st)
		case st.Estimate.Guess:
			c.out.Guesses++
		}
		for k, takes := range []time.Duration{e.Middle, e.Low, e.High} {
			sum[k] += c.left(st, takes)
		}
	}
	c.planSum(planned, noPlan)
	c.out.Spent = c.g.Totals.Spent
	for k, f := range []*Figure{&c.out.Left, &c.out.LeftLow, &c.out.LeftHigh} {
		c.leftSum(f, k, sum[k])
	}
	c.chainLong()
}

// leftOf is the labour left of one step.
func (c *clerk) leftOf(st *StepTime, e schedule.Estimate) {
	id := c.join(st.base, ".left")
	v, left := unknown("how long it takes is not known"), time.Duration(0)
	switch {
	case st.State == Done:
		c.note(Input{Name: "state", Value: "done", At: st.At, From: "its state"})
		c.s("0 min: ").s(st.Why)
		v = inMin(0)
	case e.Known():
		left = c.left(st, e.Middle)
		v = inMin(left)
		c.figureIn("planned", &st.Estimate.Figure)
		c.n(e.Middle.Minutes())
		if spent := st.spent(); spent > 0 {
			c.figureIn("spent", &st.Spent)
			c.s(" − ").n(spent.Minutes())
		}
		if run := c.from.Running[st.ID]; run > 0 {
			c.note(Input{Name: "on its clock", Value: c.n(run.Minutes()).s(" min").end(), From: "the running clock"})
		}
		c.s(" = ").n(left.Minutes()).s(" min")
	}
	st.Left = c.figure(id, "labour left", st.ID, v, leftRule, derived)
}

func (c *clerk) planSum(planned time.Duration, why string) {
	v := inMin(planned)
	for _, st := range c.out.Steps {
		c.figureIn(st.ID, &st.Estimate.Figure)
	}
	if why != "" {
		v = unknown(why)
	}
	if len(c.out.Steps) == 0 {
		v = unknown("no order of work is written")
	}
	c.i(len(c.out.Steps)).s(" steps = ").n(planned.Minutes()).s(" min")
	c.out.Planned = c.figure("order.planned", "labour planned", c.g.Build.Name.V, v, "Σ over all steps", derived)
}

func (c *clerk) leftSum(f *Figure, k int, sum time.Duration) {
	name := [...]string{"order.left", "order.left-low", "order.left-high"}[k]
	title := [...]string{"labour left", "labour left, if all goes well", "labour left, if all goes badly"}[k]
	v, n := inMin(sum), 0
	for _, st := range c.out.Steps {
		if st.State != Done {
			c.figureIn(st.ID, &st.Left)
			n++
		}
	}
	if len(c.out.Unknown) > 0 {
		v = unknown(c.timeless())
	}
	c.i(n).s(" steps = ").n(sum.Minutes()).s(" min")
	rule := "Σ over the steps that are not done"
	if k > 0 {
		rule += [...]string{"", ", from the lower quartiles of their rates", ", from the upper quartiles of their rates"}[k]
	}
	*f = c.figure(name, title, c.g.Build.Name.V, v, rule, derived)
}

// timeless says which steps nobody knows the time of.
func (c *clerk) timeless() string {
	const most = 3
	text := "nobody knows how long "
	for i, st := range c.out.Unknown {
		switch {
		case i == most:
			return text + " and others take"
		case i > 0:
			text += ", "
		}
		text += st.ID
	}
	if len(c.out.Unknown) == 1 {
		return text + " takes"
	}
	return text + " take"
}

// chainLong is the length of the critical path.
func (c *clerk) chainLong() {
	v := unknown(c.broken)
	if c.network != nil {
		v = inMin(c.network.Total)
		for i, st := range c.out.Chain {
			if i > 0 {
				c.s(" → ")
			}
			c.s(st.ID)
			c.figureIn(st.ID, &st.Left)
			if w := c.waitAhead(st); w > 0 {
				c.note(Input{Name: "wait after " + st.ID, Value: minuteText(w), At: st.Record.Wait.At})
			}
		}
		c.s(" = ").n(c.network.Total.Minutes()).s(" min")
	}
	if len(c.out.Unknown) > 0 {
		v = unknown(c.timeless())
	}
	c.out.ChainLong = c.figure("order.critical-path", "length of the critical path", c.g.Build.Name.V, v, chainRule, derived)
}

func minuteText(d time.Duration) string {
	return string(append(appendNumber(nil, d.Minutes(), 3), " min"...))
}

func (c *clerk) waitAhead(st *StepTime) time.Duration {
	if st.State == Done {
		return c.waiting(st)
	}
	return st.Record.Wait.V
}
