package give

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/shape/trace/tracetest"
)

// comesBack is how far anything of a piece may lie from where it was given, mm.
const comesBack = 0.02

// TestGarmentsComeBack gives every piece of three garments, a shirt after its two rounds, a
// box-pleated skirt and a jersey top, into a file of either kind, and reads them as the
// pieces of another record: bands as long as what they are sewn to, the strips that a
// placket brings with their folds, a pocket's place where a round moved it, slits, pleats
// that taper, buttons and their holes, notches where seams cross a band.
func TestGarmentsComeBack(t *testing.T) {
	worst, lines, folds, places, notches := 0.0, 0, 0, 0, 0
	for name, g := range threeGarments(t) {
		for as, ext := range map[Format]string{SVG: "svg", DXF: "dxf"} {
			file, err := Pieces(g.Garment, nil, as)
			if err != nil {
				t.Fatal(err)
			}
			again := one(t, readsAgain(g.Garment, ext), map[string]string{"pattern." + ext: string(file.Text)})
			for i, p := range g.Pieces {
				q := again.Pieces[i]
				c := cameBack{t: t, of: name + ", " + ext + ", " + p.Name}
				c.within("its outline", tracetest.Apart(p.Outline, q.Outline))
				c.lines(p, q)
				c.folds(p, q)
				c.places(p, q)
				c.notches(p, q)
				worst = max(worst, c.worst)
				lines, folds, places, notches = lines+len(p.Lines), folds+len(p.PleatFolds), places+len(p.Chalked), notches+len(p.NotchesAlong())
			}
		}
	}
	t.Logf("%d lines, %d folds, %d places and %d notches came back, all within %.4f mm", lines, folds, places, notches, worst)
	if lines < 20 || folds < 60 || places < 20 || notches < 12 {
		t.Error("too little was given to tell")
	}
}

// threeGarments are a shirt, a skirt and a top, each with nothing wrong in it.
func threeGarments(t *testing.T) map[string]*derive.Garment {
	t.Helper()
	beside := func(dir string, names ...string) map[string]string {
		out := map[string]string{"content/workroom.yaml": "name: Test room\n"}
		for _, name := range names {
			text, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				t.Fatal(err)
			}
			to := "content/cloth/" + name
			switch {
			case name == "build.yaml":
				to = "content/builds/b/build.yaml"
			case strings.HasSuffix(name, ".svg"):
				to = "content/builds/b/pattern/" + name
			}
			out[to] = string(text)
		}
		return out
	}
	top := map[string]string{}
	a, err := txtar.ParseFile("../../testdata/newcomer/knit-top.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range a.Files {
		top[f.Name] = string(f.Data)
	}
	shirt := t.TempDir()
	if err := os.CopyFS(shirt, os.DirFS("../pattern/testdata/shirt")); err != nil {
		t.Fatal(err)
	}
	skirt := beside("../derive/testdata/quarry-skirt", "build.yaml", "skirt.svg", "quarry-check.yaml", "slate-lining.yaml", "band-fusible.yaml")
	return map[string]*derive.Garment{"shirt": derivedIn(t, shirt), "skirt": derivedIn(t, written(t, skirt)), "top": derivedIn(t, written(t, top))}
}

// readsAgain is a record whose pieces are those of a file.
func readsAgain(g *garment.Garment, ext string) string {
	var out strings.Builder
	out.WriteString("pieces:\n")
	for _, p := range g.Pieces {
		cut := "1"
		if p.OnFold {
			cut = "1 on fold"
		} else if p.Count > 1 {
			cut = "2 alike"
		}
		out.WriteString("  " + p.Name + ": {cut: " + cut + ", outline: \"pattern." + ext + "#" + p.Name + "\"}\n")
	}
	switch g.Build.Name.V {
	case "Otter top":
		return out.String()
	case "Quarry-day skirt":
		return out.String() + "notions: {zip: {along: front.right, first: waist, length: 200}}\n"
	}
	return out.String() + `notions:
  buttons: {along: front.centre, size: 11, holes: upright}
  collar button: {along: stand.front line, size: 11, holes: level}
  cuff buttons: {along: 12 inside cuff.left, at: middle, size: 11, holes: level, holes-along: 12 inside cuff.right}
`
}

// cameBack compares a piece with what came back of it.
type cameBack struct {
	t     *testing.T
	of    string
	worst float64
}

func (c *cameBack) within(what string, off float64) {
	c.t.Helper()
	if c.worst = max(c.worst, off); off > comesBack {
		c.t.Errorf("%s: %s lies %.4f mm off", c.of, what, off)
	}
}

func (c *cameBack) lines(p, q *garment.Piece) {
	if len(p.Lines) != len(q.Lines) {
		c.t.Errorf("%s: %d lines came back of %d", c.of, len(q.Lines), len(p.Lines))
	}
	for i := range p.Lines {
		a, near := &p.Lines[i], math.Inf(1)
		for k := range q.Lines {
			if b := &q.Lines[k]; a.Name == b.Name && a.Slit == b.Slit && a.Fold == b.Fold {
				near = min(near, max(lineApart(a.Points, b.Points), math.Abs(a.Points.Length()-b.Points.Length())))
			}
		}
		c.within("the "+a.Kind()+" "+a.Name, near)
	}
}

// lineApart is how far the corners of a line lie beside another, at most.
func lineApart(a, b shape.Line) float64 {
	worst := 0.0
	for _, p := range a {
		_, off := b.Nearest(p)
		worst = max(worst, off)
	}
	return worst
}

func (c *cameBack) folds(p, q *garment.Piece) {
	if len(p.PleatFolds) != len(q.PleatFolds) {
		c.t.Errorf("%s: %d folds came back of %d", c.of, len(q.PleatFolds), len(p.PleatFolds))
	}
	for i := range p.PleatFolds {
		a, near := &p.PleatFolds[i].Lines, math.Inf(1)
		for k := range q.PleatFolds {
			b := &q.PleatFolds[k].Lines
			near = min(near, max(lineApart(a.Place, b.Place), lineApart(a.Inner, b.Inner), lineApart(a.Outer, b.Outer)))
		}
		c.within("a fold at "+p.PleatFolds[i].Edge, near)
	}
}

func (c *cameBack) places(p, q *garment.Piece) {
	if len(p.Chalked) != len(q.Chalked) {
		c.t.Errorf("%s: %d places came back of %d", c.of, len(q.Chalked), len(p.Chalked))
		return
	}
	for k, a := range p.Chalked {
		b := q.Chalked[k]
		c.within("a place of "+a.Notion, max(a.At.Apart(b.At), a.Hole[0].Apart(b.Hole[0]), a.Hole[1].Apart(b.Hole[1])))
	}
}

func (c *cameBack) notches(p, q *garment.Piece) {
	a, b := p.NotchesAlong(), q.NotchesAlong()
	if len(a) != len(b) {
		c.t.Errorf("%s: %d notches came back of %d", c.of, len(b), len(a))
	}
	for _, n := range a {
		near := math.Inf(1)
		for _, m := range b {
			if n.Edge == m.Edge {
				near = min(near, math.Abs(n.Along-m.Along))
			}
		}
		c.within("a notch on "+n.Edge, near)
	}
}

// written is a folder with these files.
func written(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// derivedIn derives the one garment of a workroom, in which nothing may be wrong.
func derivedIn(t *testing.T, dir string) *derive.Garment {
	t.Helper()
	room, faults, err := record.Open(dir)
	if err != nil || fault.HasErrors(faults) {
		t.Fatal(err, faults)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	b, faults := room.ReadBuild(room.Builds[0])
	if fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	g := tailor.Derive(b)
	if fault.HasErrors(g.Faults) {
		t.Fatal(g.Faults)
	}
	return g
}
