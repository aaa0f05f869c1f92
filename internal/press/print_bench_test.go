//go:build linux

package press

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
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

// BenchmarkScale decodes, scales and encodes a photograph as a camera gives it and
// one as a maker who has made it smaller gives it, and says how that stands to
// decoding it alone.
func BenchmarkScale(b *testing.B) {
	for _, c := range []struct {
		wide, high, quality int
	}{{6000, 4000, 92}, {1600, 1200, 86}} {
		img := image.NewYCbCr(image.Rect(0, 0, c.wide, c.high), image.YCbCrSubsampleRatio420)
		for i := range img.Y {
			x, y := i%img.YStride, i/img.YStride
			img.Y[i] = byte(100 + (x*7+y*3)/50%60 + (x*x+y*y*5)%17) // slopes, edges, and a grain like noise
		}
		var data bytes.Buffer
		if err := jpeg.Encode(&data, img, &jpeg.Options{Quality: c.quality}); err != nil {
			b.Fatal(err)
		}
		for name, do := range map[string]func() error{
			"alone": func() error { _, err := jpeg.Decode(bytes.NewReader(data.Bytes())); return err },
			"whole": func() error { _, err := scale(data.Bytes()); return err },
		} {
			b.Run(fmt.Sprintf("%dx%d/%s", c.wide, c.high, name), func(b *testing.B) {
				for b.Loop() {
					if err := do(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
