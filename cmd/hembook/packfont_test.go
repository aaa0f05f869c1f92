package main

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-fonts/liberation/liberationserifregular"

	"hembook/internal/paper"
)

// TestFontFor: of the fonts under some folders the one is taken that lacks fewest letters,
// also out of a collection; where each lacks all, none is.
func TestFontFor(t *testing.T) {
	dir := t.TempDir()
	put := func(name string, data []byte) {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	serif := liberationserifregular.TTF
	put("a/mincho.ttf", []byte("no font at all"))
	put("a/readme.txt", serif)
	if got := fontFor([]rune("Ж"), []string{dir, filepath.Join(dir, "nowhere")}); got != nil {
		t.Errorf("a font of %d bytes out of none", len(got))
	}
	put("b/deep/collection.ttc", collected(serif))
	got := fontFor([]rune("Ж手"), []string{dir})
	if n := paper.Lacks(got, []rune("Ж手")); n != 1 {
		t.Errorf("it lacks %d of two letters", n)
	}
	if got := fontFor([]rune("手"), []string{dir}); got != nil {
		t.Error("a font without a letter of those is taken")
	}
	for cut := range 400 { // a collection that ends anywhere is no font, and no panic
		paper.Lacks(collected(serif)[:cut], []rune("Ж"))
	}
}

// collected is a font as a collection of one: its tables lie further back by the header.
func collected(font []byte) []byte {
	const head = 16
	out := append([]byte("ttcf\x00\x01\x00\x00\x00\x00\x00\x01\x00\x00\x00\x10"), font...)
	for i := range int(binary.BigEndian.Uint16(font[4:])) {
		at := head + 12 + i*16 + 8
		binary.BigEndian.PutUint32(out[at:], binary.BigEndian.Uint32(out[at:])+head)
	}
	return out
}

// TestNoPDFOfEmptyBoxes: where no font has the letters of a sheet its page alone is
// written, and that is said; the workroom's own font is taken where it has them.
func TestNoPDFOfEmptyBoxes(t *testing.T) {
	t.Parallel()
	base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
	for i := range base.Files {
		f := &base.Files[i]
		f.Data = bytes.Replace(f.Data, []byte("wear: [Step in., "), []byte("wear: [Step in \U0001F9F5., "), 1)
	}
	dir := writtenOut(t, base)
	pack := func() string {
		var out, errs bytes.Buffer
		if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none", "--for", "wearer", "--to", filepath.Join(dir, "out")}, &out, &errs); code != exitFine {
			t.Fatal(code, errs.String())
		}
		return errs.String()
	}
	said := pack()
	if !strings.Contains(said, "no PDF of care-and-fit: no font here has the letters \U0001F9F5") {
		t.Error(said)
	}
	for name, want := range map[string]bool{"care-and-fit.html": true, "care-and-fit.pdf": false, "wearer.html": true, "wearer.pdf": false, "box.pdf": true} {
		if _, err := os.Stat(filepath.Join(dir, "out", name)); (err == nil) != want {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "content", "workroom.yaml"), []byte("name: Test\nmaker: {name: Ada Quill, contact: ada@quill.example, address: Mill Yard 2, country: Ireland}\nfont: nowhere.ttf\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if code := run([]string{"pack", "skirt", "--room", dir, "--lays", "none", "--for", "wearer", "--to", filepath.Join(dir, "out")}, &out, &errs); code == exitFine || !strings.Contains(errs.String(), "workroom.yaml:3:7: font: nowhere.ttf cannot be read") {
		t.Error(code, errs.String())
	}
}
