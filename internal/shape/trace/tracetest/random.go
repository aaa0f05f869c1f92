// Package tracetest makes random pieces for the tests of what reads and
// writes pattern files, and compares pieces as a maker would. It is imported
// by tests only.
package tracetest

import (
	"fmt"
	"math"

	"pgregory.net/rapid"

	"hembook/internal/drawing"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// edgeNames hold words that also tell roles, the piece's own name and letters
// beyond ASCII.
var edgeNames = []string{"side", "hem", "waist", "armhole", "neck", "centre front", "shoulder", "Ärmel", "level top", "fold", "edge", "front-x", "line 3", "a.b"}

// Piece draws a sound random piece of that name: its corners lie at growing
// angles about the middle, its curves stay near their chords.
func Piece(t *rapid.T, name string) trace.Piece {
	n := rapid.IntRange(3, 9).Draw(t, "edges")
	number := func(from, to float64, label string) float64 { return rapid.Float64Range(from, to).Draw(t, label) }
	corner := make([]shape.Point, n)
	at := shape.Point{X: number(-500, 500, "x"), Y: number(-500, 500, "y")}
	for i := range corner {
		angle := (float64(i) + number(-0.3, 0.3, "angle")) * 2 * math.Pi / float64(n)
		r := number(120, 400, "radius")
		corner[i] = snapped(shape.Point{X: at.X + r*math.Cos(angle), Y: at.Y + r*math.Sin(angle)})
	}
	names := rapid.Permutation(edgeNames).Draw(t, "names")
	g := trace.Piece{Name: name, Grain: rapid.SampledFrom([]string{"along", "across", "bias"}).Draw(t, "grain")}
	g.Outline.From = corner[0]
	for i := range corner {
		a, b := corner[i], corner[(i+1)%n]
		e := shape.Edge{Name: names[i], To: b}
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			e.Fold = i == 0
		case 1, 2:
			e = curved(e, a, b, number(-0.15, 0.15, "bend"), number(-0.15, 0.15, "bend"))
		case 3: // an edge of two parts
			middle := snapped(shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
			g.Outline.Edges = append(g.Outline.Edges, curved(shape.Edge{Name: names[i], To: middle}, a, middle, 0.1, 0.1))
			e = curved(e, middle, b, -0.1, -0.1)
		}
		g.Outline.Edges = append(g.Outline.Edges, e)
	}
	if g.Outline.Check() != nil {
		t.Skip("crosses itself")
	}
	mark(t, &g)
	return g
}

// Drawing draws a piece, each line by its name, as a file gives it.
func Drawing(p trace.Piece) *drawing.Drawing {
	f := drawing.Frame{K: 1}
	d := drawing.New("piece")
	d.Title = p.Name
	least, most := p.Outline.Bounds()
	d.Box = drawing.Box{Left: least.X, Top: -most.Y, Right: most.X, Bottom: -least.Y}
	for _, s := range p.Outline.Sides() {
		d.Named(drawing.SewLine, trace.Spell(s.Name, s.Fold, p.Name)).Edges(f, p.Outline, s.First, s.Count)
	}
	d.Named(drawing.Origin, "origin").Move(0, 0)
	middle, way := shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}, map[string]shape.Point{"along": {Y: 50}, "across": {X: 50}, "bias": {X: 35, Y: 35}}[p.Grain]
	d.Named(drawing.GrainLine, "grain").Lines(f, []shape.Point{middle.Sub(way), middle.Add(way)})
	for _, dart := range p.Darts {
		if plan, err := (shape.Dart{Edge: dart.Edge, At: dart.At, Width: dart.Width, Length: dart.Length}).Plan(p.Outline); err == nil {
			d.Named(drawing.DartLeg, "dart "+dart.Name).Lines(f, []shape.Point{plan.Begin, plan.Point, plan.End})
		}
	}
	for _, n := range p.Notches {
		if at, along, ok := p.Outline.PointOn(n.Edge, n.At); ok {
			d.Named(drawing.Notch, "notch "+n.Name).Lines(f, []shape.Point{at, at.Add(shape.Point{X: -along.Y * 3, Y: along.X * 3})})
		}
	}
	for _, l := range p.Levels {
		d.Named(drawing.LevelLine, "level "+l.Name).Lines(f, []shape.Point{{X: least.X, Y: l.Y}, {X: most.X, Y: l.Y}})
	}
	return d
}

// snapped rounds to the ten-thousandth of a millimetre, as files write it.
func snapped(p shape.Point) shape.Point {
	return shape.Point{X: math.Round(p.X*1e4) / 1e4, Y: math.Round(p.Y*1e4) / 1e4}
}

func curved(e shape.Edge, a, b shape.Point, bend1, bend2 float64) shape.Edge {
	way := b.Sub(a)
	e.Curved = true
	e.C1 = snapped(shape.Point{X: a.X + way.X*0.3 + way.Y*bend1, Y: a.Y + way.Y*0.3 - way.X*bend1})
	e.C2 = snapped(shape.Point{X: a.X + way.X*0.7 + way.Y*bend2, Y: a.Y + way.Y*0.7 - way.X*bend2})
	return e
}

// mark adds a dart, notches and a level where there is room for them.
func mark(t *rapid.T, g *trace.Piece) {
	sides := g.Outline.Sides()
	s := sides[rapid.IntRange(0, len(sides)-1).Draw(t, "dart on")]
	if s.Length > 60 {
		d := trace.Dart{Name: "1", Edge: s.Name, At: s.Length * rapid.Float64Range(0.4, 0.6).Draw(t, "dart"), Width: 14, Length: 40}
		if plan, err := (shape.Dart{Edge: d.Edge, At: d.At, Width: d.Width, Length: d.Length}).Plan(g.Outline); err == nil && plan.Inside && plan.Fits {
			g.Darts = append(g.Darts, d)
		}
	}
	for i, s := range sides {
		g.Notches = append(g.Notches, trace.Notch{Name: fmt.Sprint(i + 1), Edge: s.Name, At: s.Length * rapid.Float64Range(0.1, 0.9).Draw(t, "notch")})
	}
	least, most := g.Outline.Bounds()
	g.Levels = []trace.Level{{Name: "hip", Y: math.Round((least.Y*0.4+most.Y*0.6)*1e4) / 1e4}}
}

// Compare holds a piece that was read back against the one written: within
// tolerance millimetres everywhere, all names alike.
func Compare(t TB, want trace.Piece, got *trace.Piece, tolerance float64) {
	t.Helper()
	a, b := want.Outline.Sides(), got.Outline.Sides()
	if len(a) != len(b) {
		t.Fatalf("%d edges, want %d", len(b), len(a))
	}
	for i := range a {
		if a[i].Name != b[i].Name || a[i].Fold != b[i].Fold {
			t.Fatalf("edge %d is %q (fold %t), want %q (fold %t)", i, b[i].Name, b[i].Fold, a[i].Name, a[i].Fold)
		}
		if d := math.Abs(a[i].Length - b[i].Length); d > tolerance {
			t.Fatalf("edge %q is %.4f mm long, want %.4f mm", a[i].Name, b[i].Length, a[i].Length)
		}
	}
	if d := Apart(want.Outline, got.Outline); d > tolerance {
		t.Fatalf("the outline is %.5f mm off", d)
	}
	if want.Grain != got.Grain || got.Turned != 0 {
		t.Fatalf("the grain is %q, turned by %g°; want %q", got.Grain, got.Turned, want.Grain)
	}
	compareMarks(t, want, got, tolerance)
}

func compareMarks(t TB, want trace.Piece, got *trace.Piece, tolerance float64) {
	t.Helper()
	if len(got.Darts) != len(want.Darts) || len(got.Notches) != len(want.Notches) || len(got.Levels) != len(want.Levels) {
		t.Fatalf("%d darts, %d notches, %d levels; want %d, %d, %d", len(got.Darts), len(got.Notches), len(got.Levels), len(want.Darts), len(want.Notches), len(want.Levels))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= tolerance }
	for i, w := range want.Darts {
		if g := got.Darts[i]; g.Name != w.Name || g.Edge != w.Edge || !near(g.At, w.At) || !near(g.Width, w.Width) || !near(g.Length, w.Length) {
			t.Fatalf("the dart is %+v, want %+v", g, w)
		}
	}
	for i, w := range want.Notches {
		if g := got.Notches[i]; g.Name != w.Name || g.Edge != w.Edge || !near(g.At, w.At) {
			t.Fatalf("the notch is %+v, want %+v", g, w)
		}
	}
	for i, w := range want.Levels {
		if g := got.Levels[i]; g.Name != w.Name || !near(g.Y, w.Y) {
			t.Fatalf("the level is %+v, want %+v", g, w)
		}
	}
}

// Apart is the greatest distance of any point of one outline from the other,
// both ways, in millimetres; measured at points a millimetre or less apart.
func Apart(a, b shape.Outline) float64 { return max(oneWay(a, b), oneWay(b, a)) }

func oneWay(a, b shape.Outline) float64 {
	from, _ := a.Flatten(1e-3)
	to, _ := b.Flatten(1e-3)
	worst := 0.0
	for i, p := range from {
		q := from[(i+1)%len(from)]
		steps := 1 + int(math.Hypot(q.X-p.X, q.Y-p.Y)/5)
		for k := range steps {
			t := float64(k) / float64(steps)
			worst = max(worst, toRing(shape.Point{X: p.X + (q.X-p.X)*t, Y: p.Y + (q.Y-p.Y)*t}, to))
		}
	}
	return worst
}

func toRing(p shape.Point, ring shape.Ring) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if size := dx*dx + dy*dy; size > 0 {
			t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/size, 0), 1)
		}
		x, y := p.X-a.X-t*dx, p.Y-a.Y-t*dy
		best = min(best, x*x+y*y)
	}
	return math.Sqrt(best)
}

// A TB is what both kinds of test have.
type TB interface {
	Helper()
	Fatalf(format string, args ...any)
}
