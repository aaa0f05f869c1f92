package pattern

import (
	"math"
	"slices"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/record"
)

// TestShirt: a tailored shirt, written from the guide alone, has nothing wrong with it, and
// its sheets have every piece that is cut. By hand: the wrist is drawn 300, of which two
// pleats take 60, and the first round moved both underarms, which lean 58 in 436, out by 5; the placket takes 2 × 6 and adds 25
// and 12, and so long is the cuff. The second round made the slit 120: the placket is
// 120 + 25 + 6 + 10 = 161 long, 62 wide. The first set the pocket's upper left corner at
// (56, 438), so that it lies from 56 to 171 across and from 308 to 438 up.
func TestShirt(t *testing.T) {
	room, faults, err := record.Open("testdata/shirt")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { room.Close() })
	tailor, more := derive.NewTailor(room)
	b, own := room.ReadBuild(room.Builds[0])
	g := tailor.Derive(b)
	for _, f := range slices.Concat(faults, more, own, g.Faults) {
		t.Errorf("%s", f)
	}
	want := map[string][2]float64{"cuff": {300 - 4*15 + 2*5*math.Hypot(436, 58)/436 + 25, 65}, "placket of plackets": {62, 161}, "narrow strip of plackets": {36, 136}, "pocket": {115, 130}}
	for _, p := range g.Pieces {
		if size, told := want[p.Name]; told {
			if a, b := p.Edges[0].Length.Value.Number, p.Edges[1].Length.Value.Number; math.Abs(a-size[0]) > 1e-6 || math.Abs(b-size[1]) > 1e-6 {
				t.Errorf("%s is %.2f by %.2f, want %v", p.Name, a, b, size)
			}
			delete(want, p.Name)
		}
	}
	if len(want) > 0 || len(g.Pieces) != 10 {
		t.Errorf("%d pieces; without %v", len(g.Pieces), want)
	}
	for _, l := range g.Pieces[0].Lines {
		if l.Name == "pocket" && (l.Points[0].X != 56 && l.Points[0].X != 171 || l.Points[0].Y != 438 && l.Points[0].Y != 308) {
			t.Errorf("the pocket begins at %v", l.Points[0])
		}
	}
}

// TestSlitsAndPocketsMeasureWhatTheySay prints a panel at full size on a roll, and measures at
// 300 dots to the inch, with 10 mm of allowance: the slit of its placket, 70 inside the left
// edge, lies 80 from the cut edge and is 120 long; a pocket 115 wide and 130 high, 120 inside
// that edge, lies from 130 to 245.
func TestSlitsAndPocketsMeasureWhatTheySay(t *testing.T) {
	p := scanned(t, derivedOne(t, `
pieces:
  p: {cut: 2, allowance: 10, grain: any, rectangle: [300, 260], lines: {slit: {from: bottom at 70, length: 120, slit: true}}}
  pocket: {cut: 2, rectangle: [115, 130]}
seams: {pocket: {join: [pocket, p], at: [120, 220]}}
finishes: {plackets: {of: p.slit, type: tower-placket}}
`))
	near := func(at []float64, want float64) float64 {
		off := math.Inf(1)
		for _, x := range at {
			off = min(off, math.Abs((x-at[0])*dot-want))
		}
		return off
	}
	slit, pocket, worst := 0, 0, 0.0 // the most rows on end
	var runs [2]int
	for y := range p.high {
		at := p.row(y)
		if len(at) < 3 {
			runs = [2]int{}
			continue
		}
		for k, off := range [2]float64{near(at, 80), max(near(at, 130), near(at, 245))} {
			if off >= 0.3 {
				runs[k] = 0
				continue
			}
			runs[k], worst = runs[k]+1, max(worst, off)
		}
		slit, pocket = max(slit, runs[0]), max(pocket, runs[1])
	}
	for what, tall := range map[string][2]float64{"slit": {float64(slit) * dot, 120}, "pocket": {float64(pocket) * dot, 130}} {
		if math.Abs(tall[0]-tall[1]) > 1 { // the ends of strokes, and words that stand across them
			t.Errorf("the %s is printed %.2f high, want %.0f", what, tall[0], tall[1])
		}
	}
	t.Logf("slit and pocket lie within %.3f mm; %.2f and %.2f high", worst, float64(slit)*dot, float64(pocket)*dot)
}
