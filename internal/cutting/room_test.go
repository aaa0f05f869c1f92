package cutting

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
)

// A bench is a workroom of the test's own with one build.
type bench struct {
	t    testing.TB
	dir  string
	opt  Options
	room *record.Room
	ctx  context.Context
}

// benchWith writes a workroom with one cloth and a build of these pieces.
func benchWith(t testing.TB, cloth, pieces string) *bench {
	t.Helper()
	b := &bench{t: t, dir: t.TempDir(), ctx: context.Background(), opt: Options{Tries: 40_000}}
	b.file("content/workroom.yaml", "name: Test\ncurrency: EUR\n")
	b.file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\n"+cloth)
	b.file("content/builds/test/build.yaml", "name: Test\ngarment: dress\nstate: cutting\ncloth: {shell: linen}\n"+pieces)
	return b
}

func (b *bench) file(name, text string) *bench {
	b.t.Helper()
	path := filepath.Join(b.dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		b.t.Fatal(err)
	}
	return b
}

// cut reads the workroom afresh and lays the build. Records must be clean.
func (b *bench) cut() *Cutting {
	b.t.Helper()
	return b.cutter().Cut(b.build())
}

// cutter opens the workroom afresh.
func (b *bench) cutter() *Cutter {
	b.t.Helper()
	room, faults, err := record.Open(b.dir)
	if err != nil {
		b.t.Fatal(err)
	}
	b.t.Cleanup(func() { room.Close() })
	b.room = room
	tailor, more := derive.NewTailor(room)
	b.clean(append(faults, more...))
	return NewCutter(b.ctx, room, tailor, b.opt)
}

// build reads the build of the workroom opened last.
func (b *bench) build() *record.Build {
	b.t.Helper()
	bf, _ := b.room.BuildNamed("test")
	build, faults := b.room.ReadBuild(bf)
	b.clean(faults)
	return build
}

func (b *bench) clean(faults []fault.Fault) {
	b.t.Helper()
	for _, f := range faults {
		if f.Severity == fault.Error {
			b.t.Fatalf("fault: %s", f)
		}
	}
}

// lay lays the only cloth.
func (b *bench) lay() *Lay {
	b.t.Helper()
	cut := b.cut()
	if len(cut.Lays) != 1 {
		b.t.Fatalf("%d lays, want 1", len(cut.Lays))
	}
	return cut.Lays[0]
}

// is checks a figure that must be known, to a thousandth.
func is(t testing.TB, f figure.Figure, want float64) {
	t.Helper()
	if !f.Value.Known() {
		t.Errorf("%s is not known, because %s; want %v", f.ID, f.Value.Why, want)
	} else if math.Abs(f.Value.Number-want) > 1e-3 {
		t.Errorf("%s = %v, want %v (%s)", f.ID, f.Value.Number, want, f.Working.Sum())
	}
	if f.Working.Rule == "" || f.Working.Source == "" {
		t.Errorf("%s has no rule or no source", f.ID)
	}
}

// rectangles is a pieces list of one rectangle without allowance.
func rectangles(cut, size string) string {
	return "pieces:\n  panel: {cut: " + cut + ", allowance: 0, rectangle: " + size + "}\n"
}

// copies is how many cut pieces a problem asks for.
func (p *Problem) copies() int {
	n := 0
	for i := range p.Lay.Pieces {
		n += max(1, p.Lay.Pieces[i].Quantity)
	}
	return n
}
