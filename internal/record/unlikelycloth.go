package record

import (
	"fmt"

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
