//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// BenchmarkSaveToReload measures from a record's save to the moment an open
// page is told to reload, the wait for further events (8 ms) included, and the
// 95th percentile of it; that of what the processors did meanwhile, which does not ask
// how busy the machine is; and, over 20 saves, how what is live grows.
func BenchmarkSaveToReload(b *testing.B) {
	for _, n := range []int{1, 100, 1000, 3000, 10_000} {
		if n > 1000 && testing.Short() {
			b.Skip("long")
		}
		// A figure reaches one build's pages; a name every list, and the search.
		for what, edit := range map[string][2]string{"figure": {"takes: 10 min", "takes: %d min"}, "name": {"name: Build 00000", "name: Build nr %d"}} {
			b.Run(fmt.Sprintf("%s/builds=%d", what, n), func(b *testing.B) { saveToReload(b, n, edit[0], edit[1]) })
		}
	}
}

func saveToReload(b *testing.B, builds int, was, is string) {
	dir := b.TempDir()
	writeSynthetic(b, dir, builds)
	path := filepath.Join(dir, "content/builds/build-00000/build.yaml")
	good := syntheticBuild(0)
	if !bytes.Contains(good, []byte(was)) {
		b.Fatalf("no %q in the record", was)
	}
	s := showRoom(b, dir)
	next, end := s.listen()
	defer end()
	for strings.HasSuffix(next().Version, "-0") {
	}
	i := 0
	var took, worked []time.Duration
	var early uint64 // bytes live once everything was pressed a few times
	for b.Loop() {
		i++
		if i == 20 {
			early = liveBytes()
		}
		began, cpu := time.Now(), cpuTime()
		text := bytes.Replace(good, []byte(was), fmt.Appendf(nil, is, 10+i), 1)
		if err := os.WriteFile(path, text, 0o666); err != nil {
			b.Fatal(err)
		}
		if st := next(); st.Heading != "" {
			b.Fatal(st)
		}
		took, worked = append(took, time.Since(began)), append(worked, cpuTime()-cpu)
	}
	p95 := func(all []time.Duration) float64 {
		slices.Sort(all)
		return float64(all[(len(all)-1)*95/100].Microseconds()) / 1000
	}
	b.ReportMetric(p95(took), "p95-ms")
	b.ReportMetric(p95(worked), "p95-cpu-ms")
	if early > 0 {
		b.ReportMetric(float64(liveBytes())/float64(early), "live-at-end/early")
	}
	s.end()
}

// liveBytes is what is still in use once all else was collected.
func liveBytes() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
