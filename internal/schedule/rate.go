package schedule

import (
	"math"
	"slices"
	"time"
)

// An Observation is one time that was taken, and for how much: metres of seam,
// or pieces.
type Observation struct {
	Time   time.Duration
	Amount float64
}

// EnoughObservations is how many it takes before a rate is more than a story.
// Common practice, no source: quartiles of fewer are the values themselves.
const EnoughObservations = 3

// A Rate sums up observed times in minutes for one metre or one piece.
type Rate struct {
	N                                                 int
	Least, LowerQuartile, Median, UpperQuartile, Most float64
}

// NewRate sums up observations. Those without a positive, finite time and
// amount say nothing about a rate and are left out; their places in the list
// are given.
func NewRate(observations []Observation) (r Rate, leftOut []int) {
	var rates []float64
	for i, o := range observations {
		rate := o.Time.Minutes() / o.Amount
		if !(o.Time > 0 && o.Amount > 0 && rate > 0) || math.IsInf(rate, 0) || math.IsInf(o.Amount, 0) {
			leftOut = append(leftOut, i)
			continue
		}
		rates = append(rates, rate)
	}
	slices.Sort(rates)
	return Rate{
		N:             len(rates),
		Least:         Quantile(rates, 0),
		LowerQuartile: Quantile(rates, 0.25),
		Median:        Quantile(rates, 0.5),
		UpperQuartile: Quantile(rates, 0.75),
		Most:          Quantile(rates, 1),
	}, leftOut
}

// Known reports whether there are enough observations for an estimate.
func (r Rate) Known() bool { return r.N >= EnoughObservations }

// Quantile gives the value below which the share p of ascending values lies,
// by linear interpolation at position p(n-1) counted from 0: definition 7 of
// R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, 1996
// (from memory). It is 0 where there are no values; p beyond 0 and 1 counts as
// the nearer.
func Quantile(ascending []float64, p float64) float64 {
	n := len(ascending)
	if n == 0 {
		return 0
	}
	at := float64(p * float64(n-1))
	if !(at > 0) {
		return ascending[0]
	}
	if at >= float64(n-1) {
		return ascending[n-1]
	}
	low := int(at)
	part := at - float64(low)
	a, b := ascending[low], ascending[low+1]
	return min(a+float64(part*(b-a)), b) // rounding must not overshoot
}
