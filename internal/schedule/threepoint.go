package schedule

import "math"

// A ThreePoint is what someone expects of a time: at best, most likely and at
// worst, all in one unit of their choosing.
//
// Its formulas take the time to follow a beta distribution with a sixth of the
// range as its standard deviation, and the times of a path to be independent
// (Malcolm, Roseboom, Clark and Fazar, Application of a technique for research
// and development program evaluation, 1959; from memory). They flatter: the
// paths that are nearly critical are left out of account.
type ThreePoint struct{ Best, Likely, Worst float64 }

// Valid reports whether best ≤ likely ≤ worst, none of them less than nothing
// or without bound.
func (t ThreePoint) Valid() bool {
	return 0 <= t.Best && t.Best <= t.Likely && t.Likely <= t.Worst && !math.IsInf(t.Worst, 1)
}

// Mean is (best + 4 likely + worst) / 6.
func (t ThreePoint) Mean() float64 { return (t.Best + float64(4*t.Likely) + t.Worst) / 6 }

// Variance is ((worst - best) / 6)², in the unit squared.
func (t ThreePoint) Variance() float64 {
	s := (t.Worst - t.Best) / 6
	return s * s
}

// A Bell is a normal distribution of a time.
type Bell struct{ Mean, Variance float64 }

// AlongPath adds up means and variances of times that follow each other.
func AlongPath(path []ThreePoint) Bell {
	var b Bell
	for _, t := range path {
		b.Mean += t.Mean()
		b.Variance += t.Variance()
	}
	return b
}

// Chance is the probability that all is over by a time: the exact normal
// distribution, not a table with z rounded. Without variance it is 0 or 1.
func (b Bell) Chance(by float64) float64 {
	if b.Variance <= 0 {
		if by < b.Mean {
			return 0
		}
		return 1
	}
	return math.Erfc((b.Mean-by)/math.Sqrt(2*b.Variance)) / 2
}

// By is the time by which all is over with a probability between 0 and 1, both
// left out; outside of them it is not a number.
func (b Bell) By(chance float64) float64 {
	if !(chance > 0 && chance < 1) {
		return math.NaN()
	}
	if b.Variance <= 0 {
		return b.Mean
	}
	return b.Mean - float64(math.Sqrt(2*b.Variance)*math.Erfcinv(2*chance))
}
