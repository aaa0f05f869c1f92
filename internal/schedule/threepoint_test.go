package schedule

import (
	"math"
	"testing"
)

func TestThreePoint(t *testing.T) {
	tests := []struct {
		ThreePoint
		mean, variance float64
		source         string
	}{
		{ThreePoint{5, 8, 17}, 9, 4, "Taylor, Management Science ch. 8 example, read"},
		{ThreePoint{7, 10, 13}, 10, 1, "same"},
		{ThreePoint{3, 5, 7}, 5, 0.444, "same"},
		{ThreePoint{1, 3, 5}, 3, 0.444, "same"},
		{ThreePoint{4, 6, 8}, 6, 0.444, "same"},
		{ThreePoint{3, 3, 3}, 3, 0, "same"},
		{ThreePoint{3, 4, 5}, 4, 0.111, "same"},
		{ThreePoint{1, 2, 3}, 2, 0.111, "Heizer and Render, Milwaukee Paper, from memory: A"},
		{ThreePoint{2, 3, 4}, 3, 0.111, "same, B"},
		{ThreePoint{1, 2, 3}, 2, 0.111, "same, C"},
		{ThreePoint{2, 4, 6}, 4, 0.444, "same, D"},
		{ThreePoint{1, 4, 7}, 4, 1.000, "same, E"},
		{ThreePoint{1, 2, 9}, 3, 1.778, "same, F"},
		{ThreePoint{3, 4, 11}, 5, 1.778, "same, G"},
		{ThreePoint{1, 2, 3}, 2, 0.111, "same, H"},
	}
	for _, test := range tests {
		if !near(test.Mean(), test.mean, 1e-12) || !near(test.Variance(), test.variance, 0.0005) {
			t.Errorf("%v: mean %v, variance %v; want %v, %v (%s)", test.ThreePoint, test.Mean(), test.Variance(), test.mean, test.variance, test.source)
		}
	}
}

// Taylor's path 1-3-5-7 is 24 days with variance 5; the printed .9633 rounds z
// to 1.79, exactly it is .9632 (read).
func TestChanceOnTaylorsPath(t *testing.T) {
	b := Bell{24, 5}
	if got := b.Chance(28); !near(got, 0.9632, 0.00005) {
		t.Errorf("P(T <= 28) = %.6f, want 0.9632", got)
	}
}

// Heizer and Render, Milwaukee Paper (from memory): the path's variance is
// 3.111, P(T <= 16) 0.7146 exactly, and the 99 % date 19.10 weeks.
func TestChanceOnMilwaukeePaper(t *testing.T) {
	b := AlongPath([]ThreePoint{{1, 2, 3}, {1, 2, 3}, {1, 4, 7}, {3, 4, 11}, {1, 2, 3}})
	if b.Mean != 15 || !near(b.Variance, 3.111, 0.0005) || !near(math.Sqrt(b.Variance), 1.764, 0.0005) {
		t.Errorf("mean %v, variance %v", b.Mean, b.Variance)
	}
	if got := b.Chance(16); !near(got, 0.7146, 0.00005) {
		t.Errorf("P(T <= 16) = %.6f, want 0.7146", got)
	}
	if got := b.By(0.99); !near(got, 19.10, 0.005) {
		t.Errorf("99 %% date %.4f, want 19.10", got)
	}
}

func TestBellAtItsEdges(t *testing.T) {
	sure := Bell{Mean: 3}
	if sure.Chance(2.999) != 0 || sure.Chance(3) != 1 || sure.By(0.3) != 3 {
		t.Error("without variance the chance must go from 0 to 1 at the mean")
	}
	b := Bell{10, 4}
	if b.Chance(10) != 0.5 {
		t.Errorf("chance at the mean %v", b.Chance(10))
	}
	for _, p := range []float64{0, 1, -1, 2, math.NaN()} {
		if !math.IsNaN(b.By(p)) {
			t.Errorf("By(%v) = %v", p, b.By(p))
		}
	}
	for _, p := range []float64{1e-9, 0.01, 0.5, 0.9, 0.999} {
		if got := b.Chance(b.By(p)); !near(got, p, 1e-12) {
			t.Errorf("the chance by the %v date is %v", p, got)
		}
	}
	for _, bad := range []ThreePoint{{2, 1, 3}, {1, 4, 3}, {-1, 0, 1}, {math.NaN(), 1, 2}, {1, math.NaN(), 2}, {1, 2, math.NaN()}, {1, 2, math.Inf(1)}} {
		if bad.Valid() {
			t.Errorf("%v is said to be valid", bad)
		}
	}
}
