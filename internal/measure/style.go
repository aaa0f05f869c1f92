package measure

import (
	"math"
	"strings"
	"time"
)

// A System is a family of units to show things in.
type System uint8

// The systems. Both shows metric with imperial in brackets.
const (
	Metric System = iota
	Imperial
	Both
)

// A Style is how a workroom prints. The zero Style is metric, lengths in
// millimetres, with a decimal point.
type Style struct {
	System   System
	Unit     Unit   // of metric lengths: UnitMM (also when unset), UnitCM or UnitM
	Language string // a BCP 47 tag such as "de"; it decides the decimal mark
}

// One is s in one system: the metric one where s shows both.
func (s Style) One() Style {
	if s.System == Both {
		s.System = Metric
	}
	return s
}

// Length prints l as a table shows it: as a tape reads it, to whole
// millimetres, or to 1/16 in. What is shorter than a centimetre and written in
// tenths, as the length of a stitch, keeps them.
func (s Style) Length(l Length) string {
	return s.both(func(one System) string {
		if one == Imperial {
			text, _ := Inches(l)
			return text
		}
		return s.metric(l, onTape(l))
	})
}

// onTape is how many decimals of a millimetre l is shown with.
func onTape(l Length) int {
	if l.Abs() < MM(10) && l%(Millimetre/10) == 0 {
		return 1
	}
	return 0
}

// Range prints from where to where something reaches: "1 – 1288 mm".
func (s Style) Range(from, to Length) (one, other string) {
	show := func(in System) string {
		var first, last string
		if in == Imperial {
			first, _ = Inches(from)
			last, _ = Inches(to)
		} else {
			first, last = s.metric(from, 0), s.metric(to, 0)
		}
		symbol := last[strings.LastIndexByte(last, ' '):]
		return strings.TrimSuffix(first, symbol) + " – " + last
	}
	if s.System == Both {
		other = show(Imperial)
	}
	return show(s.One().System), other
}

// Precise prints l for a working: to 0.001 mm, or to 0.001 in.
func (s Style) Precise(l Length) string {
	return s.both(func(one System) string {
		if one == Imperial {
			return s.inUnit(l.In(UnitIn), 3)
		}
		return s.metric(l, 3)
	})
}

// Cloth prints a length of cloth: in metres to the centimetre, or in yards
// and eighths where that is exact, else in yards and inches.
func (s Style) Cloth(l Length) string {
	s.Unit = UnitM
	return s.both(func(one System) string {
		if one == Imperial {
			return yards(l)
		}
		return string(appendScaled(nil, int64(l), 9, 2, s.mark())) + " m"
	})
}

// Quantity prints q as a table shows it: in its own unit where that belongs
// to the system of s, else in the neighbouring unit of that system; what is in
// millimetres prints as Length does. A number that is none prints as "not
// known".
func (s Style) Quantity(q Quantity) string {
	if q.system() == Both || !finite(q.Number) {
		return s.plain(q)
	}
	return s.both(func(one System) string {
		if q.system() != one {
			return s.plain(q.In(q.Unit.fact().other))
		}
		return s.plain(q)
	})
}

// Two prints q as Quantity does, each system for itself: other is empty unless
// s shows both and q has a unit in both.
func (s Style) Two(q Quantity) (one, other string) {
	both := s.System == Both && q.system() != Both && finite(q.Number)
	one = s.One().Quantity(q)
	if both {
		s.System = Imperial
		if other = s.Quantity(q); other == "0 in" && one != "0 mm" {
			other = "" // as beside has it
		}
	}
	return one, other
}

// PreciseQuantity prints q to the last digit: in its own unit, or where s is
// imperial in the neighbouring one, with up to three decimals; whole sixteenths
// of an inch as a tape reads them.
func (s Style) PreciseQuantity(q Quantity) string {
	if s.System == Imperial && q.system() == Metric {
		q = q.In(q.Unit.Imperial())
	}
	if l, ok := q.Length(); ok && s.System == Imperial && q.Unit == UnitIn {
		if text, off := Inches(l); off == 0 {
			return text
		}
	}
	return s.inUnit(q, 3)
}

// Number prints a bare number with up to so many decimals, half away from
// zero, as it would stand in a column that names its unit.
func (s Style) Number(x float64, decimals int) string {
	return string(appendFloat(nil, x, min(max(decimals, 0), 15), s.mark()))
}

// Duration prints d in hours and minutes, "1 h 20 min"; what is shorter than
// a minute in seconds.
func (s Style) Duration(d time.Duration) string {
	sign, size := "", magnitude(int64(d))
	if size < uint64(time.Minute) {
		return string(appendScaled(nil, int64(d), 9, 0, s.mark())) + " s"
	}
	if d < 0 {
		sign = minusSign
	}
	minutes := (size + uint64(30*time.Second)) / uint64(time.Minute)
	return sign + hoursAndMinutes(minutes)
}

// system returns the system of the unit of q.
func (q Quantity) system() System { return q.Unit.system() }

func hoursAndMinutes(minutes uint64) string {
	h, m := int64(minutes/60), int64(minutes%60)
	hours := string(appendScaled(nil, h, 0, 0, ".")) + " h"
	rest := string(appendScaled(nil, m, 0, 0, ".")) + " min"
	switch {
	case h == 0:
		return rest
	case m == 0:
		return hours
	}
	return hours + " " + rest
}

// both prints once for a single system, else metric (imperial).
func (s Style) both(show func(System) string) string {
	if s.System != Both {
		return show(s.System)
	}
	return beside(show(Metric), show(Imperial))
}

// beside is a metric print with the imperial one in brackets. What is less than half a
// sixteenth of an inch but something in millimetres is said in those alone.
func beside(metric, imperial string) string {
	if imperial == "0 in" && metric != "0 mm" {
		return metric
	}
	return metric + " (" + imperial + ")"
}

// metric prints l in the metric unit of s with as many decimals as make so
// many of a millimetre.
func (s Style) metric(l Length, decimals int) string {
	scale, symbol := 6, " mm"
	switch s.Unit {
	case UnitCM:
		scale, symbol = 7, " cm"
	case UnitM:
		scale, symbol = 9, " m"
	}
	return string(appendScaled(nil, int64(l), scale, decimals+scale-6, s.mark())) + symbol
}

// plain prints q in its own unit with the decimals that the unit is used to.
func (s Style) plain(q Quantity) string {
	if !finite(q.Number) {
		return s.inUnit(q, 0)
	}
	switch q.Unit {
	case UnitMM:
		if l, ok := q.Length(); ok {
			return s.metric(l, onTape(l))
		}
	case UnitIn, UnitFt:
		if l, ok := q.Length(); ok {
			text, _ := Inches(l)
			return text
		}
	case UnitYd:
		if l, ok := q.Length(); ok {
			return yards(l)
		}
	case UnitMin, UnitHour:
		if d, ok := q.duration(); ok && d.Abs() >= time.Hour {
			return s.Duration(d)
		}
		return s.inUnit(q.In(UnitMin), 1)
	}
	decimals := q.Unit.fact().decimals
	if (q.Unit == UnitG || q.Unit == UnitCM2) && math.Abs(q.Number) >= 100 {
		decimals = 0 // as scales and squared paper tell it
	}
	return s.inUnit(q, enough(q.Number, decimals))
}

// enough adds decimals, three at most, to what would be shown as nothing and is
// something.
func enough(x float64, decimals int) int {
	for more := range 3 {
		if x == 0 || math.Round(math.Abs(x)*math.Pow10(decimals+more)) >= 1 {
			return decimals + more
		}
	}
	return decimals + 3
}

// inUnit prints q in its own unit with at most so many decimals.
func (s Style) inUnit(q Quantity, decimals int) string {
	text := appendFloat(nil, q.Number, decimals, s.mark())
	symbol := q.Unit.Symbol()
	if !finite(q.Number) || symbol == "" {
		return string(text)
	}
	if q.Unit != UnitDegree {
		text = append(text, ' ')
	}
	return string(append(text, symbol...))
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
