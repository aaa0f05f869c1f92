package derive

import (
	"math"
	"slices"
	"testing"
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/schedule"
)

// felled is a build of which one step felled so many pieces in so many minutes.
func felled(t testing.TB, d *desk, takes, pieces, minutes string, more string) *Garment {
	t.Helper()
	g, faults := d.derive(t, head+"work: {fell: {takes: "+takes+", pieces: "+pieces+", technique: felling}}\n"+
		"journal: [{at: 2026-08-05 10:00, did: fell, for: "+minutes+" min"+more+"}]\n")
	for _, f := range faults {
		t.Errorf("fault: %s", f)
	}
	return g
}

func rateRoom(t testing.TB) *desk {
	return roomWithHours(t).file("content/techniques/felling.md", "---\nname: Felling\nsummary: Sewn down by hand.\n---\n").desk()
}

func TestRatesByHand(t *testing.T) {
	// 5, 6, 8 and 10 minutes a piece: the median lies halfway between 6 and 8,
	// the quartiles three quarters of the way from 5 to 6 and half from 8 to 10.
	d := rateRoom(t)
	var r order.Rates
	r.Add(felled(t, d, "10 min", "2", "10", "").Order)
	r.Add(felled(t, d, "10 min", "1", "10", "").Order)
	if got := r.Of("felling"); len(got) != 1 || got[0].Known || text(got[0].Median.Value) != "? timed twice, and 3 are needed" {
		t.Fatalf("after two: %v", got)
	}
	r.Add(felled(t, d, "10 min", "5", "30", "").Order)
	r.Add(felled(t, d, "10 min", "3", "24", "").Order)
	r.Add(felled(t, d, "2 h", "5", "30", "").Order) // not finished: it tells nothing
	got := r.Of("felling")
	if len(got) != 1 || !got[0].Known {
		t.Fatalf("%v", got)
	}
	shows(t, map[string]string{"n": "4", "least": "5 min/piece", "lower": "5.75 min/piece", "median": "7 min/piece", "upper": "8.5 min/piece", "most": "10 min/piece"},
		map[string]figure.Value{"n": got[0].Count.Value, "least": got[0].Least.Value, "lower": got[0].Lower.Value, "median": got[0].Median.Value, "upper": got[0].Upper.Value, "most": got[0].Most.Value})
	if !slices.Equal(r.Techniques(), []string{"felling"}) {
		t.Error(r.Techniques())
	}

	// Four pieces to come: 23, 28 or 34 minutes.
	g, _ := d.derive(t, head+"begun: 2026-08-05\nwork: {fell: {pieces: 4, technique: felling}}\n")
	e := r.Estimate(g.Steps[0])
	if !e.Known || e.Guess || e.Low != 23*time.Minute || e.Middle != 28*time.Minute || e.High != 34*time.Minute {
		t.Errorf("%v", e)
	}
	if text(e.Figure.Value) != "28 min" || e.Figure.Working.Sum() != "7 min/piece × 4 = 28 min" {
		t.Errorf("%s: %s", text(e.Figure.Value), e.Figure.Working.Sum())
	}
	// One hour of the day is left before the pause at noon.
	look := d.tailor.Timing(g, order.Standing{Now: at("2026-08-05 11:30"), Rates: &r})
	shows(t, map[string]string{"finish": "2026-08-05 11:58", "low": "2026-08-05 11:53", "high": "2026-08-05 13:04"},
		map[string]figure.Value{"finish": look.Finish.Value, "low": look.FinishLow.Value, "high": look.FinishHigh.Value})
	if look.Guesses != 0 {
		t.Errorf("%d guesses", look.Guesses)
	}

	// A clock that has run for less than such steps take has not finished one.
	g, _ = d.derive(t, head+"begun: 2026-08-05\nwork: {fell: {pieces: 4, technique: felling}}\njournal: [{at: 2026-08-05 10:00, did: fell, for: 20 min}]\n")
	look = d.tailor.Timing(g, order.Standing{Now: at("2026-08-05 10:20"), Rates: &r})
	if s := look.Steps[0]; s.State != order.Begun || text(s.Left.Value) != "8 min" {
		t.Errorf("%s, %s left", s.State, text(s.Left.Value))
	}
}

func TestRatesAgreeWithTheScheduler(t *testing.T) {
	d := rateRoom(t)
	var r order.Rates
	for _, m := range []string{"31", "17", "44", "12", "29"} {
		r.Add(felled(t, d, "10 min", "3", m, "").Order)
	}
	one := r.Of("felling")[0]
	for i, f := range []figure.Figure{one.Lower, one.Median, one.Upper} {
		var rates []float64
		for _, o := range one.Observations {
			rates = append(rates, o.Rate.Value.Number)
		}
		slices.Sort(rates)
		if want := schedule.Quantile(rates, float64(i+1)/4); math.Abs(f.Value.Number-want) > 1e-9 {
			t.Errorf("quartile %d: %v, want %v", i+1, f.Value.Number, want)
		}
		if f.Value.Unit != measure.UnitMinPerPiece {
			t.Errorf("in %s", f.Value.Unit.Symbol())
		}
	}
}

func TestUnfinishedStepsHaveNoRate(t *testing.T) {
	d := rateRoom(t)
	g := felled(t, d, "2 h", "5", "30", "")
	if v := g.Steps[0].Rate.Value; v.Known() {
		t.Errorf("rate %s of a step that is not finished", text(v))
	}
	g = felled(t, d, "2 h", "5", "30", ", done: true")
	if v := g.Steps[0].Rate.Value; text(v) != "6 min/piece" {
		t.Errorf("rate %s of a step said to be done", text(v))
	}
}
