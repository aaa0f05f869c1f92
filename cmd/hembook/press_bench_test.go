package main

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"gopkg.in/yaml.v3"
)

// BenchmarkPress presses synthetic builds and reports the time beside a floor
// measured in the same run: a program that only decodes the same YAML,
// converts the same Markdown, executes one plain template and writes the same
// bytes, on as many cores.
func BenchmarkPress(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprintf("builds=%d", n), func(b *testing.B) {
			if n > 1000 && testing.Short() {
				b.Skip("long")
			}
			dir := b.TempDir()
			writeSynthetic(b, dir, n)
			var ours, floor time.Duration
			for i := range b.N {
				to := filepath.Join(dir, fmt.Sprintf("pressed%d", i))
				begun := time.Now()
				if code := run([]string{"press", "--room", dir, "--to", to, "--lays", "none"}, io.Discard, os.Stderr); code != exitFine {
					b.Fatalf("press: exit status %d", code)
				}
				ours += time.Since(begun)
				sizes := pageSizes(b, filepath.Join(to, "builds"))
				runtime.GC()
				begun = time.Now()
				pressFloor(b, dir, filepath.Join(dir, fmt.Sprintf("floor%d", i)), n, sizes)
				floor += time.Since(begun)
				os.RemoveAll(to)
			}
			b.ReportMetric(float64(ours.Microseconds())/float64(b.N*n), "µs/build")
			b.ReportMetric(float64(floor.Microseconds())/float64(b.N*n), "floor-µs/build")
			b.ReportMetric(float64(ours)/float64(floor), "×floor")
		})
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
		Pieces []map[string]any
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
	pieces := make([]string, len(doc.Pieces))
	for i, p := range doc.Pieces {
		pieces[i] = fmt.Sprint(p["name"])
	}
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
