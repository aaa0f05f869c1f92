package schedule

import (
	"time"

	"hembook/internal/say"
)

// An Outlook is when the work will be over, with its range.
type Outlook struct {
	// Order is made with the middle of each estimate.
	Order *Order
	// Low and High are the finish of the same sequence when every step takes
	// its lower or its upper quartile. All steps going well, or badly, together
	// is rarer than either for one of them, so the range is a cautious one.
	Low, High time.Time
	// LowHolds and HighHolds tell whether the due date holds in those cases.
	LowHolds, HighHolds bool
	// Guesses names the steps left whose times are the maker's guesses, which
	// add nothing to the range; it may be narrower than it should be.
	Guesses []string
}

// NewOutlook orders activities by their estimates, one for each, whatever
// labour the activities carry. A step that is done needs none; for every other
// one that is not known there is a fault.
func NewOutlook(activities []Activity, estimates []Estimate, cal *Calendar, s Standing) (*Outlook, Faults) {
	var faults Faults
	if len(activities) != len(estimates) {
		faults.add(NotKnown, nil, "", say.Of("schedule.there-are-steps-and-estimates", len(activities), len(estimates)))
		return nil, faults
	}
	reports := map[string]Progress{}
	for _, p := range s.Progress {
		reports[p.Name] = p
	}
	middle := make([]Activity, len(activities))
	for i, a := range activities {
		r := reports[a.Name]
		if e := estimates[i]; !e.Known() && r.State != Done && r.Left == 0 {
			faults.add(NotKnown, []string{a.Name}, say.Of("schedule.give-it-a-time-or-time-it"), say.Of("schedule.how-long-takes-is", say.Quoted(a.Name), e.why()))
		}
		middle[i] = a
		middle[i].Labour = estimates[i].Middle
	}
	if len(faults) > 0 {
		return nil, faults
	}
	n, faults := Plan(middle)
	if len(faults) > 0 {
		return nil, faults
	}
	order, faults := n.Order(cal, s)
	if len(faults) > 0 {
		return nil, faults
	}
	return order.outlook(activities, estimates, reports)
}

func (e Estimate) why() string {
	if e.Why == "" {
		return say.Of("schedule.not-known")
	}
	return e.Why
}

func (o *Order) outlook(activities []Activity, estimates []Estimate, reports map[string]Progress) (*Outlook, Faults) {
	out := &Outlook{Order: o}
	low, high := make([]stepTimes, len(o.Slots)), make([]stepTimes, len(o.Slots))
	for k, slot := range o.Slots {
		e, r := estimates[slot.Index], reports[slot.Name]
		wait := activities[slot.Index].Wait
		low[k], high[k] = stepTimes{min(leftOf(e.Low, r), slot.Labour), wait}, stepTimes{max(leftOf(e.High, r), slot.Labour), wait}
		if e.Basis == guessed {
			out.Guesses = append(out.Guesses, slot.Name)
		}
	}
	var fits [2]bool
	out.Low, fits[0] = o.finishIf(low)
	out.High, fits[1] = o.finishIf(high)
	if !fits[0] || !fits[1] {
		var faults Faults
		faults.add(BadTime, nil, say.Of("schedule.are-the-units-right"), say.Of("schedule.the-steps-at-their-slowest-add-up"))
		return nil, faults
	}
	out.LowHolds = o.Due.IsZero() || !out.Low.After(o.Due)
	out.HighHolds = o.Due.IsZero() || !out.High.After(o.Due)
	return out, nil
}
