package record

import (
	"math"
	"testing"
)

// TestMassAsBought: a washed square metre that weighs 92 g, of cloth that lost 4 % and 2 %,
// weighed 92 × 0.96 × 0.98 = 86.55 g before.
func TestMassAsBought(t *testing.T) {
	for word, want := range map[string]float64{"washed": 86.5536, "unwashed": 92, "": 92} {
		var c Cloth
		c.Mass.V, c.Weighed.V, c.Shrink.Along.V, c.Shrink.Across.V = 92, word, 4, 2
		if got := c.MassAsBought(); math.Abs(got-want) > 1e-9 {
			t.Errorf("weighed %q: %v g, not %v", word, got, want)
		}
	}
}
