package press

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/themes"
)

// A files is a workroom on paper: path → text.
type files map[string]string

// small is a workroom with one of everything.
func small() files {
	return files{
		"content/workroom.yaml": `name: Test room
summary: A room for tests.
maker: {name: Somebody}
show: mm and in
site: https://room.example/
terms:
  drop: {meaning: How far a hem has dropped., also: [hang]}
`,
		"content/cloth/rust-linen.yaml": `name: Rust linen
summary: It creases.
about: Cut it [one way](technique:plain-way).
swatch: "#a4512f"
fibres: {linen: 100}
weight: 200 g/m2
width: 140 cm
remnants:
  corner: {outline: [[0, 0], [400, 0], [0, 300]], note: from the apron}
care: {wash: 40, iron: "200"}
`,
		"content/techniques/plain-way.md": `---
name: Plain way
also: [simple way]
summary: Sewn once.
seam: plain
stage: sewing
---
See [](cloth:rust-linen), [](build:apron) and [hang](term:hang).

## Steps

1. Sew.[^a]

[^a]: Once.
`,
		"content/pages/about.md": "---\ntitle: About\n---\nHello.\n",
		"content/builds/apron/build.yaml": `name: Apron
summary: A plain apron.
garment: apron
state: sewing
begun: 2026-03-04
story: |
  Made of [](cloth:rust-linen), "quickly".

  ## Why

  Because.
cloth: {shell: rust-linen}
thread: {rust: rust}
pieces:
  skirt:
    rectangle: [600, 500]
  bib:
    cut: 1 on fold
    outline:
      from: [0, 0]
      bottom: {to: [150, 0], level: waist}
      side: {to: [100, 250], curve: [[150, 120], [100, 150]]}
      top: [0, 250]
      centre: {to: [0, 0], fold: true}
  band:
    rectangle: [600, 60]
seams:
  waist: {join: [band.top, skirt.top], type: plain, technique: plain-way}
finishes:
  hem: {of: skirt.bottom, type: double-turned-hem, depth: 15}
notions:
  buttons: {along: skirt.right, first: 100, last: 400, count: 5}
work:
  cut: {takes: 30 min, stage: cutting}
  sew: {sews: [waist], technique: plain-way, after: [cut], wait: 2 h}
fittings:
  - {day: 2026-03-05, saw: too long, change: {skirt.bottom: {move: -10, agreed: maker}}}
journal:
  - {at: 2026-03-05 10:00, did: cut, for: 25 min}
  - {at: 2026-03-06 10:00, did: sew, for: 20 min, note: "went **well**"}
`,
		"content/builds/apron/notes.md": "# Later\n\nA pocket.\n",
	}
}

// room writes the files to a folder.
func room(t testing.TB, f files) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range f {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// press presses a workroom and returns all faults.
func press(t testing.TB, dir, to string) (Report, []fault.Fault, error) {
	t.Helper()
	return pressWith(t, dir, nil, Options{To: to})
}

// pressWith presses with files of the workroom's own in the place of the
// theme's, nil for none.
func pressWith(t testing.TB, dir string, over fs.FS, opts Options) (Report, []fault.Fault, error) {
	t.Helper()
	r, faults, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	plain, more := derive.NewTailor(r)
	tailor := cutting.NewCutter(t.Context(), r, plain, cutting.Options{Mode: cutting.None})
	if all := append(faults, more...); fault.HasErrors(all) {
		t.Fatalf("the room has errors: %v", all)
	}
	theme, err := plainTheme()
	if over != nil {
		theme, err = LoadTheme(themes.Plainweave(), over)
	}
	if err != nil {
		t.Fatal(err)
	}
	return Press(context.Background(), r, tailor, theme, opts)
}

// plainTheme is the theme as it comes, read once.
var plainTheme = sync.OnceValues(func() (*Theme, error) { return LoadTheme(themes.Plainweave(), nil) })

// pressed presses a workroom that must be without errors and reads the result.
func pressed(t testing.TB, dir, to string) map[string]string {
	t.Helper()
	_, faults, err := press(t, dir, to)
	if err != nil {
		t.Fatalf("%v: %v", err, faults)
	}
	return tree(t, to)
}

// tree reads all files of a folder.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		out[filepath.ToSlash(rel)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// many is a workroom of n builds of twelve pieces, ten seams and twenty steps.
func many(n int) files {
	f := small()
	delete(f, "content/builds/apron/build.yaml")
	delete(f, "content/builds/apron/notes.md")
	f["content/techniques/plain-way.md"] = strings.Replace(f["content/techniques/plain-way.md"], "[](build:apron)", "more", 1)
	for i := range n {
		f[fmt.Sprintf("content/builds/build-%05d/build.yaml", i)] = bigBuild(i)
	}
	return f
}

func bigBuild(i int) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, "name: Dress number %d\nsummary: A dress for measuring by.\ngarment: dress\nstate: sewing\nbegun: 20%02d-%02d-%02d\n", i, 10+i%17, 1+i%12, 1+i%28)
	b.WriteString("story: |\n  A dress with a [seam](technique:plain-way), made in *one* go.\n\n  It took its time.\ncloth: {shell: rust-linen}\nthread: {rust: rust}\npieces:\n")
	for p := range 12 {
		if p%3 == 2 {
			fmt.Fprintf(&b, "  panel %d: {rectangle: [%d, 300]}\n", p, 200+p)
			continue
		}
		fmt.Fprintf(&b, `  part %d:
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: {to: [%d, 0], level: waist}
      side: [236, 208]
      armhole: {to: [198, 372], curve: [[196, 236], [190, 320]]}
      shoulder: [92, 408]
      centre: [0, 408]
      fold: {to: [0, 0], fold: true}
`, p, 172+i%7)
	}
	b.WriteString("seams:\n")
	pairs := []string{
		"part 0.side, part 1.side", "part 0.shoulder, part 1.shoulder", "part 3.side, part 4.side", "part 3.shoulder, part 4.shoulder",
		"part 6.side, part 7.side", "part 6.shoulder, part 7.shoulder", "part 9.side, part 10.side", "part 9.shoulder, part 10.shoulder",
		"part 0.armhole, part 1.armhole", "part 3.armhole, part 4.armhole",
	}
	for s, join := range pairs {
		typ := []string{"plain", "french"}[s%2]
		fmt.Fprintf(&b, "  seam %d: {join: [%s], type: %s, technique: plain-way}\n", s, join, typ)
	}
	b.WriteString("work:\n")
	for s := range 20 {
		fmt.Fprintf(&b, "  step number %d: {takes: 30 min, stage: sewing", s)
		if s < 10 {
			fmt.Fprintf(&b, ", sews: [seam %d], technique: plain-way", s)
		}
		if s > 0 {
			fmt.Fprintf(&b, ", after: [step number %d]", s-1)
		}
		b.WriteString("}\n")
	}
	b.WriteString("journal:\n")
	for s := range 20 {
		fmt.Fprintf(&b, "  - {at: 2026-03-%02d 10:00, did: step number %d, for: %d min}\n", 1+s, s, 20+(s+i)%9)
	}
	return b.String()
}
