package schedule

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestQuantile(t *testing.T) {
	// Miles per gallon of 32 cars, Motor Trend 1974, as in R's data set mtcars;
	// quantile() prints 10.400 15.425 19.200 22.800 33.900: from memory.
	cars := []float64{
		21, 21, 22.8, 21.4, 18.7, 18.1, 14.3, 24.4, 22.8, 19.2, 17.8, 16.4, 17.3, 15.2, 10.4, 10.4, 14.7,
		32.4, 30.4, 33.9, 21.5, 15.5, 15.2, 13.3, 19.2, 27.3, 26, 30.4, 15.8, 19.7, 15, 21.4,
	}
	slices.Sort(cars)
	for _, test := range []struct {
		values []float64
		p      float64
		want   float64
	}{
		{cars, 0, 10.4},
		{cars, 0.25, 15.425},
		{cars, 0.5, 19.2},
		{cars, 0.75, 22.8},
		{cars, 1, 33.9},
		{[]float64{1, 2, 3, 4}, 0.25, 1.75}, // by hand: position 0.75
		{[]float64{1, 2, 3, 4}, 0.5, 2.5},
		{[]float64{10, 20, 40}, 0.75, 30},
		{[]float64{7}, 0.25, 7},
		{nil, 0.5, 0},
		{[]float64{1, 2}, -3, 1},
		{[]float64{1, 2}, 3, 2},
		{[]float64{1, 2}, math.NaN(), 1},
	} {
		if got := Quantile(test.values, test.p); !near(got, test.want, 1e-12) {
			t.Errorf("quantile %v of %v is %v, want %v", test.p, test.values, got, test.want)
		}
	}
}

func TestRate(t *testing.T) {
	min := time.Minute
	// 20, 10 and 16 minutes a metre.
	r, out := NewRate([]Observation{{40 * min, 2}, {10 * min, 0}, {30 * min, 3}, {-5 * min, 1}, {8 * min, 0.5}, {min, math.NaN()}, {min, math.Inf(1)}})
	if want := (Rate{N: 3, Least: 10, LowerQuartile: 13, Median: 16, UpperQuartile: 18, Most: 20}); r != want {
		t.Errorf("got %+v, want %+v", r, want)
	}
	if !slices.Equal(out, []int{1, 3, 5, 6}) {
		t.Errorf("left out %v", out)
	}
	want := Estimate{Basis: observed, N: 3, Low: 32*min + 30*time.Second, Middle: 40 * min, High: 45 * min}
	if got := r.Estimate(2.5); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestNotKnownYet(t *testing.T) {
	once := []Observation{{time.Minute, 1}}
	for n, want := range []string{"not known yet: nothing has been timed", "not known yet: timed once, and 3 are needed", "not known yet: timed twice, and 3 are needed", ""} {
		r, _ := NewRate(slices.Repeat(once, n))
		e := r.Estimate(1)
		if e.Why != want || e.Known() != (want == "") || e.N != n || r.Known() != e.Known() {
			t.Errorf("%d observations: %+v, want %q", n, e, want)
		}
	}
	r, _ := NewRate(slices.Repeat(once, 3))
	for _, amount := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if e := r.Estimate(amount); e.Known() || e.Why != "not known: the step has no length or number of pieces" {
			t.Errorf("%v metres: %+v", amount, e)
		}
	}
	if e := r.Estimate(1e300); e.Known() {
		t.Errorf("1e300 metres: %+v", e)
	}
}

func TestQuantilesKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, _ := NewRate(rapid.SliceOf(rapid.Custom(func(t *rapid.T) Observation {
			return Observation{time.Duration(rapid.Int64().Draw(t, "time")), rapid.Float64().Draw(t, "amount")}
		})).Draw(t, "observations"))
		if !(r.Least <= r.LowerQuartile && r.LowerQuartile <= r.Median && r.Median <= r.UpperQuartile && r.UpperQuartile <= r.Most) {
			t.Fatalf("%+v", r)
		}
		e := r.Estimate(rapid.Float64().Draw(t, "of"))
		if !(0 <= e.Low && e.Low <= e.Middle && e.Middle <= e.High && e.High <= longest) || e.Known() == (e.Why != "") {
			t.Fatalf("%+v", e)
		}
	})
}

// Cutting takes 2 h, 2½ h or 3 h; sewing is a guess of 4 h. From Monday 9:00
// that is over at 16:00, 16:30 or 17:00 with an hour's lunch.
func TestOutlook(t *testing.T) {
	list := []Activity{step("cut", 0, 0), step("sew", 0, 0, "cut"), step("press", 0, 0, "sew")}
	cut := Estimate{Basis: observed, N: 5, Low: 2 * time.Hour, Middle: 150 * time.Minute, High: 3 * time.Hour}
	s := Standing{Now: at("2026-08-03 09:00"), Due: at("2026-08-03"), Progress: []Progress{{Name: "press", State: Done}}}
	out, faults := NewOutlook(list, []Estimate{cut, Guess(4 * time.Hour), {}}, calendar(t, workWeek()), s)
	if faults != nil {
		t.Fatal(faults)
	}
	if moment(out.Low) != "Mon 2026-08-03 16:00" || moment(out.Order.Finish) != "Mon 2026-08-03 16:30" || moment(out.High) != "Mon 2026-08-03 17:00" {
		t.Errorf("%s, %s, %s", moment(out.Low), moment(out.Order.Finish), moment(out.High))
	}
	if !out.LowHolds || !out.HighHolds || !slices.Equal(out.Guesses, []string{"sew"}) {
		t.Errorf("%+v", out)
	}
	// With 2½ h spent on cutting nothing, or half an hour, is left of it; 8 h do not fit.
	s.Progress = append(s.Progress, Progress{Name: "cut", State: InHand, Spent: 150 * time.Minute})
	out, _ = NewOutlook(list, []Estimate{cut, Guess(7 * time.Hour), {}}, calendar(t, workWeek()), s)
	if moment(out.Low) != "Mon 2026-08-03 17:00" || moment(out.High) != "Tue 2026-08-04 09:30" || !out.LowHolds || out.HighHolds {
		t.Errorf("%s, %s: %+v", moment(out.Low), moment(out.High), out)
	}
	_, faults = NewOutlook(list, []Estimate{cut, Rate{N: 2}.Estimate(3), {}}, calendar(t, workWeek()), s)
	if want := `how long "sew" takes is not known yet: timed twice, and 3 are needed; give it a time, or time it`; faults.Error() != want || faults[0].Kind != NotKnown {
		t.Errorf("got %q, want %q", faults.Error(), want)
	}
	if _, faults = NewOutlook(list, nil, nil, s); len(faults) != 1 {
		t.Errorf("no estimates: %v", faults)
	}
}
