package record

import (
	"hembook/internal/fault"
	"hembook/internal/words"
)

// seldom warns of a length that is far beyond what is usual for its kind. Most
// often it was thought in another unit, or a point was left out, so a tenth of
// it is offered. What is usual is our own choice, no source.
func (d *decoder) seldom(at fault.Pos, mm, most float64) {
	tape, tenth := words.Tape(d.bare), mm/10
	hint := "is the unit right? without one it is in the units of the record"
	if tenth <= most {
		hint = "did you mean " + tape.Exact(tenth) + "? if not, leave it as it is"
	}
	d.faults.Warnf(at, hint, "%s is a lot here: it is seldom more than %s", tape.Exact(mm), tape.About(most))
}
