package tracing

import (
	"bytes"
	"image/jpeg"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"hembook/internal/tabletop"
)

// BenchmarkTrace12Megapixels traces a photograph of 4000 × 3000 pixels, reading the JPEG
// included, and says the most memory it took.
func BenchmarkTrace12Megapixels(b *testing.B) {
	s, _ := tabletop.Random(2, 4000)
	data := s.Photograph()
	runtime.GC()
	var most atomic.Uint64
	done := make(chan struct{})
	go func() {
		for {
			select {
			case <-done:
				return
			case <-time.After(5 * time.Millisecond):
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				most.Store(max(most.Load(), m.HeapInuse))
			}
		}
	}()
	for b.Loop() {
		img, err := jpeg.Decode(bytes.NewReader(data))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Trace([]Picture{{"photograph", img}}, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	close(done)
	b.ReportMetric(float64(most.Load())/(1<<20), "MB-most")
}
