package record

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A much is a length that is far beyond what is usual for its kind.
type much struct {
	at       fault.Pos
	text     string // as it is written
	mm, most float64
}

// seldom notes a length that is far beyond what is usual for its kind: our own
// choice, no source.
func (d *decoder) seldom(at fault.Pos, text string, mm, most float64) {
	d.much = append(d.much, much{at, text, mm, most})
}

// mostMuch is how many lengths of one file may be too large each for itself; of more
// the unit is wrong.
const mostMuch = 2

// tellMuch warns of what seldom noted: of all together, where they were measured in
// millimetres and are read in another unit, else of each. units is where the file says
// its unit, if it does. It reports whether it told of all together.
func (d *decoder) tellMuch(units Text) (together bool) {
	one := measure.Quantity{Number: 1, Unit: d.bare}.In(measure.UnitMM).Number
	if len(d.much) > mostMuch && d.bare != measure.UnitMM &&
		!slices.ContainsFunc(d.much, func(m much) bool { return m.mm/one > m.most }) {
		tape := words.Tape(d.bare)
		var few []string
		for _, m := range d.much[:mostMuch+1] {
			few = append(few, tape.Exact(m.mm))
		}
		at := units.At
		if !at.Given() {
			at = d.much[0].at
		}
		d.faults.LookAgain(at, say.Of("record.were-they-measured-in-mm-write-units"), say.Of("record.lengths-here-are-far-beyond-what-is", len(d.much), meant.List(few, "and"))).
			InsteadAt(units.At, units.V, "mm")
		return true
	}
	for _, m := range d.much {
		d.tellOne(m)
	}
	return false
}

// tellOne warns of one length. Most often it was thought in another unit, or a point
// was left out, so a part of it is offered.
func (d *decoder) tellOne(m much) {
	tape := words.Tape(d.bare)
	hint, meant := say.Of("record.is-the-unit-right-without-one-it"), ""
	for _, part := range [...]float64{10, 100} {
		if now := m.mm / part; now <= m.most {
			hint, meant = say.Of("record.did-you-mean-if-not-leave-it", tape.Exact(now)), m.parted(part)
			break
		}
	}
	d.faults.LookAgain(m.at, hint, say.Of("record.is-a-lot-here-it-is-seldom", tape.Exact(m.mm), tape.About(m.most))).
		InsteadAt(m.at, m.text, meant)
}

// parted is the length as it is written, its number parted by so much; "" where it is
// written as a fraction.
func (m *much) parted(by float64) string {
	end := strings.LastIndexAny(m.text, "0123456789") + 1
	number, err := strconv.ParseFloat(m.text[:end], 64)
	if err != nil {
		return ""
	}
	return trim(number/by) + m.text[end:]
}
