//go:build unix

package main

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"golang.org/x/sys/unix"
	"gopkg.in/yaml.v3"
)

// benchRounds is how often a benchmark presses and how often it runs the floor.
const benchRounds = 5

// BenchmarkPress presses synthetic builds and reports the time beside a floor
// measured in the same run: a program that only decodes the same YAML,
// converts the same Markdown, executes one plain template and writes the same
// bytes, on as many cores. What writing costs varies fourfold with the state of
// the machine, so the two take turns, each into a fresh folder and after all
// that the other wrote has reached the disk, and what is reported of the clock
// and of the processors is the middle one of the rounds' ratios.
func BenchmarkPress(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprintf("builds=%d", n), func(b *testing.B) {
			if n > 1000 && testing.Short() {
				b.Skip("long")
			}
			dir := b.TempDir()
			writeSynthetic(b, dir, n)
			sizes := firstPress(b, dir)
			var rounds []benchRound
			for range b.N * benchRounds {
				rounds = append(rounds, pressRound(b, dir, n, sizes, len(rounds)))
			}
			reportRounds(b, rounds, n)
		})
	}
}

// BenchmarkFirstPress presses builds of which nothing is kept yet, the pictures
// that stand for pages elsewhere among it, in turns with a press that finds all
// of it kept, and reports the middle of each.
func BenchmarkFirstPress(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprintf("builds=%d", n), func(b *testing.B) {
			if n > 1000 && testing.Short() {
				b.Skip("long")
			}
			dir := b.TempDir()
			writeSynthetic(b, dir, n)
			to, kept := filepath.Join(dir, "ours"), filepath.Join(dir, ".hembook")
			press := func() cost {
				defer os.RemoveAll(to)
				return costOf(func() { pressOurs(b, dir, to) })
			}
			var rounds []benchRound
			for range b.N * benchRounds {
				if err := os.RemoveAll(kept); err != nil {
					b.Fatal(err)
				}
				first := press()
				rounds = append(rounds, benchRound{ours: first, floor: press()})
			}
			b.ReportMetric(middle(rounds, func(r benchRound) float64 { return r.ours.clock.Seconds() }), "first-s")
			b.ReportMetric(middle(rounds, func(r benchRound) float64 { return r.ours.cpu.Seconds() }), "first-cpu-s")
			b.ReportMetric(middle(rounds, func(r benchRound) float64 { return r.floor.cpu.Seconds() }), "again-cpu-s")
			b.ReportMetric(middle(rounds, func(r benchRound) float64 { return r.ours.cpu.Seconds() / r.floor.cpu.Seconds() }), "×again-cpu")
		})
	}
}

// A cost is what something took of the clock and of the processors.
type cost struct{ clock, cpu time.Duration }

// A benchRound is what we took, and what the other took that it is held against.
type benchRound struct{ ours, floor cost }

// firstPress presses once without a clock, and gives the sizes of the pages.
func firstPress(b *testing.B, dir string) map[string][]int {
	b.Helper()
	to := filepath.Join(dir, "first")
	pressOurs(b, dir, to)
	sizes := pageSizes(b, filepath.Join(to, "builds"))
	os.RemoveAll(to)
	return sizes
}

// pressRound does both, ours first in every other round.
func pressRound(b *testing.B, dir string, n int, sizes map[string][]int, round int) benchRound {
	b.Helper()
	var r benchRound
	ours := func() {
		to := filepath.Join(dir, "ours")
		r.ours = costOf(func() { pressOurs(b, dir, to) })
		os.RemoveAll(to)
	}
	floor := func() {
		to := filepath.Join(dir, "floor")
		r.floor = costOf(func() { pressFloor(b, dir, to, n, sizes) })
		os.RemoveAll(to)
	}
	if round%2 == 0 {
		ours()
		floor()
	} else {
		floor()
		ours()
	}
	return r
}

// pressOurs runs the program. What it says of the records goes to a file, as a
// maker's shell may send it.
func pressOurs(b *testing.B, dir, to string) {
	b.Helper()
	said, err := os.Create(filepath.Join(dir, "said.txt"))
	if err != nil {
		b.Fatal(err)
	}
	defer said.Close()
	if code := run([]string{"press", "--room", dir, "--to", to, "--lays", "none"}, io.Discard, said); code != exitFine {
		text, _ := os.ReadFile(said.Name())
		b.Fatalf("press: exit status %d\n%s", code, text)
	}
}

// costOf measures what do takes, from a clean heap and with nothing left to be
// written to the disk by what came before.
func costOf(do func()) cost {
	runtime.GC()
	unix.Sync()
	cpu, clock := cpuTime(), time.Now()
	do()
	return cost{time.Since(clock), cpuTime() - cpu}
}

// cpuTime is the processor time that this process has used.
func cpuTime() time.Duration {
	var u unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// middle is the middle one of a figure over the rounds.
func middle(rounds []benchRound, of func(benchRound) float64) float64 {
	var all []float64
	for _, r := range rounds {
		all = append(all, of(r))
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// reportRounds reports the middle of every figure over the rounds.
func reportRounds(b *testing.B, rounds []benchRound, n int) {
	each := func(d time.Duration) float64 { return float64(d.Microseconds()) / float64(n) }
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return each(r.ours.clock) }), "µs/build")
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return each(r.floor.clock) }), "floor-µs/build")
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return float64(r.ours.clock) / float64(r.floor.clock) }), "×floor")
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return each(r.ours.cpu) }), "cpu-µs/build")
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return each(r.floor.cpu) }), "floor-cpu-µs/build")
	b.ReportMetric(middle(rounds, func(r benchRound) float64 { return float64(r.ours.cpu) / float64(r.floor.cpu) }), "×floor-cpu")
	for i, r := range rounds {
		b.Logf("round %d: %.2f × the floor by the clock (%v, %v), %.2f by the processors (%v, %v)", i+1,
			float64(r.ours.clock)/float64(r.floor.clock), r.ours.clock.Round(time.Millisecond), r.floor.clock.Round(time.Millisecond),
			float64(r.ours.cpu)/float64(r.floor.cpu), r.ours.cpu.Round(time.Millisecond), r.floor.cpu.Round(time.Millisecond))
	}
}

// pageSizes lists, for every build, the sizes of the files that its pages took.
func pageSizes(b *testing.B, dir string) map[string][]int {
	b.Helper()
	out := map[string][]int{}
	filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			info, err := d.Info()
			if err != nil {
				b.Fatal(err)
			}
			rel, _ := filepath.Rel(dir, p)
			slug, _, _ := strings.Cut(strings.TrimSuffix(filepath.ToSlash(rel), ".html"), "/")
			out[slug] = append(out[slug], int(info.Size()))
		}
		return nil
	})
	if len(out) == 0 {
		b.Fatalf("no pages in %s", dir)
	}
	return out
}

var floorPage = template.Must(template.New("floor").Parse(`<!DOCTYPE html><title>{{.Name}}</title><h1>{{.Name}}</h1>{{.Notes}}<table>{{range .Pieces}}<tr><td>{{.}}</td></tr>{{end}}</table>`))

// pressFloor is the least that any such program must do.
func pressFloor(b *testing.B, dir, to string, n int, sizes map[string][]int) {
	b.Helper()
	if err := os.MkdirAll(to, 0o777); err != nil {
		b.Fatal(err)
	}
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Footnote, extension.DefinitionList, extension.Typographer))
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				if err := floorOne(md, dir, to, i, sizes); err != nil {
					b.Error(err)
				}
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

func floorOne(md goldmark.Markdown, dir, to string, i int, sizes map[string][]int) error {
	folder := filepath.Join(dir, "content", "builds", fmt.Sprintf("build-%05d", i))
	text, err := os.ReadFile(filepath.Join(folder, "build.yaml"))
	if err != nil {
		return err
	}
	var doc struct {
		Name   string
		Pieces map[string]any
		Rest   map[string]any `yaml:",inline"`
	}
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return err
	}
	notes, err := os.ReadFile(filepath.Join(folder, "notes.md"))
	if err != nil {
		return err
	}
	var html, page bytes.Buffer
	if err := md.Convert(notes, &html); err != nil {
		return err
	}
	pieces := slices.Sorted(maps.Keys(doc.Pieces))
	if err := floorPage.Execute(&page, map[string]any{"Name": doc.Name, "Notes": template.HTML(html.String()), "Pieces": pieces}); err != nil {
		return err
	}
	for k, size := range sizes[filepath.Base(folder)] {
		if pad := size - page.Len(); pad > 0 {
			page.Write(bytes.Repeat([]byte(" "), pad))
		}
		if err := os.WriteFile(filepath.Join(to, fmt.Sprintf("%05d-%d.html", i, k)), page.Bytes()[:size], 0o666); err != nil {
			return err
		}
	}
	return nil
}
