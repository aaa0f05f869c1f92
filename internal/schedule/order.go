package schedule

import (
	"slices"
	"time"

	"hembook/internal/say"
)

// An Order says when one pair of hands does each step that is left.
type Order struct {
	// Slots are the steps left, in the order of their sequence.
	Slots []Slot
	// Waiting are the steps already done whose waits are still passing.
	Waiting []Wait
	// Now names the steps that can be begun, or gone on with, at this moment:
	// what they need is over. The first in sequence comes first. It may be
	// better to let one of them be: what to take up is the first of Slots.
	Now []string
	// Early names the steps begun, in hand or done before something they need
	// was done: perhaps a report is missing.
	Early []string

	Begin  time.Time     // the moment asked about
	Finish time.Time     // all is over, waits included
	Labour time.Duration // labour left
	// Least is a moment before which no order of one pair of hands can be
	// over: the later of the critical path on the calendar with any number of
	// hands, and of all labour without a pause; Finish itself where Shortest.
	Least time.Time
	// Shortest reports that the finish is proved to be the earliest possible.
	// Where it is false an earlier one may exist.
	Shortest bool

	// Due is the end of working hours of the day it is due; the zero time
	// where no day was given, and then Holds is true and Slack is 0.
	Due   time.Time
	Holds bool // the finish is not after Due
	// Slack is the working time between Finish and Due, less than nothing
	// where Due is the earlier. It may be 0 and the due date not hold, where a
	// wait runs on after hours: Late tells.
	Slack time.Duration
	Late  time.Duration // time on the clock by which Finish is after Due; 0 where it holds

	job      *job
	sequence []int32
}

// A Slot is one step in an order.
type Slot struct {
	Name  string
	Index int   // in the activities given
	State State // ToDo, Begun or InHand
	// Start and End bound the labour, nights and pauses between included:
	// Calendar.Stretches tells which. The wait passes from End to Over.
	Start, End, Over time.Time
	Labour           time.Duration // labour left
	// Latest is the latest moment it can start so that all is over by Due, or
	// by Finish where nothing is due, with the sequence kept. It may be in the past.
	Latest time.Time
	// Slack is the working time between Start and Latest, less than nothing
	// where Latest is the earlier.
	Slack time.Duration
	// Critical reports that any delay of it delays the finish of this sequence.
	Critical bool
}

// A Wait is time that is passing without labour.
type Wait struct {
	Name  string
	Index int // in the activities given
	Over  time.Time
}

// Order finds an order for one pair of hands on a calendar, over as early as
// it can, that begins with what is in hand. Where there are faults it is nil.
//
// The hands are never taken from a step once it has begun; nights and pauses
// aside it is done in one go. The order found is the earliest possible where
// it says so; the problem is too hard to promise that for every one.
func (n *Network) Order(cal *Calendar, s Standing) (*Order, Faults) {
	if cal == nil {
		cal = &Calendar{lost: make([]int64, 1)}
	}
	j, over, early, faults := n.newJob(cal, s)
	if len(faults) > 0 {
		return nil, faults
	}
	tries := s.Tries
	if tries == 0 {
		tries = defaultTries
	}
	f := j.search(tries)
	if f.finish >= farFuture {
		faults.add(NoHours, nil, say.Of("schedule.are-the-working-hours-right"), say.Of("schedule.with-these-working-hours-the-work-is"))
		return nil, faults
	}
	o := &Order{job: j, sequence: f.sequence, Begin: j.now.time(), Finish: f.finish.time(), Shortest: f.proved, Early: n.namesAt(early)}
	for _, w := range over {
		o.Waiting = append(o.Waiting, Wait{n.activities[w.place].Name, int(w.place), w.over.time()})
	}
	o.setDue(s.Due, f.finish)
	o.setSlots(n, f)
	o.setLeast(f)
	return o, nil
}

func (n *Network) namesAt(places []int32) []string {
	var names []string
	for _, p := range places {
		names = append(names, n.activities[p].Name)
	}
	return names
}

func (o *Order) setDue(due time.Time, finish instant) {
	o.Holds = true
	if due.IsZero() {
		return
	}
	closes := o.job.cal.closes(instantOf(due))
	o.Due = closes.time()
	o.Holds = finish <= closes
	o.Slack = time.Duration(o.job.cal.worked(closes) - o.job.cal.worked(finish))
	o.Late = time.Duration(max(finish-closes, 0))
}

func (o *Order) setSlots(n *Network, f found) {
	j := o.job
	own := j.backwardInTurn(f.sequence, f.finish)
	asked := own
	if !o.Due.IsZero() {
		asked = j.backwardInTurn(f.sequence, instantOf(o.Due))
	}
	o.Slots = make([]Slot, 0, len(f.sequence))
	for _, i := range f.sequence {
		at, a := f.at[i], n.activities[j.places[i]]
		slot := Slot{
			Name: a.Name, Index: int(j.places[i]), State: j.state[i],
			Start: at.begins.time(), End: at.ends.time(), Over: at.over.time(),
			Labour: time.Duration(j.labour[i]),
			Latest: asked[i].closes.time(),
			Slack:  time.Duration(j.cal.worked(asked[i].closes) - at.from),
		}
		slot.Critical = own[i].closes <= at.begins
		o.Slots = append(o.Slots, slot)
		o.Labour += slot.Labour
		if len(j.needs.of(i)) == 0 && j.free[i] <= j.now {
			o.Now = append(o.Now, a.Name)
		}
	}
}

func (o *Order) setLeast(f found) {
	j := o.job
	least := f.finish
	if !f.proved {
		least = max(j.forwardAlone(make([]window, len(j.places))), j.cal.ends(j.cal.worked(j.now)+int64(o.Labour)))
	}
	o.Least = least.time()
}

// finishIf gives when all would be over in the same sequence if the steps took
// other times: labour and wait of each slot, in the order of Slots. Times less
// than nothing count as nothing. It is false where times are too many or too few,
// or too long for the calendar.
func (o *Order) finishIf(times []stepTimes) (time.Time, bool) {
	if len(times) != len(o.Slots) {
		return time.Time{}, false
	}
	other := *o.job
	other.labour, other.wait = slices.Clone(other.labour), slices.Clone(other.wait)
	sum := time.Duration(0)
	for k, i := range o.sequence {
		labour, wait := max(times[k].Labour, 0), max(times[k].Wait, 0)
		if sum = min(sum, longest) + min(labour, longest) + min(wait, longest); sum > longest {
			return time.Time{}, false
		}
		other.labour[i], other.wait[i] = int64(labour), int64(wait)
	}
	finish := other.run(o.sequence, make([]placed, len(o.sequence)))
	return finish.time(), finish < farFuture
}

// stepTimes are the labour left and the wait of a step.
type stepTimes struct{ Labour, Wait time.Duration }
