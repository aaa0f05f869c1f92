package schedule

import (
	"fmt"
	"math"
	"time"
)

// A Basis says what an estimate rests on.
type Basis int

// The bases of an estimate.
const (
	NothingKnown Basis = iota
	Guessed            // what the maker wrote down: shown as a guess, without a range
	Observed           // the maker's own rates
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
		none.Why = "not known yet: nothing has been timed"
	case r.N < EnoughObservations:
		none.Why = fmt.Sprintf("not known yet: timed %s, and %d are needed", times(r.N), EnoughObservations)
	case !(amount > 0) || math.IsInf(amount, 0):
		none.Why = "not known: the step has no length or number of pieces"
	case !(r.UpperQuartile*amount < Longest.Minutes()):
		none.Why = "not known: at this rate the step would take more than 20 years"
	default:
		return Estimate{Basis: Observed, N: r.N, Low: minutes(r.LowerQuartile * amount), Middle: minutes(r.Median * amount), High: minutes(r.UpperQuartile * amount)}
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
		return Estimate{Why: "not known: the time written down is less than nothing"}
	}
	return Estimate{Basis: Guessed, Low: t, Middle: t, High: t}
}

// Known reports whether there is a time.
func (e Estimate) Known() bool { return e.Basis != NothingKnown }

// FirstKnown gives the first estimate with a time, so that callers list them
// in the order they trust them. Where there is none it is the first of all.
func FirstKnown(estimates ...Estimate) Estimate {
	for _, e := range estimates {
		if e.Known() {
			return e
		}
	}
	if len(estimates) == 0 {
		return Estimate{Why: "not known: there is nothing to go by"}
	}
	return estimates[0]
}

// A Sum is the labour of several steps together.
type Sum struct {
	// Low, Middle and High are the sums of the steps' own: as if all went well,
	// or all badly, together. The range is wider than half of all outcomes.
	Low, Middle, High time.Duration
	// LikelyLow and LikelyHigh take the steps to be independent, so that good
	// and bad partly cancel out: the distances of the quartiles from the median
	// are added as the sides of a right triangle are. An approximation.
	LikelyLow, LikelyHigh time.Duration
	Guesses               int   // how many are the maker's guesses and add no range
	Unknown               []int // which are not known, and are missing from the sums
}

// Together adds up estimates. Sums beyond Longest stop there.
func Together(estimates []Estimate) Sum {
	var s Sum
	var below, above float64
	for i, e := range estimates {
		if !e.Known() {
			s.Unknown = append(s.Unknown, i)
			continue
		}
		if e.Basis == Guessed {
			s.Guesses++
		}
		s.Low, s.Middle, s.High = addTime(s.Low, e.Low), addTime(s.Middle, e.Middle), addTime(s.High, e.High)
		down, up := float64(e.Middle-e.Low), float64(e.High-e.Middle)
		below += float64(down * down)
		above += float64(up * up)
	}
	s.LikelyLow = max(s.Middle-rooted(below), s.Low)
	s.LikelyHigh = min(s.Middle+rooted(above), s.High)
	return s
}

func addTime(a, b time.Duration) time.Duration {
	return min(a+min(max(b, 0), Longest), Longest)
}

// rooted gives a square root as a time in whole seconds.
func rooted(x float64) time.Duration {
	return time.Duration(math.Round(min(math.Sqrt(x), float64(Longest))/float64(time.Second))) * time.Second
}
