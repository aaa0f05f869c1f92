package record

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
)

// TestUnnamedPhotos: what the record, its pictures or the notes name is shown
// somewhere; the rest is warned of, and what is no photograph is not.
func TestUnnamedPhotos(t *testing.T) {
	for name, c := range map[string]struct {
		record, notes string
		want          []string // of those that lie there
	}{
		"in the journal":     {"journal:\n  - {at: 2025-03-01, photo: photos/a.jpg}\n  - {at: 2025-03-01, photo: {file: photos/b.PNG, alt: B}}\n", "", []string{"c d.webp"}},
		"as pictures":        {"picture: photos/a.jpg\npictures: [photos/b.PNG]\n", "", []string{"c d.webp"}},
		"written in escapes": {"picture: \"photos/\\x61.jpg\"\n", "", []string{"b.PNG", "c d.webp"}},
		"in the notes":       {"", "![it](photos/c%20d.webp)\n", []string{"a.jpg", "b.PNG"}},
		"in a remark":        {"# for later: photos/b.PNG\n", "", []string{"a.jpg", "c d.webp"}},
		"cannot be read":     {"journal: [a\n", "", nil},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			put := func(name, text string) {
				path := filepath.Join(dir, filepath.FromSlash(name))
				if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			put("content/workroom.yaml", "name: Room\n")
			put("content/builds/skirt/build.yaml", "name: Skirt\n"+c.record)
			if c.notes != "" {
				put("content/builds/skirt/notes.md", c.notes)
			}
			for _, photo := range []string{"a.jpg", "b.PNG", "c d.webp", ".photo.writing-ABC.jpg", "readme.txt"} {
				put("content/builds/skirt/photos/"+photo, "x")
			}
			room, _, err := Open(dir)
			if err != nil {
				t.Fatal(err)
			}
			defer room.Close()
			b, _ := room.ReadBuild(room.Builds[0])
			var got []string
			for _, f := range room.UnnamedPhotos(b) {
				if f.Severity != fault.Warning {
					t.Errorf("no warning: %s", f)
				}
				got = append(got, strings.TrimPrefix(f.At.File(), "content/builds/skirt/photos/"))
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
