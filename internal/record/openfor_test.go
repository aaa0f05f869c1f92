package record

import (
	"os"
	"path/filepath"
	"testing"
)

// TestOpenFor: of a workroom opened for one build that build alone is known, the same
// as in the whole; where no folder has the name all are, whatever the name is.
func TestOpenFor(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("content/workroom.yaml", "name: Room\nmaker: {name: Somebody}\n")
	write("content/builds/coat/build.yaml", "name: The coat\ngarment: coat\nstate: sewing\n")
	write("content/builds/skirt/build.yaml", "garment: skirt\nstate: sewing\n")
	write("content/builds/empty/notes.md", "no record\n")
	whole, _, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer whole.Close()
	for _, c := range []struct {
		slug  string
		known int
	}{{"coat", 1}, {"skirt", 1}, {"empty", 2}, {"The coat", 2}, {"", 2}, {".", 2}, {"..", 2}, {"coat/../skirt", 2}, {"../builds/coat", 2}, {"no\x00name", 2}} {
		r, _, err := OpenFor(dir, c.slug)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Builds) != c.known {
			t.Errorf("%q: %d builds are known, want %d", c.slug, len(r.Builds), c.known)
		}
		if c.known == 1 {
			want, _ := whole.BuildNamed(c.slug)
			if got, ok := r.BuildNamed(c.slug); !ok || got != want {
				t.Errorf("%q: %+v, want %+v", c.slug, got, want)
			}
		}
		r.Close()
	}
}
