package notebook

import (
	"strconv"
	"strings"
	"testing"

	"hembook/internal/measure"
	"hembook/internal/order"
)

// observed are steps of 1 m that took so many minutes.
func observed(values ...float64) []order.Observation {
	var out []order.Observation
	for i, v := range values {
		o := order.Observation{Technique: "x", Build: "A", Step: "sew " + strconv.Itoa(i), Amount: 1, Minutes: v}
		o.Rate.ID, o.Rate.Value.Number, o.Rate.Value.Unit = "step.sew.rate", v, measure.UnitMinPerM
		out = append(out, o)
	}
	return out
}

// TestSpread: five observations 1 2 3 4 5 have quartiles 2, 3, 4; four
// observations 10 20 30 40 have 17.5, 25, 32.5 by the rule of place (n−1)p
// (definition 7 of Hyndman and Fan, 1996, from memory; by hand).
func TestSpread(t *testing.T) {
	for _, c := range []struct {
		values               []float64
		lower, median, upper float64
		least, most          float64
	}{
		{[]float64{5, 3, 1, 4, 2}, 2, 3, 4, 1, 5},
		{[]float64{40, 10, 30, 20}, 17.5, 25, 32.5, 10, 40},
		{[]float64{7, 7, 7}, 7, 7, 7, 7, 7},
	} {
		s := spreads(measure.Style{}, Link{Name: "x"}, observed(c.values...))[0]
		if !s.Known || s.Lower.Value.Number != c.lower || s.Median.Value.Number != c.median || s.Upper.Value.Number != c.upper || s.Least != c.least || s.Most != c.most {
			t.Errorf("%v: got %v %v %v, %v to %v", c.values, s.Lower.Value.Number, s.Median.Value.Number, s.Upper.Value.Number, s.Least, s.Most)
		}
		if len(s.Median.Working.Inputs()) != len(c.values) || s.Median.Working.Source == "" {
			t.Errorf("%v: the median's working names %d of them", c.values, len(s.Median.Working.Inputs()))
		}
	}
}

func TestTooFewToKnow(t *testing.T) {
	for n := range order.EnoughObservations {
		if n == 0 {
			if s := spreads(measure.Style{}, Link{Name: "x"}, nil); len(s) > 0 {
				t.Errorf("nothing was observed: %+v", s)
			}
			continue
		}
		s := spreads(measure.Style{}, Link{Name: "x"}, observed(1, 2, 3)[:n])[0]
		if s.Known || s.Median.Value.Known() || !strings.Contains(s.Median.Value.Why, []string{"", "once", "twice"}[n]) {
			t.Errorf("%d observations: %+v", n, s.Median.Value)
		}
	}
}
