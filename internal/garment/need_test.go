package garment

import (
	"math"
	"testing"

	"hembook/internal/record"
)

// 2400 mm of lay at 4 % takes 2500 mm (derived); 1000 finished after −3 % is
// cut from 1030.93 (dimensional change as ISO 5077 defines it, formula read).
func TestNeed(t *testing.T) {
	for _, c := range []struct {
		shrink                   string
		lay, laid, needed, spare float64
		enough                   bool
		cost                     string
	}{
		{"4", 2400, 2500, 2600, 650, true, "52.00 EUR"},
		{"3", 1000, 1030.9278, 1100, 2119.0722, true, "22.00 EUR"},
		{"4", 3072, 3200, 3300, -50, false, "66.00 EUR"},
	} {
		r := roomWith(t).file("content/cloth/linen.yaml", "name: Linen\nfibres: {linen: 100}\nwidth: 1400\nprice: 20 EUR\non-hand: 3.2 m\nshrink: {along: "+c.shrink+"}\n")
		d := r.desk()
		g, _ := d.derive(t, head+"cloth: {shell: linen}\n")
		n := d.tailor.Need(g.Cloths[0], c.lay)
		for name, pair := range map[string][2]float64{
			"laid": {n.Laid.Value.Number, c.laid}, "needed": {n.Needed.Value.Number, c.needed}, "spare": {n.Spare.Value.Number, c.spare},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-4 {
				t.Errorf("%s of %v at %s %% = %v, want %v", name, c.lay, c.shrink, pair[0], pair[1])
			}
		}
		if cost := n.Cost.Open(record.ToFigure); cost.Value.Money.String() != c.cost || n.Enough != c.enough {
			t.Errorf("%v at %s %%: %s, enough %v; want %s, %v", c.lay, c.shrink, cost.Value.Money, n.Enough, c.cost, c.enough)
		}
		if was := g.Cloths[0].Needed.ID; n.Needed.ID != was {
			t.Errorf("the figure is called %s, and before the lay %s", n.Needed.ID, was)
		}
	}
}
