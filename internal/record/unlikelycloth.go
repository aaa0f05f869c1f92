package record

import (
	"fmt"
	"math"

	"hembook/internal/fault"
	"hembook/internal/measure"
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
			faults.Warnf(share.At, "did you mean "+now+"? if not, leave it as it is", "it is written in %%: %s %% is next to nothing", trim(v)).
				InsteadAt(share.At, "", now)
		}
	}
	if c.Recovery.Given() && !c.Stretch.Given() {
		faults.Warnf(c.Recovery.At, "write it too, as stretch: {across: 50, along: 25}", "recovery: tells how much goes back after the cloth was stretched, and stretch: is missing")
	}
	if c.Weighed.Given() && !c.Mass.Given() {
		faults.Warnf(c.Weighed.At, "write what a square metre weighs, as weight: 190 g/m2", "weighed: tells whether it was washed when it was weighed, and weight: is missing")
	}
	if mm := c.Width.V.MM(); c.Width.Given() && mm < seldomNarrow {
		now := words.Tape(measure.UnitCM).Exact(10 * mm)
		faults.Warnf(c.Width.At, "did you mean "+now+"? if not, leave it as it is", "%s is little for a cloth from selvedge to selvedge", words.Tape(bare).Exact(mm)).
			InsteadAt(c.Width.At, "", now)
	}
	if g := float64(c.Mass.V); c.Mass.Given() && g > seldomHeavy {
		now := fmt.Sprintf("%s g/m2", trim(g/10))
		faults.Warnf(c.Mass.At, "did you mean "+now+"? if not, leave it as it is", "%s g/m2 is a lot for a cloth: a heavy coating weighs 700", trim(g)).
			InsteadAt(c.Mass.At, "", now)
	}
}
