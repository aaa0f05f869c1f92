package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

var (
	synthTo     = flag.String("synthetic", "", "write a synthetic workroom to this folder (with -builds) and do nothing else")
	synthBuilds = flag.Int("builds", 1000, "how many builds -synthetic writes")
)

// TestWriteSynthetic writes the workroom of the benchmarks to a folder, so
// that the real program can be measured on it from outside.
func TestWriteSynthetic(t *testing.T) {
	if *synthTo == "" {
		t.Skip("only with -synthetic FOLDER")
	}
	writeSynthetic(t, *synthTo, *synthBuilds)
}

// writeSynthetic writes a workroom of n builds: 12 pieces, 10 seams, 20 steps
// and about 3 KB each, every one with other numbers, no photographs.
func writeSynthetic(t testing.TB, dir string, n int) {
	t.Helper()
	put := func(name string, text []byte) {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	put("content/workroom.yaml", []byte("name: Synthetic workroom\nsite: https://synthetic.example/\nunits: mm\nlabour: 20 EUR\ncurrency: EUR\n"))
	for i, fibre := range []string{"linen", "cotton", "silk"} {
		put(fmt.Sprintf("content/cloth/cloth-%d.yaml", i), fmt.Appendf(nil, "name: Cloth %d\nfibres: {%s: 100}\nwidth: 140 cm\nweight: %d g/m2\nprice: 1%d EUR\nshrink: 3\n", i, fibre, 120+i*60, i))
	}
	for i := range 8 {
		put(fmt.Sprintf("content/techniques/technique-%d.md", i), fmt.Appendf(nil, "---\nname: Technique %d\nsummary: The way number %d.\nseam: plain\n---\nPress it. See [](technique:technique-%d).\n", i, i, (i+1)%8))
	}
	for i := range n {
		put(fmt.Sprintf("content/builds/build-%05d/build.yaml", i), syntheticBuild(i))
		put(fmt.Sprintf("content/builds/build-%05d/notes.md", i), fmt.Appendf(nil, "It was made with a [](technique:technique-%d) in [](cloth:cloth-%d).\n\n- pressed *twice*\n- hung for a day\n", i%8, i%3))
	}
}

// syntheticBuild is one record; i changes its lengths, cloths and times.
func syntheticBuild(i int) []byte {
	var b bytes.Buffer
	w := 180 + i%37
	h := 500 + i%211
	fmt.Fprintf(&b, "name: Build %05d\ngarment: dress\nfor: woman\nstate: sewing\nbegun: 2026-%02d-%02d\ncloth:\n  shell: cloth-%d\n  lining: cloth-%d\nthread: {main: rust}\npieces:\n", i, 1+i%12, 1+i%28, i%3, (i+1)%3)
	for p := range 12 {
		of := "shell"
		if p >= 8 {
			of = "lining"
		}
		if p%3 == 2 {
			fmt.Fprintf(&b, "  p%d: {of: %s, cut: 2, rectangle: [%d, %d]}\n", p, of, w+p, h)
			continue
		}
		fmt.Fprintf(&b, "  p%d: {of: %s, cut: 2, outline: {from: [0, 0], bottom: [%d, 0], right: [%d, %d], top: {to: [0, %d], curve: [[%d, %d], [%d, %d]]}, left: [0, 0]}}\n",
			p, of, w, w, h, h, w*2/3, h+20, w/3, h+20)
	}
	b.WriteString("seams:\n")
	for s := range 10 {
		a, c := s, s+1
		fmt.Fprintf(&b, "  s%d: {join: [p%d.right, p%d.left], type: %s, thread: main, technique: technique-%d}\n", s, a, c, []string{"plain", "french", "flat-felled"}[s%3], (i+s)%8)
	}
	b.WriteString("finishes:\n  hem: {of: [p0.bottom, p1.bottom], type: double-turned-hem, depth: 20}\nwork:\n")
	for s := range 20 {
		line := "  w" + strconv.Itoa(s) + ": {takes: " + strconv.Itoa(10+s) + " min"
		if s < 10 {
			line += ", sews: s" + strconv.Itoa(s)
		}
		if s > 0 {
			line += ", after: w" + strconv.Itoa(s-1)
		}
		b.WriteString(line + "}\n")
	}
	b.WriteString("journal:\n")
	for s := range 5 {
		fmt.Fprintf(&b, "  - {at: 2026-09-%02d 14:10, did: w%d, for: %d min}\n", s+1, s, 20+(i+s)%30)
	}
	return b.Bytes()
}
