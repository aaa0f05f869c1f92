package pattern

import (
	"fmt"
	"math"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/paper"
	"hembook/internal/record"
)

// derivedOne derives a garment of one workroom from the text of its record.
func derivedOne(t *testing.T, text string) *derive.Garment {
	t.Helper()
	dir := t.TempDir()
	write(t, dir, "content/workroom.yaml", "name: Test room\n")
	write(t, dir, "content/builds/b/build.yaml", "name: B\ngarment: skirt\nstate: planned\n"+text)
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, _ := derive.NewTailor(room)
	b, faults := room.ReadBuild(room.Builds[0])
	if fault.HasErrors(faults) {
		t.Fatal(faults)
	}
	return tailor.Derive(b)
}

// A scan is a sheet as grey dots, 300 to the inch.
type scan struct {
	wide, high int
	dots       []byte
}

func scanned(t *testing.T, g *derive.Garment) scan {
	t.Helper()
	s, err := printOf(g, paper.Stock{Wide: 914}, document.A4).Set()
	if err != nil {
		t.Fatal(err)
	}
	return scannedPDF(t, s.PDF)
}

// scannedPDF is the second page of a PDF.
func scannedPDF(t *testing.T, pdf []byte) scan {
	t.Helper()
	out := poppler(t, pdf, "pdftoppm", "-gray", "-r", "300", "-f", "2", "-l", "2")
	var p scan
	var most int
	if _, err := fmt.Sscanf(string(out), "P5\n%d %d\n%d", &p.wide, &p.high, &most); err != nil {
		t.Fatal(err)
	}
	p.dots = out[len(out)-p.wide*p.high:]
	return p
}

func (p scan) row(y int) []float64 {
	return strokes(func(i int) byte { return p.dots[y*p.wide+i] }, 0, p.wide)
}

const dot = 25.4 / 300 // mm

// dots is how many dots so many millimetres are.
func dots(mm float64) int { return int(mm / dot) }

// TestButtonsMeasureWhatTheySay prints a panel with three buttons of 20, 30 inside its
// left edge and 80 apart, at full size on a roll, and measures their holes of 23 at 300
// dots to the inch: with 10 mm of allowance the place lies 40 from the cut edge, the hole
// begins 3.175 nearer to it, at 36.825, and ends at 59.825; the ring is 20 wide.
func TestButtonsMeasureWhatTheySay(t *testing.T) {
	g := derivedOne(t, `
pieces:
  p: {cut: 2, allowance: 10, grain: any, rectangle: [300, 260]}
notions: {buttons: {along: 30 inside p.left, first: 60 from top, every: 80, count: 3, size: 20, holes: level}}
`)
	p := scanned(t, g)
	worst := 0.0
	var holes []float64 // where the slits lie, down the sheet
	begun := -1
	for y := range p.high {
		at := p.row(y)
		long := false
		if len(at) > 0 {
			zero := int(at[0])
			long = zero+dots(59) < p.wide
			for x := zero + dots(38); long && x < zero+dots(59); x++ {
				long = p.dots[y*p.wide+x] < 128
			}
		}
		long = long && p.dots[y*p.wide+int(at[0])+dots(64)] > 200 // and no cut line
		switch {
		case long && begun < 0:
			begun = y
		case !long && begun >= 0:
			holes, begun = append(holes, float64(begun+y)/2), -1
		}
	}
	if len(holes) != 3 {
		t.Fatalf("%d slits are printed", len(holes))
	}
	for k := 1; k < len(holes); k++ {
		worst = max(worst, math.Abs((holes[k]-holes[k-1])*dot-80))
	}
	for _, hole := range holes {
		y := int(hole) - dots(0.8) // a little above: both strokes at its ends, the ring and the cross
		off := math.Abs(float64(y) + 0.5 - hole)
		ring := math.Sqrt(10*10 - off*dot*off*dot)
		at := p.row(y)
		for _, want := range []float64{36.825, 59.825, 40 - ring, 40 + ring} {
			near := math.Inf(1)
			for _, x := range at {
				near = min(near, math.Abs((x-at[0])*dot-want))
			}
			worst = max(worst, near)
		}
	}
	if worst > 0.3 {
		t.Errorf("a buttonhole lies %.3f mm off", worst)
	}
	t.Logf("three buttonholes, their ends, rings and distances lie within %.3f mm", worst)
}

// TestGathersMeasureWhatTheySay prints a panel with two rows of gathering 12 apart, the
// first 20 inside its left edge, and measures them at 300 dots to the inch: with 10 mm of
// allowance they lie 30 and 42 from the cut edge.
func TestGathersMeasureWhatTheySay(t *testing.T) {
	p := scanned(t, derivedOne(t, `
pieces:
  p: {cut: 2, allowance: 10, grain: any, rectangle: [300, 260], gathers: {left: {into: 130, rows: 2, apart: 12, inside: 20}}}
`))
	met, worst := 0, 0.0
	for y := range p.high {
		at := p.row(y)
		if len(at) < 4 {
			continue
		}
		off := 0.0
		for _, want := range []float64{30, 42} {
			near := math.Inf(1)
			for _, x := range at {
				near = min(near, math.Abs((x-at[0])*dot-want))
			}
			off = max(off, near)
		}
		if off < 0.3 { // dashes are met on some rows only
			met, worst = met+1, max(worst, off)
		}
	}
	if met < 100 {
		t.Fatalf("on %d rows of dots both rows lie where they should within 0.3 mm", met)
	}
	t.Logf("on %d rows of dots both rows of gathering lie within %.3f mm", met, worst)
}
