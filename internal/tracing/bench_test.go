//go:build unix

package tracing

import (
	"bytes"
	"image/jpeg"
	"testing"

	"golang.org/x/sys/unix"

	"hembook/internal/tabletop"
)

// BenchmarkTrace12Megapixels traces a photograph of 4000 × 3000 pixels, reading the JPEG
// included, and says the most memory the program has taken until then.
func BenchmarkTrace12Megapixels(b *testing.B) {
	s, _ := tabletop.Random(2, 4000)
	data := s.Photograph()
	for b.Loop() {
		img, err := jpeg.Decode(bytes.NewReader(data))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Trace([]Picture{{"photograph", img}}, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	var used unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(used.Maxrss)/(1<<10), "MB-most")
}
