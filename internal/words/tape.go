package words

import (
	"math"
	"strings"

	"hembook/internal/measure"
)

// A Tape prints lengths in millimetres in the unit of a record, as a maker reads them
// off: mm, cm with a point, inches with fractions. Units other than these print as mm.
type Tape measure.Unit

// Exact prints a length without needless digits.
func (t Tape) Exact(mm float64) string { return t.print(mm, 3) }

// Tenth prints a length to a tenth of a millimetre, always, or to a sixteenth of an
// inch.
func (t Tape) Tenth(mm float64) string {
	text := t.print(mm, 1)
	if measure.Unit(t) == measure.UnitMM && !strings.Contains(text, ".") {
		text = strings.TrimSuffix(text, " mm") + ".0 mm"
	}
	return text
}

// About prints a length as a tape reads it: whole millimetres, and tenths of what is
// less than a centimetre.
func (t Tape) About(mm float64) string {
	if mm <= -10 || mm >= 10 {
		return t.print(mm, 0)
	}
	return t.print(mm, 1)
}

// Number prints a length as About does, to a tenth of a millimetre and without its
// unit.
func (t Tape) Number(mm float64) string {
	text := t.print(mm, 1)
	return text[:len(text)-len(t.unit())]
}

// Written is a length as a record has it, without its unit: to a tenth of a millimetre, or
// a thousandth of an inch.
func (t Tape) Written(mm float64) string {
	switch measure.Unit(t) {
	case measure.UnitCM:
		return PlainNumber(mm/10, 2)
	case measure.UnitIn:
		return PlainNumber(mm/25.4, 3)
	}
	return PlainNumber(mm, 1)
}

// PlainNumber is a number as records and files have it, with a hyphen for a minus.
func PlainNumber(v float64, decimals int) string {
	return strings.ReplaceAll(string(AppendNumber(nil, v, decimals)), "−", "-")
}

func (t Tape) unit() string {
	switch measure.Unit(t) {
	case measure.UnitCM:
		return " cm"
	case measure.UnitIn:
		return " in"
	}
	return " mm"
}

// print prints a length to so many decimals of a millimetre.
func (t Tape) print(mm float64, decimals int) string {
	switch measure.Unit(t) {
	case measure.UnitCM:
		return string(AppendNumber(nil, mm/10, decimals+1)) + t.unit()
	case measure.UnitIn:
		text, _ := measure.Inches(measure.MM(mm))
		if math.Abs(mm) < 25.4/32 && mm != 0 { // less than the tape shows
			text = string(AppendNumber(nil, mm/25.4, 3)) + t.unit()
		}
		return text
	}
	return string(AppendNumber(nil, mm, decimals)) + t.unit()
}
