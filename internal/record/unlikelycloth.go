package record

import (
	"fmt"
	"math"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/words"
)

// What a cloth seldom falls below or goes beyond: our own choice, no source. Tape and
// ribbon are notions; a heavy coating weighs 700 g/m2, a canvas 900.
const (
	seldomNarrow = 250  // mm
	seldomHeavy  = 1200 // g/m2
)

// Narrow reports whether a cloth has no width, or one that is told to be too little.
func (c *Cloth) Narrow() bool { return !c.Width.Given() || c.Width.V.MM() < seldomNarrow }

// unlikely warns of a cloth that is far narrower or heavier than cloth is.
func (c *Cloth) unlikely(faults *fault.Faults, bare measure.Unit) {
	for _, share := range [...]Percent{c.Stretch.Across, c.Stretch.Along, c.Recovery} {
		if v := float64(share.V); share.Given() && v > 0 && v <= 1 {
			now := trim(math.Round(1e4*v) / 100)
			faults.LookAgain(share.At, say.Of("record.did-you-mean-if-not-leave-it", now), say.Of("record.it-is-written-in-is-next-to", trim(v))).
				InsteadAt(share.At, "", now)
		}
	}
	if c.Recovery.Given() && !c.Stretch.Given() {
		faults.LookAgain(c.Recovery.At, say.Of("record.write-it-too-as-stretch"), say.Of("record.recovery-tells-how-much-goes-back-after"))
	}
	if c.Weighed.Given() && !c.Mass.Given() {
		faults.LookAgain(c.Weighed.At, say.Of("record.write-what-a-square-metre-weighs-as"), say.Of("record.weighed-tells-whether-it-was-washed"))
	}
	if mm := c.Width.V.MM(); c.Width.Given() && mm < seldomNarrow {
		now := words.Tape(measure.UnitCM).Exact(10 * mm)
		faults.LookAgain(c.Width.At, say.Of("record.did-you-mean-if-not-leave-it", now), say.Of("record.is-little-for-a-cloth-from-selvedge", words.Tape(bare).Exact(mm))).
			InsteadAt(c.Width.At, "", now)
	}
	if g := float64(c.Mass.V); c.Mass.Given() && g > seldomHeavy {
		now := fmt.Sprintf("%s g/m2", trim(g/10))
		faults.LookAgain(c.Mass.At, say.Of("record.did-you-mean-if-not-leave-it", now), say.Of("record.g-m2-is-a-lot-for-a", trim(g))).
			InsteadAt(c.Mass.At, "", now)
	}
}
