package schedule

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"
)

// benchJob is like a garment's work: each step comes after one or two of the
// last few, and every eighth leaves something to hang.
func benchJob(steps int) []Activity {
	rng := rand.New(rand.NewPCG(1, 2))
	list := make([]Activity, steps)
	for i := range list {
		list[i] = Activity{Name: fmt.Sprintf("step %d", i), Labour: time.Duration(10+rng.IntN(110)) * time.Minute}
		if i%8 == 3 {
			list[i].Wait = 24 * time.Hour
		}
		for range min(i, 2) {
			list[i].After = append(list[i].After, list[max(0, i-1-rng.IntN(12))].Name)
		}
	}
	return list
}

func benchCalendar(b *testing.B) *Calendar {
	var off []string
	for y := 2026; y < 2040; y++ {
		for _, d := range []string{"01-01", "12-24", "12-25", "12-26", "12-31"} {
			off = append(off, fmt.Sprintf("%d-%s", y, d))
		}
	}
	return calendar(b, workWeek(), off...)
}

var benchSteps = []int{20, 200, 5000}

func BenchmarkPlan(b *testing.B) {
	for _, steps := range benchSteps {
		list := benchJob(steps)
		b.Run(fmt.Sprint(steps), func(b *testing.B) {
			for b.Loop() {
				Plan(list)
			}
		})
	}
}

func BenchmarkOrder(b *testing.B) {
	for _, steps := range benchSteps {
		n, c := plan(b, benchJob(steps)...), benchCalendar(b)
		b.Run(fmt.Sprint(steps), func(b *testing.B) {
			var o *Order
			for b.Loop() {
				o = order(b, n, c, Standing{Now: at("2026-08-03 09:00"), Due: at("2026-12-01")})
			}
			proved := 0.0
			if o.Shortest {
				proved = 1
			}
			b.ReportMetric(proved, "proved")
		})
	}
}

// The hardest case for its size: many short steps and waits with few needs,
// where the tries are used up.
func BenchmarkOrderUnproved(b *testing.B) {
	c := benchCalendar(b)
	for seed := uint64(0); ; seed++ {
		n := plan(b, randomJob(rand.New(rand.NewPCG(seed, 9)), 20)...)
		if o := order(b, n, c, Standing{Now: at("2026-08-03 09:00")}); o.Shortest {
			continue
		}
		for b.Loop() {
			order(b, n, c, Standing{Now: at("2026-08-03 09:00")})
		}
		return
	}
}
