package garment

import (
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/record"
)

// A testRoom is a workroom written to a folder of the test's own.
type testRoom struct {
	t     testing.TB
	files map[string]string
}

// roomWith begins a workroom with a cloth called linen; more files may follow.
func roomWith(t testing.TB) *testRoom {
	return &testRoom{t, map[string]string{
		"content/workroom.yaml":    "name: Test workroom\n",
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nmass: 200 g/m2\nwidth: 1400\nselvedge: 10\n",
	}}
}

func (r *testRoom) file(name, text string) *testRoom { r.files[name] = text; return r }

// open writes the files and opens the room.
func (r *testRoom) open() (*Tailor, *record.Room, []record.Fault) {
	r.t.Helper()
	dir := r.t.TempDir()
	for name, text := range r.files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			r.t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			r.t.Fatal(err)
		}
	}
	room, faults, err := record.Open(dir)
	if err != nil {
		r.t.Fatal(err)
	}
	r.t.Cleanup(func() { room.Close() })
	tailor, more := NewTailor(room)
	return tailor, room, append(faults, more...)
}

const head = "name: Test\ngarment: dress\nstate: sewing\n"

// derive reads one build and derives it. The reader's faults are returned
// apart from those of the figures.
func (r *testRoom) derive(build string) (*Garment, []record.Fault) {
	r.t.Helper()
	r.file("content/builds/test/build.yaml", head+build)
	tailor, room, _ := r.open()
	bf, _ := room.BuildNamed("test")
	b, faults := room.ReadBuild(bf)
	return tailor.Derive(b), faults
}

// derived is derive for a record the reader has nothing against.
func derived1(t testing.TB, build string) *Garment {
	t.Helper()
	g, faults := roomWith(t).derive(build)
	for _, f := range faults {
		t.Errorf("the reader: %s", f)
	}
	return g
}

func (g *Garment) find(t testing.TB, id string) Figure {
	t.Helper()
	for _, f := range g.Figures() {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("there is no figure %q", id)
	return Figure{}
}
