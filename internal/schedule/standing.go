package schedule

import (
	"slices"
	"time"

	"hembook/internal/say"
)

// A State says how far a step has come.
type State int

// The states of a step.
const (
	ToDo   State = iota // not begun
	Begun               // begun and laid aside
	InHand              // being done now
	Done                // its labour is over; its wait may still be passing
)

// Progress reports on one step that is no longer to do.
type Progress struct {
	Name  string
	State State
	// At is when the labour of a Done step ended, from which its wait counts.
	// The zero time means long ago: the wait is over.
	At time.Time
	// Spent is the labour that has gone into a step Begun or InHand. What is
	// left of it is its labour less this, and nothing where it has taken longer.
	Spent time.Duration
	// Left, where above zero, is the labour left, said outright.
	Left time.Duration
}

// A Standing is how the work stands when an order is asked for.
type Standing struct {
	Now time.Time // the moment the order begins from
	// Due is the day by whose end of working hours all must be over, waits
	// included; only its date counts. The zero time means no such day.
	Due      time.Time
	Progress []Progress // steps that are not in it are to do
	// Tries bounds the effort of looking for a shorter order, in placements of
	// a step; 0 means DefaultTries, less than 0 none.
	Tries int
}

// defaultTries is the effort that is spent unless said otherwise. Nearly every
// job of a garment's size is settled with less.
const defaultTries = 20000

// A job is what is left to do, with steps numbered anew: the input of the
// search for an order.
type job struct {
	cal    *Calendar
	now    instant
	places []int32 // of each step left, its place in the network
	state  []State
	labour []int64 // nanoseconds left
	wait   []int64
	free   []instant // when the waits of needs already done are over; never before now
	needs  links
	needed links
	topo   []int32
	inHand int // the first so many of every sequence are in hand
}

// waiting is a step that is done and whose wait is still passing.
type waiting struct {
	place int32
	over  instant
}

// newJob finds what is left of the network's activities. Besides it gives the
// waits still passing and the steps that were taken up before what they need
// was done.
func (n *Network) newJob(cal *Calendar, s Standing) (*job, []waiting, []int32, Faults) {
	reports, faults := n.readProgress(s.Progress)
	if s.Now.IsZero() || !inRange(s.Now) {
		faults.add(BadTime, nil, say.Of("schedule.is-the-year-right"), say.Of("schedule.the-work-cannot-begin-on", s.Now.Format(time.DateOnly)))
	}
	if !s.Due.IsZero() && !inRange(s.Due) {
		faults.add(BadTime, nil, say.Of("schedule.is-the-year-right"), say.Of("schedule.the-work-cannot-be-due-on", s.Due.Format(time.DateOnly)))
	}
	if len(faults) > 0 {
		return nil, nil, nil, faults
	}
	j := &job{cal: cal, now: instantOf(s.Now)}
	number := n.readLeft(j, reports)
	over := n.waitsOver(reports, j.now)
	early := n.readJobNeeds(j, number, reports, over)
	j.needed = j.needs.turned()
	j.topo = topological(j.needs, j.needed)
	if !cal.Works() && slices.ContainsFunc(j.labour, func(l int64) bool { return l > 0 }) {
		faults.add(NoHours, nil, say.Of("schedule.give-the-working-hours-of-at-least"), say.Of("schedule.there-is-work-to-do-and-no"))
	}
	return j, over, early, faults
}

// readProgress lists the report on each activity, by its place.
func (n *Network) readProgress(progress []Progress) ([]Progress, Faults) {
	reports := make([]Progress, len(n.activities))
	var faults Faults
	guess := guesser{known: n.activities, left: 20}
	for _, p := range progress {
		i, known := n.place[p.Name]
		switch {
		case !known:
			faults.add(UnknownStep, []string{p.Name}, guess.hint(p.Name, ""), say.Of("schedule.there-is-no-step", say.Quoted(p.Name)))
		case reports[i].Name != "":
			faults.add(Duplicate, []string{p.Name}, "", say.Of("schedule.there-are-two-reports-on", say.Quoted(p.Name)))
		case p.Spent < 0 || p.Left < 0:
			faults.add(BadTime, []string{p.Name}, "", say.Of("schedule.the-time-of-is-less-than-nothing", say.Quoted(p.Name)))
		case p.Left > n.roomLeft(i):
			faults.add(BadTime, []string{p.Name}, say.Of("schedule.is-the-unit-right"), say.Of("schedule.the-time-left-for-makes-the-work", say.Quoted(p.Name)))
		case p.State < ToDo || p.State > Done || p.State == Done && !p.At.IsZero() && !inRange(p.At):
			faults.add(BadTime, []string{p.Name}, say.Of("schedule.is-the-year-right"), say.Of("schedule.cannot-have-been-done-on", say.Quoted(p.Name), p.At.Format(time.DateOnly)))
		default:
			reports[i] = p
		}
	}
	return reports, faults
}

// roomLeft is the most labour that can be left of a step.
func (n *Network) roomLeft(i int32) time.Duration {
	return max(n.activities[i].Labour, longest/time.Duration(len(n.activities)))
}

// readLeft numbers the steps left, in hand first and else as given, and reads
// their times. It gives each activity's number, -1 where it is done.
func (n *Network) readLeft(j *job, reports []Progress) []int32 {
	number := make([]int32, len(n.activities))
	for i := range number {
		number[i] = -1
	}
	for _, inHand := range []bool{true, false} {
		for i, r := range reports {
			if r.State == Done || inHand != (r.State == InHand) {
				continue
			}
			number[i] = int32(len(j.places))
			j.places = append(j.places, int32(i))
			j.state = append(j.state, r.State)
			j.labour = append(j.labour, int64(leftOf(n.activities[i].Labour, r)))
			j.wait = append(j.wait, int64(n.activities[i].Wait))
			j.free = append(j.free, j.now)
		}
		if inHand {
			j.inHand = len(j.places)
		}
	}
	return number
}

// waitsOver lists the steps done whose waits end after now, as given.
func (n *Network) waitsOver(reports []Progress, now instant) []waiting {
	var over []waiting
	for i, r := range reports {
		if r.State != Done || r.At.IsZero() {
			continue
		}
		if end := instantOf(r.At) + instant(n.activities[i].Wait); end > now {
			over = append(over, waiting{int32(i), end})
		}
	}
	return over
}

// readJobNeeds ties the steps left together. What is in hand waits for
// nothing: it has evidently begun. It gives the places of the steps begun,
// in hand or done before something they need.
func (n *Network) readJobNeeds(j *job, number []int32, reports []Progress, over []waiting) (early []int32) {
	end := map[int32]instant{}
	for _, w := range over {
		end[w.place] = w.over
	}
	for i, r := range reports {
		if r.State == ToDo {
			continue
		}
		if slices.ContainsFunc(n.needs.of(int32(i)), func(p int32) bool { return number[p] >= 0 }) {
			early = append(early, int32(i))
		}
	}
	j.needs.start = make([]int32, 1, len(j.places)+1)
	for k, i := range j.places {
		if k >= j.inHand {
			for _, p := range n.needs.of(i) {
				if number[p] >= 0 {
					j.needs.to = append(j.needs.to, number[p])
				} else {
					j.free[k] = max(j.free[k], end[p])
				}
			}
		}
		j.needs.start = append(j.needs.start, int32(len(j.needs.to)))
	}
	return early
}

// leftOf gives the labour left of a step that would take t, by a report on it.
func leftOf(t time.Duration, r Progress) time.Duration {
	switch {
	case r.State != Begun && r.State != InHand:
		return t
	case r.Left > 0:
		return r.Left
	}
	return max(t-r.Spent, 0)
}
