//go:build linux

package press

import (
	"path/filepath"
	"strconv"
	"testing"
)

// BenchmarkPress1000 presses a thousand builds of twelve pieces, ten seams and
// twenty steps from files to files, each time into a fresh folder. It reports
// processor time, because the clock also counts what else the machine does.
func BenchmarkPress1000(b *testing.B) {
	dir, out := room(b, many(1000)), b.TempDir()
	n := 0
	benchPress(b, 1000, func() (Report, error) {
		n++
		r, _, err := press(b, dir, filepath.Join(out, strconv.Itoa(n)))
		return r, err
	})
}

// BenchmarkPressAgain1000 presses the same thousand builds over themselves.
func BenchmarkPressAgain1000(b *testing.B) {
	dir, out := room(b, many(1000)), filepath.Join(b.TempDir(), "pressed")
	benchPress(b, 1000, func() (Report, error) {
		r, _, err := press(b, dir, out)
		return r, err
	})
}

func benchPress(b *testing.B, builds int, press func() (Report, error)) {
	begun := cpuTime(b)
	var last Report
	for b.Loop() {
		r, err := press()
		if err != nil {
			b.Fatal(err)
		}
		last = r
	}
	b.ReportMetric((cpuTime(b)-begun)/float64(b.N*builds), "cpu-ms/build")
	b.ReportMetric(float64(last.Bytes)/float64(builds), "bytes/build")
}
