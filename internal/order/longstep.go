package order

import (
	"slices"
	"strconv"
	"time"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/words"
)

// How many times as long as others a step must be planned to be doubted, for each metre
// it sews; how many others that takes; and how much a step takes for itself beside what
// it sews, as metres (our own choice, no source).
const (
	longTimes    = 5
	longOthers   = 3
	metresBeside = 0.5
)

// Between how many times what was clocked a plan, or what was planned a clocking, is
// taken for a digit too many (our own choice, no source).
const (
	tenLeast = 7
	tenMost  = 15
)

// timeFaults warns of steps whose time has a digit too many: beside what was clocked for
// them, or beside what else the garment's steps take for what they sew.
func timeFaults(o *Order) []fault.Fault {
	var faults fault.Faults
	for i, s := range o.Steps {
		takes := s.Record.Takes
		if !takes.Given() || !plannedTooLong(o.Steps, i, &faults) {
			continue
		}
		now := takes.V / 10
		f := faults.LookAgain(takes.At, say.Of("order.did-you-mean-if-not-leave-it", timeWords(now)), say.Of("order.is-planned-for-far-more-than-the", strconv.Quote(fault.Shorten(s.Record.Do.V)), timeWords(takes.V)))
		f.InsteadAt(takes.At, "", timeWords(now))
	}
	return faults.Sorted()
}

// plannedTooLong reports whether a step is planned for far longer than others. What its
// own clock says against the plan is told here.
func plannedTooLong(steps []*Step, i int, faults *fault.Faults) bool {
	s := steps[i]
	plan := s.Record.Takes.V.Minutes()
	if spent := s.Spent.Value; s.State == Done && spent.Known() && len(s.entries) > 0 {
		tellClocked(s, plan, spent.Number, faults)
		return false
	}
	own, ok := s.perMetre(plan)
	if !ok {
		return false
	}
	var others []float64
	for k, other := range steps {
		took := other.Record.Takes.V.Minutes()
		if spent := other.Spent.Value; other.State == Done && spent.Known() {
			took = spent.Number
		}
		if rate, ok := other.perMetre(took); ok && k != i {
			others = append(others, rate)
		}
	}
	if len(others) < longOthers {
		return false
	}
	slices.Sort(others)
	middle := others[len(others)/2]
	return own > longTimes*middle && own > others[len(others)-1] && own/10 > others[0]/longTimes
}

// perMetre is how many minutes of a step are for each metre that it sews.
func (s *Step) perMetre(minutes float64) (rate float64, ok bool) {
	m := s.Metres.Value
	if s.Metres.ID == "" || !m.Known() || m.Number <= 0 || minutes <= 0 || s.Record.Pieces.Given() {
		return 0, false
	}
	return minutes / (m.In(measure.UnitM).Number + metresBeside), true
}

// tellClocked warns where what was clocked for a finished step is ten times what was
// planned, or a tenth.
func tellClocked(s *Step, plan, spent float64, faults *fault.Faults) {
	name := strconv.Quote(fault.Shorten(s.Record.Do.V))
	takes := s.Record.Takes
	switch {
	case spent > 0 && plan/spent >= tenLeast && plan/spent <= tenMost:
		faults.LookAgain(takes.At, say.Of("order.did-you-mean-if-not-leave-it", timeWords(takes.V/10)), say.Of("order.is-planned-for-and-was-finished-after", name, timeWords(takes.V), clocked(spent))).
			InsteadAt(takes.At, "", timeWords(takes.V/10))
	case len(s.entries) == 1 && s.entries[0].For.Given() && spent/plan >= tenLeast && spent/plan <= tenMost:
		took := s.entries[0].For
		faults.LookAgain(took.At, say.Of("order.did-you-mean-if-not-leave-it", timeWords(took.V/10)), say.Of("order.took-here-and-was-planned-for", name, timeWords(took.V), timeWords(takes.V))).
			InsteadAt(took.At, "", timeWords(took.V/10))
	}
}

func clocked(minutes float64) string { return timeWords(time.Duration(minutes * float64(time.Minute))) }

// timeWords is a time as a record has it: "1 h 20 min".
func timeWords(d time.Duration) string { return measure.Style{}.Duration(d) }

// Faults warns of what an order of work says that cannot be sewn so or hardly takes so
// long; tape prints lengths.
func Faults(g *garment.Garment, o *Order, tape words.Tape) []fault.Fault {
	return append(SewingFaults(g, o.Steps, tape), timeFaults(o)...)
}
