package main

import (
	"io"
	"os"
	"path/filepath"
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
	}{
		{"a cuff ten times too long", "rectangle: [300, 110]", "rectangle: [300, 1100]",
			[]string{"cuff"}, []string{"rectangle: [300, 1100]", "rectangle: [300, 110]"}},
		{"a word of a hem mistyped", "usual: {hem: {type: double-turned-hem, depth: 7}}", "usual: {hem: {type: double-turned-hem, depht: 7}}",
			[]string{"front", "back"}, []string{"depht: 7}}", "depth: 7}}"}},
		{"two left sleeves", "  sleeve:\n    cut: 2", "  sleeve:\n    cut: 2 alike",
			[]string{"sleeve"}, []string{"as it is: cut 2 in shell", "as it would be: cut 2, mirrored in shell"}},
		{"a time", "shoulders: 30 min", "shoulders: 5 h", nil, []string{"Every piece is drawn as before."}},
	} {
		t.Run(k.name, func(t *testing.T) {
			base := readArchive(t, filepath.Join(newcomerDir, "three-more.txtar"))
			slip := newSlip{title: k.name, file: "content/builds/shirt/build.yaml", old: k.old, now: k.now}
			dir := t.TempDir()
			for _, f := range slip.in(t, base).Files {
				if err := writeNew(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
					t.Fatal(err)
				}
			}
			opt := &options{room: dir, errs: io.Discard}
			found, err := checkOne(opt, "shirt")
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
