package notebook

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
)

// A Spread is how the observations of a rate lie.
type Spread struct {
	Technique Link
	Unit      measure.Unit
	Count     int
	Least     float64
	Lower     figure.Figure // lower quartile
	Median    figure.Figure
	Upper     figure.Figure // upper quartile
	Most      float64
	Known     bool // there are enough observations for an estimate
}

// spreads are the rates of one technique as its pages show them: for the
// metre, then for the piece, those that were observed.
func spreads(style measure.Style, technique Link, all []order.Observation) []Spread {
	rates := order.Rates{Style: style}
	rates.AddObserved(all...)
	var out []Spread
	for _, name := range rates.Techniques() {
		for _, r := range rates.Of(name) {
			s := Spread{
				Technique: technique, Unit: r.Unit, Count: r.Sum.N, Known: r.Known, Least: r.Sum.Least, Most: r.Sum.Most,
				Lower: r.Lower, Median: r.Median, Upper: r.Upper,
			}
			for _, f := range []*figure.Figure{&s.Lower, &s.Median, &s.Upper} {
				f.Of = technique.Name
			}
			out = append(out, s)
		}
	}
	return out
}
