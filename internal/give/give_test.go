package give

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/shape/dxf"
	"hembook/internal/shape/svg"
	"hembook/internal/shape/trace"
	"hembook/internal/shape/trace/tracetest"
)

// demo calls each with every garment of the demo workroom.
func demo(t *testing.T, each func(*record.Room, *derive.Tailor, *derive.Garment)) {
	t.Helper()
	room, faults, err := record.Open("../..")
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, more := derive.NewTailor(room)
	if fault.HasErrors(append(faults, more...)) {
		t.Fatal(faults, more)
	}
	for _, bf := range room.Builds {
		b, faults := room.ReadBuild(bf)
		if fault.HasErrors(faults) {
			t.Fatal(faults)
		}
		each(room, tailor, tailor.Derive(b))
	}
}

// TestGivenComesBack: what is given of the demo workroom's pieces is read back
// within a hundredth of a millimetre, edges by name.
func TestGivenComesBack(t *testing.T) {
	count := 0
	demo(t, func(_ *record.Room, _ *derive.Tailor, g *derive.Garment) {
		for as, read := range map[Format]func([]byte) (*trace.Drawing, *fault.Fault){SVG: svg.Read, DXF: dxf.Read} {
			file, err := Pieces(g.Garment, nil, as)
			if len(g.Pieces) == 0 { // it came to be mended
				if err == nil {
					t.Errorf("%s: a file of no pieces", g.Build.Name.V)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			d, fault := read(file.Text)
			if fault != nil {
				t.Fatal(fault)
			}
			if fault := d.Resize(0, 0); fault != nil {
				t.Fatal(fault)
			}
			if len(d.Pieces) != len(g.Pieces) {
				t.Fatalf("%s: %d pieces, want %d", file.Name, len(d.Pieces), len(g.Pieces))
			}
			for i, p := range g.Pieces {
				if p.Ring != nil && p.Ring.PanelAngle > 2*math.Pi-1e-6 {
					continue // a whole ring is slit along one line, which is its outline twice over
				}
				got, faults := d.Pieces[i].Assemble(trace.Options{})
				for _, f := range faults {
					t.Errorf("%s: %s: %v", file.Name, p.Name, f)
				}
				same(t, p, got)
				count++
			}
		}
	})
	if count < 60 {
		t.Errorf("only %d pieces were given", count)
	}
}

func same(t *testing.T, p *garment.Piece, got *trace.Piece) {
	t.Helper()
	if d := tracetest.Apart(p.Outline, got.Outline); d > 0.01 {
		t.Errorf("%s is %.4f mm off", p.Name, d)
	}
	sides, given := got.Outline.Sides(), undivided(p.Outline).Sides()
	if len(sides) != len(given) {
		t.Errorf("%s: %d edges came back of %d", p.Name, len(sides), len(given))
		return
	}
	for i, s := range given {
		if sides[i].Name != s.Name || sides[i].Fold != s.Fold || math.Abs(sides[i].Length-s.Length) > 0.01 {
			t.Errorf("%s: an edge is %+v, want %+v", p.Name, sides[i], s)
		}
	}
	if len(got.Darts) != len(p.Darts) || len(got.Levels) != len(p.AtLevels) || len(got.Notches) != len(p.NotchesAlong()) {
		t.Errorf("%s: %d darts, %d levels, %d notches; want %d, %d, %d", p.Name, len(got.Darts), len(got.Levels), len(got.Notches), len(p.Darts), len(p.AtLevels), len(p.NotchesAlong()))
	}
	for i, d := range got.Darts {
		plan := p.Darts[i].Plan
		if math.Hypot(d.Point.X-plan.Point.X, d.Point.Y-plan.Point.Y) > 0.01 || math.Abs(d.Width-plan.Intake) > 0.01 {
			t.Errorf("%s: the dart is %+v, want %+v", p.Name, d, plan)
		}
	}
	if p.Grain != "any" && p.Grain != got.Grain {
		t.Errorf("%s: the grain is %q, want %q", p.Name, got.Grain, p.Grain)
	}
}

// undivided is an outline as a record draws it, where a seam or a finish names parts of an
// edge: a file holds the edge, and the record that reads it names its parts again.
func undivided(o shape.Outline) shape.Outline {
	o.Edges = slices.Clone(o.Edges)
	for i := range o.Edges {
		e := &o.Edges[i]
		e.Name, _, _ = strings.Cut(e.Name, " from ")
		e.Name = strings.TrimSuffix(e.Name, ", further on")
	}
	return o
}

// TestGivenLays: a lay's file shows the cloth from its right side. A piece
// whose top lies away from whoever stands at the cut end, drawn as a record
// has it, runs against the clock; so it does on the cloth.
func TestGivenLays(t *testing.T) {
	drawn := []shape.Point{{X: 20, Y: 10}, {X: 70, Y: 10}, {X: 70, Y: 110}} // x to the right, y up
	laid := &cutting.Lay{Part: "shell", Chalked: []cutting.Position{{Number: 1, Piece: "front"}}}
	for _, q := range drawn { // x along the cloth, y from the left selvedge
		laid.Chalked[0].Outline = append(laid.Chalked[0].Outline, shape.Point{X: q.Y, Y: q.X})
	}
	laid.Length.Value.Number, laid.Width.Value.Number = 400, 100
	g := &garment.Garment{Build: &record.Build{Slug: "skirt"}}
	if _, err := Lay(g, laid, SVG); err == nil {
		t.Error("a lay without a plan was given")
	}
	laid.Plan = &lay.Plan{Length: 400, Width: 100}
	for as, read := range map[Format]func([]byte) (*trace.Drawing, *fault.Fault){SVG: svg.Read, DXF: dxf.Read} {
		file, err := Lay(g, laid, as)
		if err != nil {
			t.Fatal(err)
		}
		d, fault := read(file.Text)
		if fault != nil {
			t.Fatal(as, fault)
		}
		strokes := d.Loose
		for _, p := range d.Pieces {
			strokes = append(strokes, p.Strokes...)
		}
		found := map[float64]bool{}
		for _, s := range strokes {
			if s.Closed {
				found[math.Round(shape.Outline{From: s.From, Edges: s.Parts}.Area())] = true
			}
		}
		if !found[2500] || !found[40000] && !found[-40000] { // 50 by 100, halved; 400 by 100
			t.Errorf("%s: areas %v", as, found)
		}
	}
}
