package cutting

import (
	"context"
	"math"
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/record"
)

// Cutter is what the notebook is pressed with.
var _ interface {
	Derive(*record.Build) *derive.Garment
} = (*Cutter)(nil)

func TestModes(t *testing.T) {
	b := benchWith(t, "width: 1000\nprice: 10 EUR\n", rectangles("2", "[400, 500]"))
	b.opt.Mode = None
	cut := b.cut()
	if len(cut.Lays) != 0 || !strings.Contains(cut.Garment.Cloths[0].Needed.Value.Why, "no lay plan yet") {
		t.Errorf("none: %d lays, %+v", len(cut.Lays), cut.Garment.Cloths[0].Needed.Value)
	}
	b.opt.Mode = KeptOnly
	if l := b.lay(); l.Plan != nil || l.Why != errNotKept.Error() {
		t.Errorf("kept only, nothing kept: %q", l.Why)
	}
	b.opt.Mode = Make
	made := b.lay()
	is(t, made.Length, 500)
	b.opt.Mode = KeptOnly
	is(t, b.lay().Length, 500)
	b.opt.Parts = []string{"lining"}
	if n := len(b.cut().Lays); n != 0 {
		t.Errorf("%d lays of a part that is not wanted", n)
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name, cloth, pieces string
		want                []string
	}{
		{"too wide, turns and joins", "width: 1020\nselvedge: 10\n", rectangles("1", "[1200, 300]"), []string{
			"panel: 1200 mm wide, the cloth has 1000 mm",
			"cloth of 1220 mm would do",
			"with a quarter turn it fits: grain: across",
			"with a join along the grain, in the middle, it fits (300 mm more to sew)",
		}},
		{"shrinkage counts", "width: 1000\nshrink: {along: 0, across: 10}\n", rectangles("1", "[950, 950]"), []string{
			"the cloth has 900 mm",
			"cloth of 1055.6 mm would do", // 950 ÷ 0.9
		}},
		{"two joins", "width: 500\n", rectangles("1", "[1200, 600]"), []string{
			"with 2 joins along the grain, every 400 mm across, it fits (1200 mm more to sew)",
		}},
		{"on fold", "width: 300\n", onFold, []string{
			"with a centre seam it fits: cut: 2 (300 mm more to sew)",
		}},
		// Full circle, waist 700, length 600, hem 15, sides 10: R = 711.408 + 15.
		// Half discs are 1452.8 wide; in n panels 2(√(R² − 10²) sin(π/n) + 10 cos(π/n)).
		{"ring", "width: 1000\n", "pieces:\n  skirt: {allowance: 10, circle: {share: 1, waist: 700, length: 600, panels: 2}, edges: {hem: 15}}\n", []string{
			"1452.8 mm wide", "in 5 panels it fits, each 870", " wide as cut: panels: 5",
		}},
	} {
		l := benchWith(t, c.cloth, c.pieces).lay()
		if l.Plan != nil || len(l.Misfits) == 0 {
			t.Errorf("%s: it was laid", c.name)
			continue
		}
		got := l.Misfits[0].String()
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q\nlacks %q", c.name, got, want)
			}
		}
		if !strings.Contains(l.Needed.Value.Why, l.Misfits[0].Of) {
			t.Errorf("%s: needed is not known, because %q", c.name, l.Needed.Value.Why)
		}
	}
	if w4, w5 := panel(726.408, 10, 4), panel(726.408, 10, 5); w4 <= 1000 || math.Floor(w5) != 870 {
		t.Errorf("four panels would be %v wide, five %v", w4, w5)
	}
}

// TestRefusalInInches: a room of inches is told of inches. 1200 mm are
// 47 1/4 in, 1000 mm 39 3/8 in to a sixteenth; 1220 mm are 48.03 in, the next
// sixteenth 48 1/16 in.
func TestRefusalInInches(t *testing.T) {
	b := benchWith(t, "width: 1020 mm\nselvedge: 10 mm\n", "units: mm\n"+rectangles("1", "[1200, 300]"))
	b.file("content/workroom.yaml", "name: Test\ncurrency: EUR\nunits: in\nshow: in\nusual: {allowance: 15 mm}\n")
	l := b.lay()
	if len(l.Misfits) == 0 {
		t.Fatal("it was laid")
	}
	got := l.Misfits[0].String()
	for _, want := range []string{
		"47 1/4 in wide, the cloth has 39 3/8 in",
		"cloth of 48 1/16 in would do",
		"it fits (11 13/16 in more to sew)",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q\nlacks %q", got, want)
		}
	}
}

// panel is how wide one of n panels of a full ring is as cut.
func panel(outer, side float64, n int) float64 {
	sin, cos := math.Sincos(math.Pi / float64(n))
	return 2 * (math.Sqrt(outer*outer-side*side)*sin + side*cos)
}

// TestWholeRing: a full circle in one piece has no width to its slit; it is
// laid as the disc it is (reference table: 1452.8 with a hem of 15).
func TestWholeRing(t *testing.T) {
	l := benchWith(t, "width: 1500\n", "pieces:\n  skirt: {allowance: 0, circle: {share: 1, waist: 700, length: 600, panels: 1}, edges: {hem: 15}}\n").lay()
	if l.Plan == nil {
		t.Fatal(l.Why)
	}
	if math.Abs(l.Length.Value.Number-1452.816) > 0.2 {
		t.Errorf("length %v, want 1452.8", l.Length.Value.Number)
	}
	l = benchWith(t, "width: 1400\n", "pieces:\n  skirt: {allowance: 0, circle: {share: 1, waist: 700, length: 600, panels: 1}, edges: {hem: 15}}\n").lay()
	if l.Plan != nil {
		t.Error("a disc of 1452.8 is laid on 1400")
	}
}

// TestBadOutline: a piece that cannot be drawn is named.
func TestBadOutline(t *testing.T) {
	b := benchWith(t, "width: 1000\n", "pieces:\n  bow: {outline: {from: [0, 0], a: [100, 100], b: [100, 0], c: [0, 100], d: [0, 0]}}\n")
	room, _, err := record.Open(b.dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	bf, _ := room.BuildNamed("test")
	build, _ := room.ReadBuild(bf)
	cut := NewCutter(context.Background(), room, tailor, Options{}).Cut(build)
	if l := cut.Lays[0]; l.Plan != nil || !strings.Contains(l.Why, `piece "bow" cannot be laid`) {
		t.Errorf("%q", l.Why)
	}
}
