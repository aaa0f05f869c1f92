package order

import (
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/schedule"
)

var (
	leftRule  = say.Of("order.planned-spent-at-least-nothing-nothing")
	chainRule = say.Of("order.the-longest-chain-of-work-and-waits")
)

// labour works out what is planned, spent and left.
func (c *clerk) labour() {
	noPlan := ""
	for i, st := range c.out.Steps {
		e := c.guesses[i]
		if !e.Known() && noPlan == "" {
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
	}
	c.planSum(noPlan)
	c.out.Spent = c.o.Spent
	for k, f := range []*figure.Figure{&c.out.Left, &c.out.LeftLow, &c.out.LeftHigh} {
		c.leftSum(f, k)
	}
	c.chainLong()
}

// leftOf is the labour left of one step.
func (c *clerk) leftOf(st *StepTime, e schedule.Estimate) {
	t := c.Unknown(say.Of("order.how-long-it-takes-is-not-known"))
	switch {
	case st.State == Done:
		t = c.Found(st.Why, 0, measure.UnitMin)
	case e.Known():
		t = c.Of("planned", &st.Estimate.Figure)
		t = t.Minus(c.worked(st))
		if t.Known() && t.In(measure.UnitMin) < 0 {
			t = c.Greatest(t, c.Constant(0, measure.UnitMin))
		}
	}
	st.Left = c.Figure(c.Join(st.base, ".left"), say.Of("order.to-do"), st.ID, t, measure.UnitMin, leftRule, figure.Derived)
}

// worked is what went into a step so far: the journal's time and that on its
// clock; none where nothing did.
func (c *clerk) worked(st *StepTime) figure.Term {
	var t figure.Term
	if st.spent() > 0 {
		t = c.Of(say.Of("order.spent-on", st.ID), &st.Spent)
	}
	if run := c.from.Running[st.ID]; run > 0 {
		t = t.Plus(c.Told(say.Of("order.on-its-clock"), run.Minutes(), measure.UnitMin, say.Of("order.the-running-clock")))
	}
	return t
}

func (c *clerk) planSum(why string) {
	terms := make([]figure.Term, len(c.out.Steps))
	for i, st := range c.out.Steps {
		terms[i] = c.Of(st.ID, &st.Estimate.Figure)
	}
	t := c.Unknown(say.Of("order.no-order-of-work-is-written"))
	if len(terms) > 0 {
		t = c.Sum(terms...).Unless(why)
	}
	c.out.Planned = c.Figure("order.planned", say.Of("order.work-planned"), c.o.build.Name.V, t, measure.UnitMin, say.Of("order.over-all-steps"), figure.Derived)
}

// leftSum adds up what is left: as estimated, or from the lower or the upper
// quartiles of the rates.
func (c *clerk) leftSum(f *figure.Figure, k int) {
	name := [...]string{"order.left", "order.left-low", "order.left-high"}[k]
	title := [...]string{say.Of("order.work-to-do"), say.Of("order.work-to-do-if-quick"), say.Of("order.work-to-do-if-slow")}[k]
	var terms []figure.Term
	for _, st := range c.out.Steps {
		if st.State != Done {
			terms = append(terms, c.leftTerm(st, k))
		}
	}
	t := c.Found(say.Of("order.nothing-is-to-do"), 0, measure.UnitMin)
	if len(terms) > 0 {
		t = c.Sum(terms...)
	}
	if len(c.out.Unknown) > 0 {
		t = t.Unless(c.timeless())
	}
	rule := say.Of("order.over-the-steps-that-are-not-done")
	if k > 0 {
		rule += [...]string{"", say.Of("order.each-at-its-quick-time"), say.Of("order.each-at-its-slow-time")}[k]
	}
	*f = c.Figure(name, title, c.o.build.Name.V, t, measure.UnitMin, rule, figure.Derived)
}

// leftTerm is the labour left of a step, by one of the ends of its range.
func (c *clerk) leftTerm(st *StepTime, k int) figure.Term {
	planned := [...]*figure.Figure{&st.Estimate.Figure, &st.Estimate.LowFigure, &st.Estimate.HighFigure}[k]
	if k == 0 || planned.ID == "" {
		return c.Of(st.ID, &st.Left)
	}
	t := c.Of(st.ID, planned)
	t = t.Minus(c.worked(st))
	if t.Known() && t.In(measure.UnitMin) < 0 {
		t = c.Greatest(t, c.Constant(0, measure.UnitMin))
	}
	return t
}

// timeless says which steps have no time yet.
func (c *clerk) timeless() string {
	const most = 3
	text := say.Of("order.no-time-yet-for")
	for i, st := range c.out.Unknown {
		switch {
		case i == most:
			return say.Of("order.and-others", text)
		case i > 0:
			text += ", "
		}
		text += st.ID
	}
	return say.Of("order.write-takes-1-h", text)
}

// chainLong is the length of the critical path: what is left of the steps on
// it, and the waits between them.
func (c *clerk) chainLong() {
	var terms []figure.Term
	for i, st := range c.out.Chain {
		terms = append(terms, c.Of(st.ID, &st.Left))
		wait := c.waitAhead(st)
		switch {
		case wait <= 0 || i == len(c.out.Chain)-1 && c.network.Total.Minutes() <= c.chained(i):
		case st.State == Done:
			c.overIn(st)
			terms = append(terms, c.Told(say.Of("order.wait-after", st.ID), wait.Minutes(), measure.UnitMin, say.Of("order.what-is-still-to-pass-of-it")))
		default:
			terms = append(terms, c.Written(say.Of("order.wait-after", st.ID), wait.Minutes(), measure.UnitMin, st.Record.Wait.At))
		}
	}
	t := c.Found(say.Of("order.nothing-is-to-do"), 0, measure.UnitMin)
	switch {
	case c.network == nil:
		t = c.Unknown(c.broken)
	case len(terms) > 0:
		t = c.NamedSum(terms...)
	}
	if len(c.out.Unknown) > 0 {
		t = t.Unless(c.timeless())
	}
	c.out.ChainLong = c.Figure("order.critical-path", say.Of("order.what-decides-the-date"), c.o.build.Name.V, t, measure.UnitMin, chainRule, figure.Derived)
}

// chained is how long the chain is up to the labour of one of its steps, in
// minutes.
func (c *clerk) chained(last int) float64 {
	sum := 0.0
	for i, st := range c.out.Chain[:last+1] {
		sum += st.Left.Value.Number
		if i < last {
			sum += c.waitAhead(st).Minutes()
		}
	}
	return sum
}

func (c *clerk) waitAhead(st *StepTime) time.Duration {
	if st.State == Done {
		return c.waiting(st)
	}
	return st.Record.Wait.V
}
