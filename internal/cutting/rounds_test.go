package cutting

import (
	"math"
	"testing"
)

// A panel of 200 by 310 without allowance, alone on cloth 1 400 wide and laid
// as drawn, takes 310 mm. Round 1 moves a side and changes nothing of that;
// round 2 takes 10 mm off its hem.
const fitted = `
pieces:
  panel:
    allowance: 0
    outline:
      from: [0, 0]
      hem: [200, 0]
      side: [200, 310]
      waist: [0, 310]
      centre: [0, 0]
fittings:
  - {day: 2026-08-09, saw: tight, change: {panel.side: 10}}
  - {day: 2026-08-10, saw: long, change: {panel.hem: -10}}
`

func TestLaysOfRounds(t *testing.T) {
	b := benchWith(t, "width: 1400\n", fitted)
	lengths := func(cut *Cutting) (out []float64) {
		for _, r := range cut.Rounds.List {
			for _, e := range r.Effects {
				if e.Of == "shell, lay" {
					out = append(out, float64(r.Number), e.By.Value.Number)
				}
			}
		}
		return out
	}
	if got := lengths(b.cut()); len(got) != 0 {
		t.Fatalf("lays that nobody planned are told of: %v", got)
	}
	for round, want := range map[int]float64{0: 310, 1: 310, 2: 300} {
		cut := b.cutter().CutAt(b.build(), round)
		if len(cut.Lays) != 1 || cut.Garment.Round != round {
			t.Fatalf("round %d: %d lays of round %d", round, len(cut.Lays), cut.Garment.Round)
		}
		is(t, cut.Lays[0].Length, want)
	}
	if got := lengths(b.cut()); len(got) != 2 || got[0] != 2 || math.Abs(got[1]+10) > 1e-3 {
		t.Errorf("the lay became longer by %v, want −10 mm in round 2 only", got)
	}
}
