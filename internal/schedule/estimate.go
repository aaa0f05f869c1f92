package schedule

import (
	"math"
	"time"

	"hembook/internal/say"
)

// A Basis says what an estimate rests on.
type Basis int

// The bases of an estimate.
const (
	nothingKnown Basis = iota
	guessed            // what the maker wrote down: shown as a guess, without a range
	observed           // the maker's own rates
)

// An Estimate is how long a step is likely to take. Half of what was observed
// lies between Low and High; a guess has the same for all three.
type Estimate struct {
	Basis             Basis
	Low, Middle, High time.Duration // from the lower quartile, the median and the upper quartile
	N                 int           // observations it rests on
	Why               string        // why nothing is known; empty where something is
}

// Estimate gives the time of a step of so many metres or pieces.
func (r Rate) Estimate(amount float64) Estimate {
	none := Estimate{N: r.N}
	switch {
	case r.N == 0:
		none.Why = say.Of("schedule.not-known-yet-nothing-has-been-timed")
	case r.N < EnoughObservations:
		none.Why = say.Of("schedule.not-known-yet-timed-and-are-needed", times(r.N), EnoughObservations)
	case !(amount > 0) || math.IsInf(amount, 0):
		none.Why = say.Of("schedule.not-known-the-step-has-no-length")
	case !(r.UpperQuartile*amount < longest.Minutes()):
		none.Why = say.Of("schedule.not-known-at-this-rate-the-step")
	default:
		return Estimate{Basis: observed, N: r.N, Low: minutes(r.LowerQuartile * amount), Middle: minutes(r.Median * amount), High: minutes(r.UpperQuartile * amount)}
	}
	return none
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return "twice"
}

// minutes rounds to whole seconds: nothing finer was ever measured.
func minutes(m float64) time.Duration {
	return time.Duration(math.Round(m*60)) * time.Second
}

// Guess makes an estimate of a time the maker wrote down.
func Guess(t time.Duration) Estimate {
	if t < 0 {
		return Estimate{Why: say.Of("schedule.not-known-the-time-written-down-is")}
	}
	return Estimate{Basis: guessed, Low: t, Middle: t, High: t}
}

// Known reports whether there is a time.
func (e Estimate) Known() bool { return e.Basis != nothingKnown }
