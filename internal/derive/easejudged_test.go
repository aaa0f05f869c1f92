package derive

import (
	"strings"
	"testing"

	"hembook/internal/fitting"
)

// A waist of 4 × 184 = 736 mm on bodies of several widths, in cloths that stretch or do
// not (elementary arithmetic): in one that gives 50 % it reaches 736 × 1.5 = 1 104, in one of 20 % 883.2. The
// trade's table asks 13 of a waist in woven cloth.
func TestEaseIsJudgedByItsCloth(t *testing.T) {
	const untold, little = "structure: knitted\n", "structure: knitted\nstretch: {across: 20, along: 20}\n"
	for _, c := range []struct {
		cloth, body string
		want        fitting.Judgement
	}{
		{ribJersey, "920", fitting.Stretches},
		{ribJersey, "1110", fitting.TooNarrow},
		{ribJersey, "730", fitting.Gives},  // 6 of ease
		{ribJersey, "723", fitting.Enough}, // 13
		{untold, "920", fitting.Untold},    // nobody says how far
		{untold, "730", fitting.Gives},     // wider than the body
		{little, "880", fitting.Stretches}, // 883.2 is enough
		{little, "890", fitting.TooNarrow}, // and here it is not
		{"", "730", fitting.Tight},         // woven
		{"", "723", fitting.Enough},        // woven
		{"", "{}", fitting.NotJudged},      // no body
	} {
		cloth := c.cloth
		if !strings.HasPrefix(cloth, "name") {
			cloth = "name: Cloth\nfibres: {cotton: 100}\nwidth: 1500\n" + cloth
		}
		build := strings.Replace(strings.Replace(jerseyTop, "least-ease: {waist: -200}, ", "", 1), "{waist: 920}", "{waist: "+c.body+"}", 1)
		if c.body == "{}" {
			build = strings.Replace(build, "drafted-for: {waist: {}}\n", "", 1)
		}
		g, faults := roomWith(t).file("content/cloth/jersey.yaml", cloth).desk().derive(t, head+build)
		if len(faults) > 0 || len(g.Fit.Levels) == 0 {
			t.Fatalf("%q on %s: %v", c.cloth, c.body, faults)
		}
		if got := g.Fit.Levels[0].Judged; got != c.want {
			t.Errorf("%q on %s: %d, want %d; %v, %v", c.cloth, c.body, got, c.want, g.Fit.Levels[0].Ease.Value.Number, g.Faults)
		}
	}
}
