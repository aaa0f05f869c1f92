package give

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/shape"
	"hembook/internal/shape/dxf"
	"hembook/internal/shape/svg"
	"hembook/internal/shape/trace"
)

// TestGivenLaysComeBack plans the cloths of the demo workroom, hands the lays
// out, and reads every piece back where the plan has it, within a hundredth of
// a millimetre, and the cloth with them.
func TestGivenLaysComeBack(t *testing.T) {
	dir := t.TempDir() // plans are kept beside the records
	if err := os.CopyFS(filepath.Join(dir, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	cutter := cutting.NewCutter(t.Context(), room, tailor, cutting.Options{Tries: 1})
	cloths, placed, worst := 0, 0, 0.0
	for _, bf := range room.Builds {
		b, faults := room.ReadBuild(bf)
		if fault.HasErrors(faults) {
			t.Fatal(faults)
		}
		cut := cutter.Cut(b)
		for _, l := range cut.Lays {
			if l.Plan == nil {
				continue
			}
			cloths++
			placed += 2 * len(l.Chalked)
			worst = max(worst, layApart(t, cut.Garment, l, SVG, svg.Read), layApart(t, cut.Garment, l, DXF, dxf.Read))
		}
	}
	if cloths < 6 || placed < 100 {
		t.Errorf("only %d cloths with %d pieces were given", cloths, placed)
	}
	t.Logf("%d cloths, %d pieces read back, at most %.6f mm off", cloths, placed, worst)
}

// layApart is how far the pieces of a lay that is given and read again lie from
// where they are planned, at most.
func layApart(t *testing.T, g *derive.Garment, l *cutting.Lay, as Format, read func([]byte) (*trace.Drawing, *fault.Fault)) float64 {
	t.Helper()
	file, err := Lay(g.Garment, l, as)
	if err != nil {
		t.Fatal(err)
	}
	d, fault := read(file.Text)
	if fault == nil {
		fault = d.Resize(0, 0)
	}
	if fault != nil {
		t.Fatalf("%s: %v", file.Name, fault)
	}
	strokes := d.Loose
	for _, p := range d.Pieces {
		strokes = append(strokes, p.Strokes...)
	}
	down := 0.0 // the left selvedge is at the top, and files are read with y upwards
	if as == DXF {
		down = l.Plan.Width
	}
	long, wide := l.Plan.Length/l.Plan.Layers(), l.Plan.Width // as the cloth lies, folded where the lay is
	cloth := shape.Ring{{}, {X: long}, {X: long, Y: wide}, {Y: wide}}
	worst := nearest(strokes, cloth, down)
	for _, c := range l.Chalked {
		worst = max(worst, nearest(strokes, c.Outline, down))
	}
	if worst > 0.01 {
		t.Errorf("%s: a piece lies %.4f mm from where it is planned", file.Name, worst)
	}
	return worst
}

// nearest is how far the corners of a ring lie from those of the line that is
// nearest to it: each from the corner that is its own.
func nearest(strokes []trace.Stroke, ring shape.Ring, down float64) float64 {
	best := math.Inf(1)
	for _, s := range strokes {
		corners := []shape.Point{s.From}
		for _, e := range s.Parts {
			corners = append(corners, e.To)
		}
		if n := len(corners); n > 1 && corners[n-1] == corners[0] {
			corners = corners[:n-1]
		}
		if !s.Closed || len(corners) != len(ring) {
			continue
		}
		for from := range corners { // it may begin anywhere, and run either way
			best = min(best, apart(corners, ring, from, 1, down, best), apart(corners, ring, from, -1, down, best))
		}
	}
	return best
}

// apart is how far corners lie from those of a ring, counted on from one of
// them; it may stop once that is more than enough.
func apart(corners []shape.Point, ring shape.Ring, from, step int, down, enough float64) float64 {
	worst, n := 0.0, len(corners)
	for i, p := range ring {
		q := corners[((from+step*i)%n+n)%n]
		if worst = max(worst, math.Hypot(q.X-p.X, down-q.Y-p.Y)); worst > enough {
			break
		}
	}
	return worst
}
