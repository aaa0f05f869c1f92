package notebook

import (
	"cmp"
	"slices"
	"strconv"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// LeastObservations is how many clocked and measured steps a rate needs before
// it is shown: fewer say little about the next one (our own choice).
const LeastObservations = 3

// A Spread is how the observations of a rate lie.
type Spread struct {
	Technique Link
	Unit      measure.Unit
	Count     int
	Least     float64
	Lower     garment.Figure // lower quartile
	Median    garment.Figure
	Upper     garment.Figure // upper quartile
	Most      float64
	Known     bool // at least LeastObservations
}

// An observation is a rate with the build it comes from.
type observation struct {
	Rate
	from Link
}

// spread works out the quartiles of the observations of one unit.
func spread(technique Link, unit measure.Unit, all []observation) Spread {
	s := Spread{Technique: technique, Unit: unit, Count: len(all), Known: len(all) >= LeastObservations}
	sorted := slices.Clone(all)
	slices.SortStableFunc(sorted, func(a, b observation) int { return cmp.Compare(a.Value, b.Value) })
	if len(sorted) > 0 {
		s.Least, s.Most = sorted[0].Value, sorted[len(sorted)-1].Value
	}
	s.Lower = quartile(technique, unit, sorted, 1, "lower quartile")
	s.Median = quartile(technique, unit, sorted, 2, "median")
	s.Upper = quartile(technique, unit, sorted, 3, "upper quartile")
	return s
}

// mostInputs bounds how many observations a working lists one by one.
const mostInputs = 12

// quartile is the value that q quarters of the observations lie below,
// interpolated between its neighbours: definition 7 of Hyndman and Fan,
// "Sample quantiles in statistical packages", 1996 (from memory).
func quartile(technique Link, unit measure.Unit, sorted []observation, q int, title string) garment.Figure {
	f := garment.Figure{ID: "rate." + title, Title: title, Of: technique.Name}
	f.Value.Unit = unit
	f.Working.Source = trade.Source("R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, 1996, definition 7 (from memory)")
	n := len(sorted)
	if n < LeastObservations {
		f.Value.Why = "it takes " + strconv.Itoa(LeastObservations) + " clocked and measured steps, and there are " + countWords(n)
		f.Working.Source = "our own choice"
		return f
	}
	place := float64(n-1) * float64(q) / 4
	i := int(place)
	v := sorted[i].Value
	if i+1 < n {
		v += (place - float64(i)) * (sorted[i+1].Value - v)
	}
	f.Value.Number = v
	f.Working.Rule = title + " of all observations, interpolated"
	f.Working.Sum = "observation " + measure.Style{}.Number(place+1, 2) + " of " + strconv.Itoa(n) + " in order of size"
	if q == 2 {
		for k, o := range sorted {
			if k == mostInputs {
				break
			}
			f.Working.Inputs = append(f.Working.Inputs, garment.Input{
				Name: o.from.Name + ", " + o.Step, Value: measure.Style{}.PreciseQuantity(measure.Quantity{Number: o.Value, Unit: unit}),
			})
		}
	}
	return f
}

func countWords(n int) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return "one"
	case 2:
		return "two"
	}
	return strconv.Itoa(n)
}
