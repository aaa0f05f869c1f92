package pattern

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/paper"
	"hembook/internal/record"
)

var keep = flag.String("keep", "", "write the patterns into this folder, to look at")

// demo derives every build of the demo workroom.
func demo(t testing.TB) []*derive.Garment {
	t.Helper()
	dir, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "content", "workroom.yaml")); err != nil {
		t.Skip("the demo workroom is not here")
	}
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	var out []*derive.Garment
	for _, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		out = append(out, tailor.Derive(b))
	}
	return out
}

// poppler runs one of its programs, or skips.
func poppler(t *testing.T, data []byte, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	file := filepath.Join(t.TempDir(), "it.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	args = append(args, file)
	if name == "pdftotext" {
		args = append(args, "-")
	}
	out, err := exec.Command(path, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

func printOf(g *derive.Garment, stock paper.Stock, size document.Size) Print {
	return Print{Garment: g.Build.Name.V, Pieces: g.Pieces, Stock: stock, Cover: size}
}

// TestDemoPatterns: every piece of every demo build is printed, on every kind
// of paper, the same way twice, and named on the sheets that show it.
func TestDemoPatterns(t *testing.T) {
	printed := 0
	for _, g := range demo(t) {
		for _, stock := range []paper.Stock{paper.StockOf(document.A4), paper.StockOf(document.Letter), {Wide: 914}} {
			job := printOf(g, stock, document.A4)
			s, err := job.Set()
			if len(g.Pieces) == 0 { // it came to be mended
				if err == nil {
					t.Errorf("%s: a print of no pieces", job.Garment)
				}
				continue
			}
			if err != nil {
				t.Fatalf("%s: %v", job.Garment, err)
			}
			again, _ := job.Set()
			if !bytes.Equal(s.PDF, again.PDF) {
				t.Errorf("%s on %v: the second run has other bytes", job.Garment, stock)
			}
			printed += s.Printed
			if s.Printed+len(s.Left) != len(g.Pieces) {
				t.Errorf("%s: %d printed and %d left of %d pieces", job.Garment, s.Printed, len(s.Left), len(g.Pieces))
			}
			if stock.Wide != 914 {
				continue
			}
			text := squeeze(string(poppler(t, s.PDF, "pdftotext", "-raw")))
			for _, p := range g.Pieces {
				if _, ok := known(p); ok && strings.Count(text, squeeze(p.Name)) < 3 {
					t.Errorf("%s: %s is not named on cover and piece", job.Garment, p.Name)
				}
			}
			if *keep != "" {
				if err := os.WriteFile(filepath.Join(*keep, "pattern-"+strings.ReplaceAll(job.Garment, " ", "-")+".pdf"), s.PDF, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	if printed < 60 {
		t.Errorf("only %d pieces were printed", printed)
	}
}

// TestSquaresMeasureWhatTheySay renders the first page at 300 dots to the inch
// and measures the sides of the 100 mm square from line to line, both ways.
func TestSquaresMeasureWhatTheySay(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		g := demo(t)[0]
		s, err := printOf(g, paper.StockOf(size), size).Set()
		if err != nil {
			t.Fatal(err)
		}
		out := poppler(t, s.PDF, "pdftoppm", "-gray", "-r", "300", "-f", "1", "-l", "1")
		var wide, high, most int
		if _, err := fmt.Sscanf(string(out), "P5\n%d %d\n%d", &wide, &high, &most); err != nil {
			t.Fatal(err)
		}
		dots := out[len(out)-wide*high:]
		across := strokes(func(i int) byte { return dots[(high*2/5)*wide+i] }, 18*300/254*10, wide*2/3)
		down := strokes(func(i int) byte { return dots[i*wide+wide/4] }, high/10, high*3/5)
		for _, c := range []struct {
			way string
			at  []float64
		}{{"across", across}, {"down", down}} {
			for _, want := range []float64{100, 101.6} {
				if mm := nearest(c.at, want); math.Abs(mm-want) > 0.1 {
					t.Errorf("%v, %s: two lines are %.3f mm apart, not %v; lines at %v dots", size, c.way, mm, want, c.at)
				} else {
					t.Logf("%v, %s: %.3f mm", size, c.way, mm)
				}
			}
		}
	}
}

// nearest is the distance of two of some lines, in mm, that is nearest want.
func nearest(at []float64, want float64) float64 {
	best := math.Inf(1)
	for i := range at {
		for k := i + 1; k < len(at); k++ {
			if mm := (at[k] - at[i]) * 25.4 / 300; math.Abs(mm-want) < math.Abs(best-want) {
				best = mm
			}
		}
	}
	return best
}

// squeeze leaves out spaces: lying words come in lines of their own.
func squeeze(s string) string { return strings.Join(strings.Fields(s), "") }

// strokes are the middles of the dark runs along a row of dots.
func strokes(dot func(int) byte, from, to int) []float64 {
	var out []float64
	sum, weight := 0.0, 0.0
	for i := from; i < to; i++ {
		if dark := float64(255 - dot(i)); dark > 20 {
			sum, weight = sum+dark*(float64(i)+0.5), weight+dark
		} else if weight > 0 {
			out = append(out, sum/weight)
			sum, weight = 0, 0
		}
	}
	return out
}

// TestDrawingKeepsItsMeasures: the cut line of a drawn piece is its cut
// outline, millimetre for millimetre.
func TestDrawingKeepsItsMeasures(t *testing.T) {
	looked := 0
	for _, g := range demo(t) {
		for _, p := range g.Pieces {
			if _, ok := known(p); !ok || len(p.Cut.Ring) == 0 {
				continue
			}
			d, area := drawPiece(p, Style{})
			least, most := p.Bounds()
			if math.Abs(d.Wide()-2-(most.X-least.X)) > 1e-9 || math.Abs(d.High()-2-(most.Y-least.Y)) > 1e-9 { // 1 mm of rim all round
				t.Errorf("%s: %v × %v", p.Name, d.Wide(), d.High())
			}
			cut := d.Path(0)
			if d.Marks[0].Means != drawing.CutLine || len(cut.Points) < len(area) {
				t.Fatalf("%s: the cut line has %d points, its outline %d", p.Name, len(cut.Points), len(area))
			}
			for i := range area {
				j := (i + 1) % len(area)
				a, b := p.Cut.Ring[i], p.Cut.Ring[j]
				want := math.Hypot(a.X-b.X, a.Y-b.Y)
				if got := math.Hypot(cut.Points[i].X-cut.Points[j].X, cut.Points[i].Y-cut.Points[j].Y); math.Abs(got-want) > 1e-6 || cut.Points[i] != area[i] {
					t.Fatalf("%s: a stretch of %v mm is drawn %v mm long", p.Name, want, got)
				}
			}
			for _, m := range d.Marks {
				if l := m.Label; l != nil && (l.X < d.Box.Left || l.Y < d.Box.Top || l.X > d.Box.Right || l.Y > d.Box.Bottom) {
					t.Errorf("%s: %q stands outside the drawing", p.Name, l.Words)
				}
			}
			looked++
		}
	}
	if looked < 40 {
		t.Errorf("only %d drawings were looked at", looked)
	}
}

// TestNotches: a rectangle of 200 × 100 with a dart 20 wide in the middle of
// its upper edge and 10 mm of allowance has two notches there, each the
// outer 6 mm of the allowance.
func TestNotches(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "content/workroom.yaml", "name: Test room\n")
	write(t, dir, "content/builds/b/build.yaml", `name: B
garment: skirt
state: planned
pieces:
  p:
    cut: 1
    allowance: 10
    outline:
      from: [0, 0]
      bottom: [200, 0]
      right: [200, 100]
      top: [0, 100]
      left: [0, 0]
    darts: {top: {at: 100, width: 20, length: 60}}
`)
	room, faults, err := record.Open(dir)
	if err != nil || fault.HasErrors(faults) {
		t.Fatal(err, faults)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	b, faults := room.ReadBuild(room.Builds[0])
	if fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	d, _ := drawPiece(tailor.Derive(b).Pieces[0], Style{})
	var got []string
	for i, m := range d.Marks {
		if m.Means != drawing.Notch || m.Label != nil {
			continue
		}
		for p := d.Path(i).Points; len(p) > 1; p = p[2:] {
			got = append(got, fmt.Sprintf("%.2f,%.2f to %.2f,%.2f", p[0].X, p[0].Y, p[1].X, p[1].Y))
		}
	}
	// the drawing begins 10 mm of allowance to the left of the outline, and
	// 10 mm above it
	want := []string{"120.00,6.00 to 120.00,0.00", "100.00,6.00 to 100.00,0.00"}
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("notches %v, want %v", got, want)
	}
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestPleatsMeasureWhatTheySay prints a panel with a box pleat 30 mm deep in the middle
// of 240 at full size on a roll, and measures its lines at 300 dots to the inch: with
// 10 mm of allowance they lie 10 + 120 − 30 from the cut edge and, 60 each for what a
// fold takes, 30 for its half of the way behind, and 60 for the face, farther on.
func TestPleatsMeasureWhatTheySay(t *testing.T) {
	g := printed(t, `
  p: {cut: 1, allowance: 10, rectangle: [240, 300], pleats: {top: {kind: box, depth: 30, stitched: 80}}}
`)
	want := []float64{0, 10, 100, 130, 160, 220, 250, 280, 370, 380} // cut, sewn, place, behind, fold, fold, behind, place, sewn, cut
	d, _ := drawPiece(g.Pieces[0], Style{})
	var xs []float64
	for i, m := range d.Marks {
		if m.Means == drawing.PleatFold || m.Means == drawing.PleatPlace {
			for _, part := range d.Path(i).Parts() {
				if q := part.Points; len(q) == 2 && q[0].X == q[1].X && math.Abs(q[0].Y-q[1].Y) > 299 {
					xs = append(xs, q[0].X)
				}
			}
		}
	}
	slices.Sort(xs)
	if got := fmt.Sprintf("%.2f", xs); got != fmt.Sprintf("%.2f", []float64{100, 130, 160, 220, 250, 280}) {
		t.Errorf("pleats are drawn at %s", got)
	}
	measureLines(t, g, want, 100)
}

// TestLinesMeasureWhatTheySay prints a panel of 340 by 300 with a centre 18 inside its right
// side, a slit 60 from its left and a crease 40 inside its left at full size on a roll, and
// measures them at 300 dots to the inch from the cut edge, with 10 mm of allowance.
func TestLinesMeasureWhatTheySay(t *testing.T) {
	g := printed(t, `
  p: {cut: 2, allowance: 10, rectangle: [340, 300], lines: {centre: 18 inside right, slit: {from: bottom at 60 from left, length: 200, slit: true}, turn: {along: 40 inside left, fold: true}}}
`)
	measureLines(t, g, []float64{0, 10, 50, 70, 332, 350, 360}, 60) // cut, sewn, crease, slit, centre, sewn, cut
}

// TestPocketPlaceMeasuresWhatItSays prints a panel of 340 by 300 with a pocket of 115 by 130
// set on it 60 from its left, and measures where its sides are drawn.
func TestPocketPlaceMeasuresWhatItSays(t *testing.T) {
	g := printed(t, `
  p: {cut: 2, allowance: 10, rectangle: [340, 300]}
  pocket: {cut: 1, allowance: 10, rectangle: [115, 130]}
seams:
  pocket: {join: [pocket, left p], at: [60, 140]}
`)
	g.Pieces = g.Pieces[:1]
	measureLines(t, g, []float64{0, 10, 70, 185, 350, 360}, 60) // cut, sewn, pocket, pocket, sewn, cut
}

// printed is a garment of these pieces.
func printed(t *testing.T, pieces string) *derive.Garment {
	t.Helper()
	return derivedOne(t, "pieces:"+pieces)
}

// measureLines prints a garment on a roll and wants upright lines so far from the first one,
// within 0.3 mm, on so many rows of dots at least.
func measureLines(t *testing.T, g *derive.Garment, want []float64, least int) {
	t.Helper()
	s, err := printOf(g, paper.Stock{Wide: 914}, document.A4).Set()
	if err != nil {
		t.Fatal(err)
	}
	out := poppler(t, s.PDF, "pdftoppm", "-gray", "-r", "300", "-f", "2", "-l", "2")
	var wide, high, most int
	if _, err := fmt.Sscanf(string(out), "P5\n%d %d\n%d", &wide, &high, &most); err != nil {
		t.Fatal(err)
	}
	dots := out[len(out)-wide*high:]
	worst, met := 0.0, 0
	for row := 0; row < high; row++ { // dashes are met on some rows only
		at := strokes(func(i int) byte { return dots[row*wide+i] }, 0, wide)
		if len(at) < len(want) {
			continue
		}
		off := 0.0
		for k, mm := range want {
			off = max(off, math.Abs((at[k]-at[0])*25.4/300-mm))
		}
		if off < 0.3 {
			met, worst = met+1, max(worst, off)
		}
	}
	if met < least {
		t.Fatalf("on %d rows of dots the %d lines lie where they should within 0.3 mm", met, len(want))
	}
	t.Logf("on %d rows of dots all %d lines lie within %.3f mm", met, len(want), worst)
}
