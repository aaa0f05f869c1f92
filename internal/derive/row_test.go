package derive

import (
	"math"
	"testing"

	"hembook/internal/garment"
)

// A bodice of a fused front and a pleated back, worked by hand. A leg of the dart is
// √(15² + 80²) = 81.394 and is sewn in both halves: 0.16279 m. Two pleats of either
// half are stitched 60 down: 4 × 60 = 0.24 m. The sides are 400 and there are two of
// them, 0.8 m, as French seams in two rows, of which the second, 9 from the fold,
// passes beside the allowances trimmed to 3, through front, fusing and back alone. The hem is 4 × 240 = 0.96 m; the waist
// 2 × (240 − 30) + 2 × (240 − 2 × 2 × 10) = 820, 0.82 m. All in all 2.98279 m are sewn.
// In lockstitch there are 2 × 0.8 + 0.96 + 0.82 + 0.16279 + 0.24 = 3.78279 m of rows;
// at 2.5, half of it each, the needle and the bobbin give 4.72849 m. A buttonhole is
// 18 + 3 = 21; five are 0.105 m and take 36 times that by hand, 3.78 m of needle thread.
const stitchedBodice = `
cloth: {shell: linen, fusing: web}
thread: {white: {colour: white, reel: 100 m, needle: 90, stitch-length: 2.5}}
pieces:
  front: {cut: 1 on fold, of: [shell, fusing], allowance: 20, outline: {hem: [240, 0], side: [240, 400], waist: [0, 400], fold: fold}, darts: {waist: {at: 100, width: 30, length: 80}}}
  back: {cut: 1 on fold, of: shell, allowance: 20, outline: {hem: [240, 0], side: [240, 400], waist: [0, 400], fold: fold}, pleats: {waist: {count: 2, depth: 10, stitched: 60, drawn: true}}}
seams:
  sides: {join: [front.side, back.side], type: french, first: 6, second: 9, trim: 3}
finishes:
  hem: {of: [front.hem, back.hem], type: double-turned-hem, depth: 10}
  waist edge: {of: [front.waist, back.waist], type: double-turned-hem, depth: 10}
notions:
  buttons: {count: 5, size: 18, thick: 3, by: hand}
work:
  darts: 20 min
  pleats: 20 min
  sides: 30 min
  hem and waist: {takes: 30 min, sews: [hem, waist edge]}
  buttonholes: 2 h
`

func TestRowsOfABodice(t *testing.T) {
	room := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nthick: 0.5\n").
		file("content/cloth/web.yaml", "name: Web\nfibres: {polyamide: 100}\nwidth: 900\nthick: 0.2\n")
	g := deriveClean(t, room, stitchedBodice)
	g.is(t, 1e-5, map[string]float64{
		"piece.front.darts": 0.16279, "piece.back.pleats": 0.24, "total.sewn": 2.98279, "notion.buttons.hole": 21, "notion.buttons.holes": 0.105,
		"thread.white.needle": 4.72849 + 3.78 + 0.96, "thread.white.under": 4.72849,
		"step.darts.metres": 0.16279, "step.pleats.metres": 0.24, "step.sides.metres": 0.8, "step.hem-and-waist.metres": 1.78,
	})
	if len(g.Machine) != 1 {
		t.Fatalf("the machine is set in %d ways", len(g.Machine))
	}
	white := &g.Machine[0]
	if got := setFor(white); white.Thread != "white" || got != "sides, hem, waist edge, darts, pleats" { // the buttonholes are worked by hand
		t.Errorf("%s sews %s", white.Thread, got)
	}
	if white.Needle != "90" || white.StitchLength.MM() != 2.5 {
		t.Errorf("the machine is set to needle %q, stitch length %v", white.Needle, white.StitchLength.MM())
	}
	want := []struct {
		kind    garment.RowKind
		of      string
		rows    int
		hand    bool
		counts  bool
		step    string
		plies   float64
		mm      float64
		unknown bool
	}{
		{garment.SeamRow, "sides", 1, false, true, "sides", 3, 0.5 + 0.2 + 0.5, false},
		{garment.SeamRow, "sides", 1, false, false, "sides", 3, 0.5 + 0.2 + 0.5, false},
		{garment.FinishRow, "hem", 1, false, true, "hem-and-waist", 6, 3 * 0.7, false},
		{garment.FinishRow, "waist edge", 1, false, true, "hem-and-waist", 6, 3 * 0.7, false},
		{garment.DartRow, "front", 1, false, true, "darts", 4, 2 * 0.7, false},
		{garment.PleatRow, "back", 1, false, true, "pleats", 2, 1, false},
		{garment.HoleRow, "buttons", 1, true, false, "buttonholes", 0, 0, true},
		{garment.ButtonRow, "buttons", 1, true, false, "", 0, 0, true},
	}
	if len(g.Rows) != len(want) {
		t.Fatalf("there are %d rows, not %d", len(g.Rows), len(want))
	}
	tailor, _, _ := room.open()
	for i, through := range tailor.Through(g.Garment) {
		r, w := through.Row, want[i]
		step := ""
		if len(r.Steps()) > 0 {
			step = g.Build.Work[r.Steps()[0]].StepID()
		}
		if r.Kind != w.kind || r.Of != w.of || r.Rows != w.rows || r.Hand != w.hand || r.Lasting != w.counts || step != w.step {
			t.Errorf("row %d is %s of %s, %d rows, hand %t, counts %t, at %q; not %+v", i+1, r.Kind, r.Of, r.Rows, r.Hand, r.Lasting, step, w)
		}
		if through.Plies.Value.Known() == w.unknown || !w.unknown && (through.Plies.Value.Number != w.plies || math.Abs(through.Thickness.Value.Number-w.mm) > 1e-9) {
			t.Errorf("row %d passes %v, %v mm thick; not %v, %v", i+1, through.Plies.Value, through.Thickness.Value, w.plies, w.mm)
		}
	}
}

// TestRawEdgeIsNotSewn: what has no row is no length sewn.
func TestRawEdgeIsNotSewn(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces: {strip: {cut: 1, of: shell, allowance: 0, rectangle: [300, 100]}}
finishes:
  ends: {of: [strip.left, strip.right], type: raw}
  long edge: {of: strip.top, type: zigzagged-edge}
`)
	g.is(t, 1e-9, map[string]float64{"total.sewn": 0.3})
}

// TestDartsOfALining: a step that speaks of darts and sews the shell's seams sews the
// shell's darts; those of the lining, which it does not touch, are sewn in the first
// step that sews a seam of theirs. A leg is √(10² + 60²) = 60.828, twice.
func TestDartsOfALining(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
pieces:
  front: {cut: 1 on fold, of: shell, outline: {hem: [240, 0], side: [240, 400], waist: [0, 400], fold: fold}, darts: {waist: {at: 100, width: 20, length: 60}}}
  back: {cut: 1 on fold, of: shell, outline: {hem: [240, 0], side: [240, 400], waist: [0, 400], fold: fold}}
  lining: {like: [front, back], of: lining}
seams:
  sides: {join: [front.side, back.side], type: plain}
  lining: {like: sides}
work:
  sew darts and sides: {takes: 30 min, sews: sides}
  sew the inside: {takes: 30 min, sews: lining}
`)
	g.is(t, 1e-5, map[string]float64{"step.sew-darts-and-sides.metres": 0.8 + 0.121655, "step.sew-the-inside.metres": 0.8 + 0.121655})
}
