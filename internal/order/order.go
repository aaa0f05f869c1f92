package order

import (
	"time"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/schedule"
)

// A Standing is from where the order of work is looked at.
type Standing struct {
	// Now is the moment from which what is left is ordered. A page takes
	// [Order.LastMoment], so that it rests on the record alone; the terminal
	// takes the clock.
	Now time.Time
	// Rates estimate steps without a time of their own; nil where none are known.
	Rates *Rates
	// Running holds the time on running clocks, by step: it counts as spent.
	Running map[string]time.Duration
}

// LastMoment is the last moment the record knows of: the end of the journal's
// last entry, else the beginning of the day the build was begun.
func (o *Order) LastMoment() (time.Time, bool) {
	var last time.Time
	for i := range o.build.Journal {
		e := &o.build.Journal[i]
		if end := e.When.V.Add(max(e.For.V, 0)); e.When.Given() && end.After(last) {
			last = end
		}
	}
	if last.IsZero() && o.build.Begun.Given() {
		last = o.build.Begun.V.Time()
	}
	return last, !last.IsZero()
}

// A Timing is the order of work at one moment: what was planned, what is
// spent, what is left and when it will be over (figures 21 to 23).
type Timing struct {
	Now   time.Time
	Steps []*StepTime // all, in the order of the record
	Order []*StepTime // those left, in the order that is over earliest; the first is what to take up
	Start []*StepTime // those that can be begun or gone on with now
	Early []*StepTime // those worked on before something they need, though it is not reported done
	Chain []*StepTime // the critical path: the longest chain of what is left
	More  bool        // there are other chains as long

	Unknown []*StepTime // those left whose time nobody knows; they count as nothing in what follows
	Guesses int         // how many of those left rest on the record's guess, which has no range

	Planned    figure.Figure // labour of all steps as planned
	Spent      figure.Figure // clocked
	Left       figure.Figure // labour left
	LeftLow    figure.Figure // the same from the lower quartiles
	LeftHigh   figure.Figure // and from the upper ones
	ChainLong  figure.Figure // length of the critical path, nights not counted
	Finish     figure.Figure // the moment all is over
	FinishLow  figure.Figure // the same if all goes well
	FinishHigh figure.Figure // and if all goes badly
	NotBefore  figure.Figure // what can be said of the finish where some times are not known; not set otherwise
	Due        figure.Figure // the end of working hours of the day it is due; not set where none
	Slack      figure.Figure // working time between finish and due
	PlanFinish figure.Figure // when the plan would have been over, begun on its first day; not set where that is not known
	Holds      bool          // the due date holds, by the middle of the estimates
	HighHolds  bool          // it holds even if all goes badly
	Over       bool          // nothing is left
	Shortest   bool          // no order is over earlier
	HoursKnown bool          // the workroom says when it works; dates are not known otherwise
	Faults     []fault.Fault
}

// A StepTime is one step in a Timing.
type StepTime struct {
	*Step
	State    StepState // as the step's own, a running clock and estimates heeded
	Why      string
	Estimate Estimate
	Left     figure.Figure // labour left; not known where the step's time is not
	Start    figure.Figure // the earliest moment to begin; not set where it is done
	End      figure.Figure // its labour is over then
	Ready    figure.Figure // and what needs it can begin: its wait is over
	Latest   figure.Figure // the latest moment to begin so that the due date holds, or the finish where none is due
	Slack    figure.Figure // working time between the two
	Critical bool          // on a critical path: a delay of it delays the end, however many hands there are
	Turn     int           // its place in the order of what is left, from 1; 0 where it is done
	NeededBy []*StepTime

	Worked   []Spell // when it was worked on, by the journal
	Ahead    []Spell // when it is to be worked on
	Resting  Spell   // its wait, past or ahead; zero where it has none
	Plan     []Spell // when it was planned, from the first day
	PlanWait Spell   // its wait as planned

	ended    time.Time
	endKnown bool
}

// Timing looks at a garment's order of work from a moment. It is a pure
// function of the order, the workroom and the standing.
func (p *Planner) Timing(o *Order, from Standing) *Timing {
	c := &clerk{Pad: figure.NewPad(p.room.Workroom.Style()), room: p.room, o: o, from: from, out: &Timing{Now: wall(from.Now)}}
	c.calendar()
	c.read()
	c.activities()
	c.chain()
	c.labour()
	c.outlook()
	c.stretches()
	c.planned()
	c.out.Faults = c.faults.Sorted()
	return c.out
}

// wall is what the clock on the wall shows, as a moment in UTC, to the minute.
func wall(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	y, m, d := t.Date()
	return time.Date(y, m, d, t.Hour(), t.Minute(), 0, 0, time.UTC)
}

// A clerk works out one Timing.
type clerk struct {
	*figure.Pad
	room    *record.Room
	o       *Order
	from    Standing
	out     *Timing
	faults  fault.Faults
	cal     *schedule.Calendar
	closed  string // why there is no calendar
	byName  map[string]*StepTime
	guesses []schedule.Estimate // of the steps
	doings  []schedule.Activity // the same
	reports []schedule.Progress
	network *schedule.Network // of what is left
	broken  string            // why there is none
	finish  time.Time         // when all is over; zero where that is not known
}

var weekdays = map[string]time.Weekday{
	"mon": time.Monday, "tue": time.Tuesday, "wed": time.Wednesday, "thu": time.Thursday,
	"fri": time.Friday, "sat": time.Saturday, "sun": time.Sunday,
}

// calendar reads the workroom's hours.
func (c *clerk) calendar() {
	room := c.room.Workroom
	var week schedule.Week
	for i := range room.Hours {
		day, known := weekdays[room.Hours[i].Name.V]
		if !known {
			continue // the reader tells of it
		}
		for _, s := range room.Hours[i].V.Spans {
			week[day] = append(week[day], schedule.Span{From: s[0], To: s[1]})
		}
	}
	if len(room.Hours) == 0 {
		c.closed = say.Of("order.no-working-hours-yet-so-no-dates")
		return
	}
	off := make([]time.Time, 0, len(room.DaysOff))
	for _, d := range room.DaysOff {
		if d.Given() {
			off = append(off, d.V.Time())
		}
	}
	cal, faults := schedule.NewCalendar(week, off)
	if len(faults) > 0 {
		c.place(faults)
		c.closed = say.Of("order.the-workrooms-hours-cannot-be")
		return
	}
	if !cal.Works() {
		c.closed = say.Of("order.the-workroom-has-no-working-hours")
		return
	}
	c.cal, c.out.HoursKnown = cal, true
}

// place turns the scheduler's faults into faults of the record. What the
// reader finds as well, it tells itself.
func (c *clerk) place(faults schedule.Faults) {
	for _, f := range faults {
		at := c.o.build.At
		switch f.Kind {
		case schedule.Duplicate, schedule.UnknownNeed, schedule.Cycle, schedule.NoName, schedule.UnknownStep:
			continue
		case schedule.BadHours, schedule.NoHours:
			at = c.room.Workroom.At
			if h := c.room.Workroom.Hours; len(h) > 0 {
				at = h[0].Name.At
			}
		}
		if len(f.Names) > 0 {
			if s := c.byName[f.Names[0]]; s != nil {
				at = s.Record.At
			}
		}
		c.faults.Wrong(at, f.Hint, f.Message)
	}
}

// read estimates every step and says how far it has come.
func (c *clerk) read() {
	steps := c.o.Steps
	room := make([]StepTime, len(steps))
	c.byName = make(map[string]*StepTime, len(steps))
	c.out.Steps = make([]*StepTime, len(steps))
	c.guesses = make([]schedule.Estimate, len(steps))
	for i, s := range steps {
		st := &room[i]
		st.Step, st.State, st.Why, st.Worked = s, s.State, s.Why, s.spells
		st.Estimate, c.guesses[i] = c.from.Rates.estimate(c.Pad, s)
		c.out.Steps[i] = st
		if c.byName[s.ID] == nil {
			c.byName[s.ID] = st
		}
		c.stand(st)
	}
	for _, st := range c.out.Steps {
		for _, a := range st.Record.After {
			if need := c.byName[a.V]; need != nil {
				need.NeededBy = append(need.NeededBy, st)
			}
		}
	}
}

// stand heeds what the record alone does not tell of a step: its clock, and
// how long such steps take.
func (c *clerk) stand(st *StepTime) {
	if run, running := c.from.Running[st.ID]; running && run >= 0 {
		st.State, st.Why = InHand, say.Of("order.its-clock-is-running")
		return
	}
	e := st.Estimate
	if st.State == Done && !st.Record.Takes.Given() && !st.Step.At.Given() && e.Known && !st.waitsOnly() && st.spent() < e.Low {
		st.State, st.Why = Begun, say.Of("order.not-sure-it-is-done-less-time")
	}
}

// spent is what is clocked for a step.
func (s *Step) spent() time.Duration {
	sum := time.Duration(0)
	for _, e := range s.entries {
		sum += e.For.V
	}
	return sum
}

// left is the labour left of a step that takes so long.
func (c *clerk) left(st *StepTime, takes time.Duration) time.Duration {
	if st.State == Done {
		return 0
	}
	return max(takes-st.spent()-c.from.Running[st.ID], 0)
}

// ended is when a done step's labour was over, as well as the record tells. A
// day alone counts to the end of its hours.
func (c *clerk) ended(st *StepTime) time.Time {
	if st.endKnown {
		return st.ended
	}
	st.endKnown = true // steps that wait for each other find an end here
	var end time.Time
	for _, e := range st.entries {
		t := e.When.V.Add(max(e.For.V, 0))
		if wholeDay(e.When.V) && c.cal != nil {
			t = c.cal.Closes(e.When.V)
		}
		if e.When.Given() && t.After(end) {
			end = t
		}
	}
	if end.IsZero() && st.waitsOnly() {
		end = c.began(st)
	}
	st.ended = end
	return end
}

// began is when a step that only lets time pass began by itself: when the last
// of its needs was over.
func (c *clerk) began(st *StepTime) time.Time {
	var at time.Time
	for _, a := range st.Record.After {
		need := c.byName[a.V]
		if need == nil || need.State != Done {
			continue
		}
		if t := c.ended(need); !t.IsZero() && t.Add(need.Record.Wait.V).After(at) {
			at = t.Add(need.Record.Wait.V)
		}
	}
	return at
}

// activities lists the steps for the scheduler: all of them as they are
// planned, and those of which anything is left. One whose time nobody knows
// counts as nothing.
func (c *clerk) activities() {
	c.doings = make([]schedule.Activity, len(c.out.Steps))
	var left []schedule.Activity
	for i, st := range c.out.Steps {
		all, open := make([]string, 0, len(st.Record.After)), []string(nil)
		for _, a := range st.Record.After {
			all = append(all, a.V)
			if need := c.byName[a.V]; need != nil && c.open(need) {
				open = append(open, a.V)
			}
		}
		c.doings[i] = schedule.Activity{Name: st.ID, Labour: c.guesses[i].Middle, Wait: max(st.Record.Wait.V, 0), After: all}
		if r, any := c.report(st); any {
			c.reports = append(c.reports, r)
		}
		if c.open(st) {
			wait := max(st.Record.Wait.V, 0)
			if st.State == Done {
				wait = c.waiting(st)
			}
			left = append(left, schedule.Activity{Name: st.ID, Labour: c.left(st, c.guesses[i].Middle), Wait: wait, After: open})
		}
	}
	network, faults := schedule.Plan(left)
	if len(faults) > 0 {
		c.place(faults)
		c.broken = say.Of("order.the-order-of-work-cannot-be", faults[0].Message)
		return
	}
	c.network = network
}

// open reports whether anything of a step is left: its labour, or its wait.
func (c *clerk) open(st *StepTime) bool { return st.State != Done || c.waiting(st) > 0 }

// waiting is how much of a done step's wait is still to pass.
func (c *clerk) waiting(st *StepTime) time.Duration {
	end := c.ended(st)
	if end.IsZero() || c.out.Now.IsZero() || st.Record.Wait.V <= 0 {
		return 0
	}
	return max(end.Add(st.Record.Wait.V).Sub(c.out.Now), 0)
}

func (c *clerk) report(st *StepTime) (schedule.Progress, bool) {
	p := schedule.Progress{Name: st.ID}
	switch st.State {
	case Done:
		p.State, p.At = schedule.Done, c.ended(st)
	case InHand:
		p.State, p.Spent = schedule.InHand, st.spent()+c.from.Running[st.ID]
	case Begun:
		p.State, p.Spent = schedule.Begun, st.spent()
	default:
		return p, false
	}
	return p, true
}

// chain finds the critical path of what is left.
func (c *clerk) chain() {
	if c.network == nil || c.network.Total == 0 {
		return
	}
	for _, n := range c.network.Nodes {
		c.byName[n.Name].Critical = n.Critical()
	}
	paths, more := c.network.CriticalPaths(1)
	c.out.More = more
	for _, path := range paths {
		for _, name := range path {
			c.out.Chain = append(c.out.Chain, c.byName[name])
		}
	}
}
