package derive

import (
	"math"
	"os"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/record"
)

func bodice(t *testing.T) (*desk, *record.Build) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/rounds/bodice.yaml")
	if err != nil {
		t.Fatal(err)
	}
	d := supperRoom(t).desk()
	if err := os.WriteFile(d.path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	b, faults := d.room.ReadBuild(d.bf)
	for _, f := range faults {
		t.Error(f)
	}
	return d, b
}

// The arithmetic is written out in testdata/rounds/bodice.txt.
func TestBodiceByHand(t *testing.T) {
	d, b := bodice(t)
	for round, want := range []map[string]float64{
		{"piece.front.edge.side.length": 100, "level.waist.finished": 660, "level.bust.finished": 2*(210-20.0/3) + 400, "length.nape-to-waist.finished": 80,
			"piece.front-lining.edge.side.length": 87.5, "piece.front-lining.edge.top.length": 232.5, "seam.sides.difference": 0, "piece.front-lining.edge.waist.sewn": 160},
		{"piece.front.edge.side.length": 100, "level.waist.finished": 700, "level.bust.finished": 2*(220-20.0/3) + 420, "length.nape-to-waist.finished": 80,
			"piece.front-lining.edge.side.length": 87.5, "piece.front-lining.edge.top.length": 242.5, "seam.sides.difference": 0, "piece.front-lining.edge.waist.sewn": 170},
		{"piece.front.edge.side.length": 100, "level.waist.finished": 684, "level.bust.finished": 2*(220-28.0/3) + 420, "length.nape-to-waist.finished": 80,
			"piece.front-lining.edge.side.length": 87.5, "piece.front-lining.edge.top.length": 242.5, "piece.front-lining.edge.waist.sewn": 162},
		{"piece.front.edge.side.length": 90, "level.waist.finished": 684, "level.bust.finished": 2*(220-28.0/3) + 420, "length.nape-to-waist.finished": 72,
			"piece.front-lining.edge.side.length": 77.5, "piece.front-lining.edge.top.length": 236.5, "seam.sides.difference": 0, "seam.lining-sides.difference": 0},
	} {
		g := d.tailor.DeriveAt(b, round)
		if g.Round != round || len(g.Faults) > 0 {
			t.Errorf("round %d: it says %d, with %v", round, g.Round, g.Faults)
		}
		garmentIs(t, g, want)
	}
}

func garmentIs(t *testing.T, g *Garment, want map[string]float64) {
	t.Helper()
	got := map[string]float64{}
	for _, f := range g.Figures() {
		got[f.ID] = f.Value.Number
	}
	for id, v := range want {
		if have, ok := got[id]; !ok || math.Abs(have-v) > 1e-5 {
			t.Errorf("round %d: %s = %v, want %v", g.Round, id, have, v)
		}
	}
}

func TestEffectsByHand(t *testing.T) {
	d, b := bodice(t)
	g := d.tailor.Derive(b)
	rounds := d.tailor.Rounds(g)
	got := map[string]float64{}
	for _, f := range rounds.Figures() {
		if _, twice := got[f.ID]; twice || f.Working.Sum() == "" || f.Working.Source == "" {
			t.Errorf("%s is there twice or has no working: %+v", f.ID, f.Working)
		}
		got[f.ID] = f.Value.Number
	}
	want := map[string]float64{
		"round.1.change.1.level.waist.finished":          20,
		"round.1.change.2.level.waist.finished":          20,
		"round.1.level.waist.finished":                   40,
		"round.1.level.bust.finished":                    40,
		"round.1.cloth.shell.cut-area":                   0.0044,
		"round.1.cloth.lining.cut-area":                  0.0040,
		"round.2.level.waist.finished":                   -16,
		"round.2.level.bust.finished":                    -16.0 / 3,
		"round.3.change.1.seam.sides.difference":         10,
		"round.3.change.2.seam.sides.difference":         -10,
		"round.3.length.nape-to-waist.finished":          -8,
		"round.3.change.1.length.nape-to-waist.finished": -8,
		"round.3.change.1.seam.lining-sides.difference":  10,
		"round.3.change.2.seam.lining-sides.difference":  -10,
		"round.1.change.1.cloth.shell.cut-area":          0.0022,
		"round.1.change.2.cloth.lining.cut-area":         0.0020,
	}
	for id, v := range want {
		if have, ok := got[id]; !ok || math.Abs(have-v) > 1e-5 {
			t.Errorf("%s = %v (%v), want %v", id, have, ok, v)
		}
	}
	for id := range got {
		if strings.HasPrefix(id, "round.2.cloth") {
			t.Errorf("%s: a wider dart takes no more cloth", id)
		}
	}
	if states := rounds.Of("front"); len(states) != 4 || states[2].Round != 2 {
		t.Errorf("the front has %d states, want 4", len(states))
	}
	if states := rounds.Of("back lining"); len(states) != 3 || states[2].Round != 3 {
		t.Errorf("the back lining has %d states, want 3", len(states))
	}
}

// Drawing the rounds into the record and saying drawn: true gives the same
// garment now, and the same states before, as keeping the draft.
func TestDrawnRoundsAreUndone(t *testing.T) {
	const draft = head + `
cloth: {shell: linen}
pieces:
  front:
    outline:
      from: [0, 0]
      waist: {to: [180, 0], level: waist}
      side: [240, 80]
      top: [0, 80]
      centre: [0, 0]
fittings:
  - {day: 2026-08-09, saw: tight, change: {front.side: 8}}
  - {day: 2026-08-10, saw: high, change: {front.top: {start: -8}}}
`
	drawn := strings.NewReplacer("[180, 0]", "[190, 0]", "[240, 80]", "[245.2, 73.6]", "saw: tight", "saw: tight, drawn: true", "saw: high", "saw: high, drawn: true").Replace(draft)
	d := roomWith(t).desk()
	var states [2][]*Garment
	for i, text := range []string{draft, drawn} {
		d.derive(t, text)
		b, faults := d.room.ReadBuild(d.bf)
		if fault.HasErrors(faults) {
			t.Fatal(faults)
		}
		for round := range 3 {
			states[i] = append(states[i], d.tailor.DeriveAt(b, round))
		}
	}
	for round := range 3 {
		a, b := states[0][round].Pieces[0].Outline, states[1][round].Pieces[0].Outline
		for i := range a.Edges {
			if a.Edges[i].To.Apart(b.Edges[i].To) > 1e-5 {
				t.Errorf("round %d: edge %d ends at %v and at %v", round, i, a.Edges[i].To, b.Edges[i].To)
			}
		}
	}
}

// A chain: the facing is like the lining, which is like the front.
func TestChainFollows(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen}
pieces:
  front: {rectangle: [100, 200], darts: {bottom: {at: 50, width: 20, length: 50}}}
  lining: {like: front, change: {top: -10}}
  facing: {like: lining, change: {bottom dart: {unsewn: true}, right: {lengthen: 5}}}
fittings:
  - {day: 2026-08-09, saw: tight, change: {front.right: 7, front.top: {move: 4, alone: true}}}
`)
	if len(faults)+len(g.Faults) > 0 {
		t.Fatal(faults, g.Faults)
	}
	garmentIs(t, g, map[string]float64{
		"piece.front.edge.bottom.sewn": 87, "piece.front.edge.right.length": 204,
		"piece.lining.edge.bottom.sewn": 87, "piece.lining.edge.right.length": 190,
		"piece.facing.edge.bottom.length": 107, "piece.facing.edge.right.length": 195, "piece.facing.edge.left.length": 190,
	})
}

func TestTurnDart(t *testing.T) {
	g, faults := roomWith(t).desk().derive(t, head+`
cloth: {shell: linen}
pieces:
  front: {rectangle: [100, 100], darts: {bottom: {at: 50, width: 20, length: 50}}, notches: {bottom: 90, right: 70}}
  turned: {like: front, change: {bottom dart: {rotate: {to: right, at: 50}}}}
`)
	if len(faults)+len(g.Faults) > 0 {
		t.Fatal(faults, g.Faults)
	}
	wide := 2 * 50 * 10 / math.Sqrt(2600) // twice the way to the point times the sine of half the angle
	garmentIs(t, g, map[string]float64{
		"piece.turned.edge.bottom.length": 80,
		"piece.turned.edge.right.length":  100 + wide, "piece.turned.edge.right.sewn": 100, "piece.turned.edge.right.intake": wide,
		"piece.turned.dart-1.leg": 50,
	})
	p := g.Pieces[1]
	if d := p.Darts[0].Record; math.Abs(d.Along.V.MM()-50-wide/2) > 1e-5 {
		t.Errorf("the dart opens at %v", d.Along.V)
	}
	if n := p.NotchesAlong(); math.Abs(n[0].Along-70) > 1e-5 || math.Abs(n[1].Along-70-wide) > 1e-5 {
		t.Errorf("the notches lie at %v and %v", n[0].Along, n[1].Along)
	}
}
