package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A hostile workroom is the base workroom with something in it that nobody
// should have to read.
type hostile struct {
	make func(t *testing.T, dir string)
	want []string // what must be printed
}

// muchToRead are those that take long for their size.
var muchToRead = map[string]bool{"a bomb of anchors": true, "ten thousand slips": true, "brackets without end": true}

const skirtRecord = "content/builds/skirt/build.yaml"

// TestHostile: bombs, giants, links that lead away and text that is none are
// answered with a clear message, and nothing is written but the output.
func TestHostile(t *testing.T) {
	nothingBeside(t)
	t.Parallel()
	for name, h := range map[string]hostile{
		"a bomb of anchors": {func(t *testing.T, dir string) {
			var b strings.Builder
			b.WriteString("name: Bomb\ngarment: dress\nstate: planned\nwork:\n  a: {}\n  b: {after: &x [" + strings.Repeat("a, ", 1000) + "a]}\n")
			for i := range 1000 {
				fmt.Fprintf(&b, "  c%d: {after: *x}\n", i)
			}
			replace(t, dir, skirtRecord, b.String())
		}, []string{"unfolds into more than 200000 values"}},
		"ten thousand slips": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "private: x\n"+strings.Repeat("? [a]\n: b\n", 10_000))
		}, []string{"this group has 10020 words, and at most 2000 are read"}},
		"a bomb of merges": {func(t *testing.T, dir string) {
			var b strings.Builder
			b.WriteString("name: Bomb\ngarment: dress\nstate: planned\ncloth: &a {<<: *a}\n")
			replace(t, dir, skirtRecord, b.String())
		}, []string{"error"}},
		"a giant": {func(t *testing.T, dir string) {
			f, err := os.Create(filepath.Join(dir, "content/cloth/giant.yaml"))
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if err := f.Truncate(50 << 20); err != nil {
				t.Fatal(err)
			}
		}, []string{"this file is 50 MB; at most 4 MB is read"}},
		"a picture outside": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "picture: {file: ../../../../etc/passwd, alt: no}\n")
		}, []string{"leads out of the folder"}},
		"an absolute picture": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "picture: {file: /etc/passwd, alt: no}\n")
		}, []string{"is not a path inside the folder"}},
		"a link out of the workroom": {func(t *testing.T, dir string) {
			outside := filepath.Join(t.TempDir(), "secret.png")
			os.WriteFile(outside, []byte("\x89PNG\r\n\x1a\nsecret"), 0o666)
			if err := os.Symlink(outside, filepath.Join(dir, "content/builds/skirt/cut.png")); err != nil {
				t.Skip("no symbolic links here")
			}
			add(t, dir, skirtRecord, "picture: {file: cut.png, alt: no}\n")
		}, []string{"leads out of the workroom", "a link may not lead out of the workroom"}},
		"a record that is a link out": {func(t *testing.T, dir string) {
			outside := filepath.Join(t.TempDir(), "other.yaml")
			os.WriteFile(outside, []byte("name: Other\n"), 0o666)
			if err := os.Symlink(outside, filepath.Join(dir, "content/cloth/other.yaml")); err != nil {
				t.Skip("no symbolic links here")
			}
		}, []string{"content/cloth/other.yaml:1:1: error", "leads out of the workroom"}},
		"a picture that is not one": {func(t *testing.T, dir string) {
			write(t, dir, "content/builds/skirt/cut.jpg", "GIF89a nothing")
			add(t, dir, skirtRecord, "picture: {file: cut.jpg, alt: no}\n")
		}, []string{"it is a GIF"}},
		"a picture cut short": {func(t *testing.T, dir string) {
			write(t, dir, "content/builds/skirt/cut.jpg", "\xff\xd8\xff\xe0nothing more")
			add(t, dir, skirtRecord, "picture: {file: cut.jpg, alt: no}\n")
		}, []string{"cut.jpg"}},
		"bytes that are not text": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "summary: caf\xe9\n")
		}, []string{"a letter here is not saved as UTF-8", "open the file and save it as UTF-8"}},
		"a nul byte": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "summary: a\x00b\n")
		}, []string{"this file is damaged here, or it is no text"}},
		"two builds of one name": {func(t *testing.T, dir string) {
			write(t, dir, "content/builds/other/build.yaml", "name: Harvest Skirt\ngarment: skirt\nstate: planned\n")
		}, []string{`two garments are called "Harvest `}},
		"brackets without end": {func(t *testing.T, dir string) {
			add(t, dir, skirtRecord, "private: "+strings.Repeat("[", 20000)+"\n")
		}, []string{"error"}},
	} {
		t.Run(name, func(t *testing.T) {
			if testing.Short() && muchToRead[name] {
				t.Skip("a record of a size that only costs time, on one thread")
			}
			dir := t.TempDir()
			for _, f := range readArchive(t, filepath.Join(brokenDir, "base.txtar")).Files {
				write(t, dir, f.Name, string(f.Data))
			}
			h.make(t, dir)
			before := listing(t, dir)
			var out, errs bytes.Buffer
			code := run([]string{"press", "--room", dir, "--to", filepath.Join(dir, "pressed")}, &out, &errs)
			printed := out.String() + errs.String()
			if code != exitFaults {
				t.Errorf("exit status %d, want %d", code, exitFaults)
			}
			for _, w := range h.want {
				if !strings.Contains(printed, w) {
					t.Errorf("%q is not said in\n%.2000s", w, printed)
				}
			}
			if len(printed) > 200_000 {
				t.Errorf("%d bytes were printed", len(printed))
			}
			if after := listing(t, dir); after != before {
				t.Errorf("files before:\n%s\nafter:\n%s", before, after)
			}
		})
	}
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	if err := writeNew(filepath.Join(dir, filepath.FromSlash(name)), []byte(text)); err != nil {
		t.Fatal(err)
	}
}

func replace(t *testing.T, dir, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func add(t *testing.T, dir, name, text string) {
	t.Helper()
	old, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	replace(t, dir, name, string(old)+text)
}

// listing names every file below dir, caches apart.
func listing(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			t.Fatal(err)
		}
		if d.Name() == ".hembook" {
			return fs.SkipDir
		}
		fmt.Fprintln(&b, p)
		return nil
	})
	return b.String()
}
