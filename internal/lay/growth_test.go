//go:build unix

package lay_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"syscall"
	"testing"

	"hembook/internal/lay"
)

// mix is so many pieces of one invented mix: a dozen outlines of a wardrobe's
// sizes, from cuffs to long panels, straight and curved, in turn.
func mix(count int) []lay.Piece {
	rng := rand.New(rand.NewPCG(12, 5))
	kinds := make([]lay.Piece, 12)
	for i := range kinds {
		long, wide := 120+rng.Float64()*600, 80+rng.Float64()*260
		narrow, bow := wide*(0.5+0.5*rng.Float64()), wide*0.25*rng.Float64()
		pts := []lay.Point{{}, {X: long, Y: (wide - narrow) / 2}}
		for k := 1; k < 8; k++ { // the far end is hollowed by a curve
			t := float64(k) / 8
			pts = append(pts, lay.Point{X: long - bow*math.Sin(math.Pi*t), Y: (wide-narrow)/2 + narrow*t})
		}
		pts = append(pts, lay.Point{X: long, Y: (wide + narrow) / 2}, lay.Point{Y: wide})
		kinds[i] = lay.Piece{Name: fmt.Sprint("kind ", i+1), Outline: pts}
	}
	for k := range count {
		kinds[k%len(kinds)].Quantity++
	}
	return kinds
}

func cpuSeconds() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return math.NaN()
	}
	return float64(u.Utime.Sec+u.Stime.Sec) + float64(u.Utime.Usec+u.Stime.Usec)/1e6
}

// aMinute is about the work of a minute on two quiet cores.
const aMinute = 800_000_000

// BenchmarkGrowth finds the least work, doubling, that comes within 3 % of
// what a minute finds: run it with -benchtime 1x. It prints the places tried
// and the processor's seconds, which other programs running beside it change
// little.
func BenchmarkGrowth(b *testing.B) {
	for _, count := range []int{25, 50, 100, 200, 400} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			p := lay.Problem{Cloth: lay.Cloth{Width: 1400}, Pieces: mix(count)}
			run := func(work, cores int) (length, cpu float64, places int) {
				begun := cpuSeconds()
				plan, err := lay.Make(context.Background(), p, lay.Options{Tries: work, Seed: 1, Cores: cores})
				if err != nil {
					b.Fatal(err)
				}
				return plan.Length, cpuSeconds() - begun, plan.Tried
			}
			for range b.N {
				long, _, _ := run(aMinute, 2)
				for work := 500 * count; work < aMinute; work *= 2 {
					length, cpu, places := run(work, 1)
					if length <= 1.03*long {
						b.ReportMetric(float64(places), "places")
						b.ReportMetric(cpu, "cpu-s")
						b.ReportMetric(100*(length/long-1), "%longer")
						break
					}
				}
			}
		})
	}
}
