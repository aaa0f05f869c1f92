package main

import (
	"bytes"
	"cmp"
	"hembook/internal/document"
	"hembook/internal/garment"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A proposal is drawn as the piece is and as it would be, and nothing else is: the other
// pieces are as before. A word that no piece is drawn by is told so.
func TestProposalsAreDrawn(t *testing.T) {
	nothingBeside(t)
	for _, k := range []struct {
		name, old, now string
		heads          []string // of the pieces drawn
		says           []string
		file           string // the shirt's record where none is given
	}{
		{"a cuff ten times too long", "rectangle: [300, 110]", "rectangle: [300, 1100]",
			[]string{"cuff"}, []string{"rectangle: [300, 1100]", "rectangle: [300, 110]"}, ""},
		{"a word of a hem mistyped", "usual: {hem: {type: double-turned-hem, depth: 7}}", "usual: {hem: {type: double-turned-hem, depht: 7}}",
			[]string{"front", "back"}, []string{"depht: 7}}", "depth: 7}}"}, ""},
		{"two left sleeves", "  sleeve:\n    cut: 2", "  sleeve:\n    cut: 2 alike",
			[]string{"sleeve"}, []string{"as it is: cut 2 in shell", "as it would be: cut 2, mirrored in shell"}, ""},
		{"a time", "shoulders: 30 min", "shoulders: 5 h", nil, []string{"Every piece is drawn as before."}, ""},
		{"the usual allowance with a comma, which was read as meant", "usual: {allowance: 15,", "usual: {allowance: 12,5,",
			nil, []string{"allowance: 12,5", "allowance: 12.5", "Every piece of every garment is drawn as before."}, "content/workroom.yaml"},
		{"a cloth's width mistyped", "width: 145 cm", "widht: 145 cm",
			nil, []string{"widht: 145 cm", "width: 145 cm", "Every piece of every garment is drawn as before."}, "content/cloth/harbour-poplin.yaml"},
	} {
		t.Run(k.name, func(t *testing.T) {
			base := readArchive(t, filepath.Join(newcomerDir, "three-more.txtar"))
			slip := newSlip{title: k.name, file: cmp.Or(k.file, "content/builds/shirt/build.yaml"), old: k.old, now: k.now}
			dir := t.TempDir()
			for _, f := range slip.in(t, base).Files {
				if err := writeNew(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
					t.Fatal(err)
				}
			}
			opt := &options{room: dir, errs: io.Discard}
			found, err := checkAll(opt, &progress{})
			if err != nil {
				t.Fatal(err)
			}
			page := filepath.Join(dir, "proposed.html")
			if _, err := drawProposals(opt, found, page); err != nil {
				t.Fatal(err)
			}
			html, err := os.ReadFile(page)
			if err != nil {
				t.Fatal(err)
			}
			text := string(html)
			if got, want := strings.Count(text, "<svg"), 2*len(k.heads); got != want {
				t.Errorf("%d drawings, want %d", got, want)
			}
			for _, head := range k.heads {
				if !strings.Contains(text, ">"+head+"</h3>") {
					t.Errorf("%s is not drawn", head)
				}
			}
			for _, words := range k.says {
				if !strings.Contains(text, words) {
					t.Errorf("the page does not say %q", words)
				}
			}
		})
	}
}

// What the workroom has as usual changes pieces of its garments, which are drawn under the
// garment's name.
func TestElsewhereIsDrawn(t *testing.T) {
	dir := t.TempDir()
	base := readArchive(t, filepath.Join(newcomerDir, "three-more.txtar"))
	for _, f := range base.Files {
		if err := writeNew(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
			t.Fatal(err)
		}
	}
	room, _, err := (&options{room: dir, errs: io.Discard}).openRoom()
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	const file = "content/workroom.yaml"
	text, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil {
		t.Fatal(err)
	}
	p := proposer{room: room, style: room.Workroom.Style(), was: map[string][]*garment.Piece{}}
	d := &document.Draft{}
	p.everywhere(d, file, bytes.Replace(text, []byte("allowance: 15"), []byte("allowance: 20"), 1))
	var drawn []string
	for _, b := range d.Blocks {
		if h, ok := b.(document.Heading); ok {
			drawn = append(drawn, h.Words)
		}
	}
	want := []string{"front", "back", "neckband", "front", "back", "waistband", "front", "back", "yoke", "sleeve"}
	if !slices.Equal(drawn, want) {
		t.Errorf("drawn: %q, want %q; the shirt's cuff has an allowance of its own", drawn, want)
	}
}
