//go:build linux

package press

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
)

// BenchmarkProof presses a thousand builds and reports how many times the
// processor time of all the rest the whole press takes, the middle one of five:
// both are measured in the same press, because two of them differ by more than
// the proof costs. There are twenty wearers, and costs and prices in every build.
func BenchmarkProof(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(800)) // as the program presses
	f := many(1000)
	for i := range 20 {
		f[fmt.Sprintf("content/wearers/wearer-%d.yaml", i)] = fmt.Sprintf("name: Person%d Somebody\naddress: Long Lane %d, Farborough\ncountry: Elsewhere\ncontact: p%d@post.example\nnote: Stands straight, and wants her pockets deep enough for a pair of shears.\ntaken: 2026-01-0%d\nbody: {bust: %d, waist: %d, hip: %d, height: 1%d9}\n",
			i, i, i, 1+i%9, 880+i*7, 700+i*7, 930+i*7, 50+i)
	}
	for name, text := range f {
		if strings.HasSuffix(name, "build.yaml") {
			f[name] = text + fmt.Sprintf("wearer: wearer-%d\ncosts: {post: %d.50 EUR, price: %d EUR}\nprivate: {note: paid in cash by her husband on a wet day}\n", len(text)%20, 5+len(text)%9, 300+len(text)%500)
		}
	}
	dir, out := room(b, f), b.TempDir()
	var ratios []float64
	for range b.N * 5 {
		to, proof := filepath.Join(out, "pressed"), 0.0
		runtime.GC()
		begun := cpuTime(b)
		_, faults, err := pressWith(b, dir, nil, Options{To: to, around: func(prove func() error) error {
			begun := cpuTime(b)
			defer func() { proof = cpuTime(b) - begun }()
			return prove()
		}})
		if err != nil {
			b.Fatal(err, faults[max(0, len(faults)-3):])
		}
		all := cpuTime(b) - begun
		ratios = append(ratios, all/(all-proof))
		b.Logf("%.0f ms, %.0f ms of it for the proof: %.3f", all, proof, all/(all-proof))
		if err := os.RemoveAll(to); err != nil {
			b.Fatal(err)
		}
	}
	slices.Sort(ratios)
	b.ReportMetric(ratios[len(ratios)/2], "×unproved-cpu")
}
