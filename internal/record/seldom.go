package record

import (
	"math"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// seldom warns of a length that is far beyond what is usual for its kind. Most
// often it was thought in another unit, or a point was left out, so a tenth of
// it is offered. What is usual is our own choice, no source.
func (d *decoder) seldom(at fault.Pos, mm, most float64) {
	tenth := mm / 10
	hint := "is the unit right? without one it is in the units of the record"
	if tenth <= most {
		hint = "did you mean " + d.inRecord(tenth, 1000) + "? if not, leave it as it is"
	}
	d.faults.Warnf(at, hint, "%s is a lot here: it is seldom more than %s", d.inRecord(mm, 1000), d.inRecord(most, 2))
}

// inRecord writes millimetres in the record's unit, to so many parts of it.
func (d *decoder) inRecord(mm, parts float64) string {
	n, unit := mm, " mm"
	switch d.bare {
	case measure.UnitCM:
		n, unit = mm/10, " cm"
	case measure.UnitIn:
		n, unit = mm/25.4, " in"
	}
	return strconv.FormatFloat(math.Round(n*parts)/parts, 'f', -1, 64) + unit
}
