package derive

import (
	"math"
	"strings"
	"testing"
)

// swung is a three-quarter ring in three panels of 90 degrees: the grain runs
// down the middle of each, the bias down every seam. A panel's hem is
// R × π/2 long.
const swung = `pieces:
  skirt: {of: linen, circle: {share: 3/4, waist: 600, length: 700, panels: 3}}
cloth: {linen: linen}
`

func TestHangByHand(t *testing.T) {
	g := deriveClean(t, roomWith(t), swung+"hang: [{of: skirt.hem, after: 24 h, drops: [6, 2, 1, 2]}]\n")
	// The first station is at a seam. A quarter of the round further the next
	// lies a quarter into the next panel but for the seam between: 3/4 of a
	// panel, 22.5 degrees past the middle of the first.
	hem := 600 + 2*math.Pi*0.75*700
	g.is(t, 1e-3, map[string]float64{
		"hang.skirt-hem.around":          hem,
		"hang.skirt-hem.longest":         6,
		"hang.skirt-hem.least":           1,
		"hang.skirt-hem.spread":          5,
		"hang.skirt-hem.bias":            45,
		"hang.skirt-hem.station-1.along": 0,
		"hang.skirt-hem.station-2.along": hem / 4,
		"hang.skirt-hem.station-1.cut":   5,
		"hang.skirt-hem.station-2.cut":   1,
		"hang.skirt-hem.station-3.cut":   0,
		"hang.skirt-hem.station-2.grain": 22.5,
		"hang.skirt-hem.station-3.grain": 0, // half round is the middle of the second panel
	})
	if h := g.Fit.Hangs[0]; !h.OnBias || h.Lowest != 0 || h.Name != "skirt.hem" {
		t.Errorf("on the bias %v, lowest %d", h.OnBias, h.Lowest)
	}
}

func TestHangFromGivenStations(t *testing.T) {
	panel := (600 + 2*math.Pi*0.75*700) / 3
	for _, c := range []struct {
		name, words  string
		along, grain float64
		bias         bool
	}{
		{"a first station further on", "first: 100, drops: [3, 4]", 100, 45 - 90*100/panel, true},
		{"places one by one", "places: [50, 900], drops: [0, 2]", 50, 45 - 90*50/panel, true},
		{"round more than once", "first: 100 m, drops: [3, 4]", math.Mod(100e3, 3*panel), 0, false},
		{"a drop that is a rise", "drops: [-2, 3]", 0, 45, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := deriveClean(t, roomWith(t), swung+"hang: [{of: skirt.hem, "+c.words+"}]\n")
			s := g.Fit.Hangs[0].Stations[0]
			if math.Abs(s.Along.Value.Number-c.along) > 1e-3 {
				t.Errorf("along %v, want %v", s.Along.Value.Number, c.along)
			}
			if c.grain != 0 && math.Abs(s.Grain.Value.Number-c.grain) > 0.01 {
				t.Errorf("grain %v, want %v", s.Grain.Value.Number, c.grain)
			}
			for _, s := range g.Fit.Hangs[0].Stations {
				if s.Cut.Value.Number < 0 {
					t.Errorf("less than nothing is levelled off: %v", s.Cut.Value.Number)
				}
			}
		})
	}
}

func TestHangOfHalves(t *testing.T) {
	// Two halves cut on fold: centre front to side, and back again. Every hem
	// runs straight across the grain, so that the cloth hangs along it.
	build := `cloth: {linen: linen}
pieces:
  front:
    of: linen
    cut: 1 on fold
    outline:
      from: [0, 0]
      hem: [300, 0]
      side: [200, 500]
      waist: [0, 500]
      centre: {to: [0, 0], fold: true}
  skewed: {of: linen, grain: bias, rectangle: [300, 500]}
`
	g := deriveClean(t, roomWith(t), build+"hang: [{of: [front.hem, skewed.bottom], places: [100, 500, 700], drops: [1, 2, 9]}]\n")
	g.is(t, 1e-6, map[string]float64{
		"hang.front-hem-skewed-bottom.around":          900,
		"hang.front-hem-skewed-bottom.station-1.grain": 0,
		"hang.front-hem-skewed-bottom.station-2.grain": 0,
		"hang.front-hem-skewed-bottom.station-3.grain": 45,
	})
	if !g.Fit.Hangs[0].OnBias {
		t.Error("a piece cut on the bias hangs on the bias")
	}
}

func TestHangFaults(t *testing.T) {
	for _, c := range []struct{ words, want string }{
		{"{of: skirt.hm, drops: [1]}", `no edge "hm"`},
		{"{of: skirt.hem}", `"drops" is missing`},
		{"{of: skirt.hem, drops: [1, 2], places: [1]}", "1 places, but 2 drops"},
		{"{of: skirt.hem, drops: [1, 2], places: [1, 2], first: 3}", "where each of them is"},
		{"{of: skirt.hem, drops: [700]}", "at most 500"},
	} {
		_, faults := roomWith(t).desk().derive(t, head+swung+"hang: ["+c.words+"]\n")
		if len(faults) == 0 || !strings.Contains(faults[0].Message, c.want) {
			t.Errorf("%s: %v, want %q", c.words, faults, c.want)
		}
	}
}
