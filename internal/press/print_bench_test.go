//go:build linux

package press

import (
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/disk"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/themes"
)

// BenchmarkPrintBuild lays out and prints one build page, without reading the
// record, deriving its figures or writing the file.
func BenchmarkPrintBuild(b *testing.B) {
	r, _, err := record.Open(room(b, many(1)))
	if err != nil {
		b.Fatal(err)
	}
	defer r.Close()
	plain, _ := derive.NewTailor(r)
	tailor := cutting.NewCutter(b.Context(), r, plain, cutting.Options{Mode: cutting.None})
	theme, err := LoadTheme(themes.Plainweave(), nil)
	if err != nil {
		b.Fatal(err)
	}
	build, _ := r.ReadBuild(r.Builds[0])
	g := tailor.Cut(build)
	now, _ := g.Garment.LastMoment()
	timing := tailor.Timing(g.Garment, order.Standing{Now: now})
	out := &target{stage: &disk.Filling{Dir: b.TempDir()}, marks: list{}, dirs: map[string]bool{}, files: map[notebook.Address]bool{}}
	run := &pressing{room: r, tailor: tailor, theme: theme, book: notebook.New(r), out: out, before: &memo{}}
	run.pictures = newGallery(r, out, nil, 1, func() {})
	run.style = run.book.Style
	p := newPrinter(run)
	p.imprint, p.discard = newImprint(), true
	b.ReportAllocs()
	begun := cpuTime(b)
	for b.Loop() {
		if err := p.printBuild(run.book.Build(0, g, timing)); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric((cpuTime(b)-begun)/float64(b.N), "cpu-ms/page")
}
