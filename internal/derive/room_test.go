package derive

import (
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/figure"
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
		"content/cloth/linen.yaml": "name: Linen\nfibres: {linen: 100}\nweight: 200 g/m2\nwidth: 1400\nselvedge: 10\n",
	}}
}

func (r *testRoom) file(name, text string) *testRoom { r.files[name] = text; return r }

// open writes the files and opens the room.
func (r *testRoom) open() (*Tailor, *record.Room, []fault.Fault) {
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

// A desk is an open room on which one build after another is laid.
type desk struct {
	tailor *Tailor
	room   *record.Room
	bf     record.BuildFile
	path   string
}

func (r *testRoom) desk() *desk {
	r.t.Helper()
	r.file("content/builds/test/build.yaml", head)
	tailor, room, _ := r.open()
	bf, _ := room.BuildNamed("test")
	return &desk{tailor, room, bf, filepath.Join(room.Dir, filepath.FromSlash(bf.Path))}
}

// derive reads a build and derives it; the reader's faults come apart from
// those of the figures.
func (d *desk) derive(t testing.TB, build string) (*Garment, []fault.Fault) {
	t.Helper()
	if err := os.WriteFile(d.path, []byte(build), 0o644); err != nil {
		t.Fatal(err)
	}
	b, faults := d.room.ReadBuild(d.bf)
	return d.tailor.Derive(b), faults
}

// deriveClean derives a build neither the reader nor the figures may fault.
func deriveClean(t testing.TB, r *testRoom, build string) *Garment {
	t.Helper()
	if !strings.Contains(build, "truing:") { // most are drawn for their sums, not to be worn
		const wide = "usual: {truing: {angle: 180, lining: 5 m}"
		if strings.Contains(build, "\nusual: {") {
			build = strings.Replace(build, "\nusual: {", "\n"+wide+", ", 1)
		} else {
			build += "\n" + wide + "}\n"
		}
	}
	g, faults := r.desk().derive(t, head+build)
	for _, f := range append(faults, g.Faults...) {
		if !strings.HasSuffix(f.Message, looseEdge) && !strings.Contains(f.Message, "of allowance, ") { // most are parts of a garment, cut as the test wants
			t.Errorf("fault: %s", f)
		}
	}
	return g
}

// looseEdge ends what is said of an edge that nothing takes.
const looseEdge = " joined to nothing and not finished"

// find returns the figure of that ID.
func (g *Garment) find(t testing.TB, id string) figure.Figure {
	t.Helper()
	for _, f := range g.Figures() {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("there is no figure %q", id)
	return figure.Figure{}
}

// is checks figures by ID: the value in its own unit, to the tolerance.
func (g *Garment) is(t testing.TB, tolerance float64, want map[string]float64) {
	t.Helper()
	for _, id := range slices.Sorted(maps.Keys(want)) {
		f := g.find(t, id)
		switch {
		case !f.Value.Known():
			t.Errorf("%s is not known, because %s; want %v", id, f.Value.Why, want[id])
		case math.Abs(f.Value.Number-want[id]) > tolerance:
			t.Errorf("%s = %v, want %v (%s)", id, f.Value.Number, want[id], f.Working.Sum())
		}
	}
}
