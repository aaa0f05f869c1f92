package measure

import (
	"errors"
	"strconv"

	"hembook/internal/say"
)

// A Dimension is the kind of thing a unit measures.
type Dimension uint8

// The dimensions. Money has no unit of its own here: see [Money].
const (
	NoDim            Dimension = iota
	LengthDim                  // mm, in
	AreaDim                    // mm², in²
	MassDim                    // g, oz
	ArealMassDim               // mass of cloth by its area: g/m², oz/yd²
	LinearDensityDim           // mass of thread by its length: tex
	DurationDim                // min, h
	MoneyDim                   // amounts of money, held by Money
	RatioDim                   // ×
	PercentDim                 // %
	CountDim                   // pieces, buttons, stitches
	AngleDim                   // °
	RateDim                    // time by length of seam: min/m
	PieceRateDim               // time by piece: min/piece
	StitchDensityDim           // stitches by length of seam: per cm
	lastDim
)

var dimensionNames = [lastDim]string{
	NoDim: "nothing", LengthDim: "length", AreaDim: "area", MassDim: "weight",
	ArealMassDim: "weight by area", LinearDensityDim: "weight by length",
	DurationDim: "time", MoneyDim: "money", RatioDim: "ratio",
	PercentDim: "percentage", CountDim: "count", AngleDim: "angle",
	RateDim: "time by length", PieceRateDim: "time by piece",
	StitchDensityDim: "stitch density",
}

// String returns the name of d in plain words, such as "weight by area".
func (d Dimension) String() string {
	if d < lastDim {
		return dimensionNames[d]
	}
	return "dimension " + strconv.Itoa(int(d))
}

// A Unit is one of the units this package knows. The set is closed; the zero
// Unit is NoUnit, which stands for a unit nobody gave.
type Unit uint8

// The units.
const (
	NoUnit Unit = iota
	UnitMM
	UnitCM
	UnitM
	UnitIn
	UnitFt
	UnitYd
	UnitMM2
	UnitCM2
	UnitM2
	UnitIn2
	UnitYd2
	UnitG
	UnitKG
	UnitOz
	UnitLb
	UnitGPerM2
	UnitOzPerYd2
	UnitMomme
	UnitTex
	UnitSecond
	UnitMin
	UnitHour
	UnitDay
	UnitWeek
	UnitPercent
	UnitRatio
	UnitCount
	UnitDegree
	UnitMinPerM
	UnitMinPerYd
	UnitMinPerPiece
	UnitPerCM
	UnitPerInch
	lastUnit
)

// A unitFact is what is known of a unit: num ÷ den of the base unit of its
// dimension, exactly, and the decimals that a table shows.
type unitFact struct {
	symbol   string
	dim      Dimension
	num, den int64
	system   System // Both where the unit belongs to either
	other    Unit   // its neighbour in the other system, or NoUnit
	decimals int
	names    []string // further spellings that are read
}

// Factors: the inch, the pound and what follows from them are exact (NIST SP
// 811 appendix B, from memory); a momme is one pound by 100 yd of cloth 45 in
// wide (from memory); tex is grams by kilometre (ISO 1144, from memory).
var units = [lastUnit]unitFact{
	NoUnit: {den: 1},

	UnitMM: {"mm", LengthDim, 1, 1, Metric, UnitIn, 1, []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	UnitCM: {"cm", LengthDim, 10, 1, Metric, UnitIn, 2, []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	UnitM:  {"m", LengthDim, 1000, 1, Metric, UnitYd, 2, []string{"metre", "metres", "meter", "meters"}},
	UnitIn: {"in", LengthDim, 127, 5, Imperial, UnitMM, 3, []string{"inch", "inches", "ins", `"`, "″", "”", "''", "′′", "’’"}},
	UnitFt: {"ft", LengthDim, 1524, 5, Imperial, UnitM, 3, []string{"foot", "feet", "'", "′", "’"}},
	UnitYd: {"yd", LengthDim, 4572, 5, Imperial, UnitM, 3, []string{"yds", "yard", "yards"}},

	UnitMM2: {"mm²", AreaDim, 1, 1, Metric, UnitIn2, 0, []string{"sq mm", "square millimetre", "square millimetres", "square millimeter", "square millimeters"}},
	UnitCM2: {"cm²", AreaDim, 100, 1, Metric, UnitIn2, 1, []string{"sq cm", "square centimetre", "square centimetres", "square centimeter", "square centimeters"}},
	UnitM2:  {"m²", AreaDim, 1_000_000, 1, Metric, UnitYd2, 3, []string{"sq m", "square metre", "square metres", "square meter", "square meters"}},
	UnitIn2: {"in²", AreaDim, 16129, 25, Imperial, UnitCM2, 1, []string{"sq in", "square inch", "square inches"}},
	UnitYd2: {"yd²", AreaDim, 20903184, 25, Imperial, UnitM2, 3, []string{"sq yd", "square yard", "square yards"}},

	UnitG:  {"g", MassDim, 1, 1, Metric, UnitOz, 1, []string{"gram", "grams", "gramme", "grammes"}},
	UnitKG: {"kg", MassDim, 1000, 1, Metric, UnitLb, 3, []string{"kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"}},
	UnitOz: {"oz", MassDim, 45359237, 1600000, Imperial, UnitG, 1, []string{"ounce", "ounces"}},
	UnitLb: {"lb", MassDim, 45359237, 100000, Imperial, UnitKG, 2, []string{"lbs", "pound", "pounds"}},

	UnitGPerM2:   {"g/m²", ArealMassDim, 1, 1, Metric, UnitOzPerYd2, 1, []string{"gsm", "g/sq m", "grams/m²", "grams/square metre", "grams/square meter"}},
	UnitOzPerYd2: {"oz/yd²", ArealMassDim, 5669904625, 167225472, Imperial, UnitGPerM2, 1, []string{"oz/sq yd", "ounces/square yard"}},
	UnitMomme:    {"momme", ArealMassDim, 45359237, 10451592, Both, NoUnit, 1, []string{"mommes"}},
	UnitTex:      {"tex", LinearDensityDim, 1, 1, Both, NoUnit, 1, nil},

	UnitSecond: {"s", DurationDim, 1, 60, Both, NoUnit, 0, []string{"sec", "secs", "second", "seconds"}},
	UnitMin:    {"min", DurationDim, 1, 1, Both, NoUnit, 1, []string{"mins", "minute", "minutes"}},
	UnitHour:   {"h", DurationDim, 60, 1, Both, NoUnit, 2, []string{"hr", "hrs", "hour", "hours"}},
	UnitDay:    {"d", DurationDim, 1440, 1, Both, NoUnit, 1, []string{"day", "days"}},
	UnitWeek:   {"wk", DurationDim, 10080, 1, Both, NoUnit, 1, []string{"wks", "week", "weeks"}},

	UnitPercent: {"%", PercentDim, 1, 1, Both, NoUnit, 1, []string{"percent", "per cent", "pc"}},
	UnitRatio:   {"×", RatioDim, 1, 1, Both, NoUnit, 2, []string{"x", "times"}},
	UnitCount:   {"", CountDim, 1, 1, Both, NoUnit, 2, nil},
	UnitDegree:  {"°", AngleDim, 1, 1, Both, NoUnit, 0, []string{"deg", "degs", "degree", "degrees", "º"}},

	UnitMinPerM:     {"min/m", RateDim, 1, 1, Metric, UnitMinPerYd, 1, []string{"minutes/metre", "minutes/meter"}},
	UnitMinPerYd:    {"min/yd", RateDim, 1250, 1143, Imperial, UnitMinPerM, 1, []string{"minutes/yard"}},
	UnitMinPerPiece: {"min/piece", PieceRateDim, 1, 1, Both, NoUnit, 1, []string{"minutes/piece"}},
	UnitPerCM:       {"/cm", StitchDensityDim, 1, 1, Metric, UnitPerInch, 1, []string{"stitches/cm"}},
	UnitPerInch:     {"/in", StitchDensityDim, 50, 127, Imperial, UnitPerCM, 1, []string{"stitches/in", "stitches/inch", "spi"}},
}

// AllUnits returns every unit, in a fixed order, without NoUnit.
func AllUnits() []Unit {
	all := make([]Unit, 0, lastUnit-1)
	for u := NoUnit + 1; u < lastUnit; u++ {
		all = append(all, u)
	}
	return all
}

func (u Unit) fact() *unitFact {
	if u < lastUnit {
		return &units[u]
	}
	return &units[NoUnit]
}

// Symbol returns how u is written after a number: "mm", "g/m²", "%". A count
// has none.
func (u Unit) Symbol() string { return u.fact().symbol }

// String returns the symbol of u, "count" for a count, "no unit" for NoUnit.
func (u Unit) String() string {
	switch {
	case u == UnitCount:
		return "count"
	case u.fact().dim == NoDim:
		return "no unit"
	}
	return u.Symbol()
}

// Dimension returns what u measures; NoDim for NoUnit.
func (u Unit) Dimension() Dimension { return u.fact().dim }

// system returns the system u belongs to, Both where it belongs to either.
func (u Unit) system() System {
	if u == NoUnit {
		return Both
	}
	return u.fact().system
}

// Factor returns how many base units one u is, as the exact fraction num/den.
// The base units are mm, mm², g, g/m², tex, min, %, ×, count, °, min/m,
// min/piece and stitches per cm.
func (u Unit) Factor() (num, den int64) { return u.fact().num, u.fact().den }

// ParseUnit reads a unit as it may stand after a number, such as "mm",
// "inches" or "oz/yd2", or the word "count". It reports false for what it does not know.
func ParseUnit(text string) (Unit, bool) {
	if text == "count" {
		return UnitCount, true
	}
	u := lookUp(text)
	return u, u != NoUnit
}

// MarshalText writes u as String does, for JSON and the like.
func (u Unit) MarshalText() ([]byte, error) { return []byte(u.String()), nil }

// UnmarshalText reads what MarshalText wrote, or any spelling of a unit.
func (u *Unit) UnmarshalText(text []byte) error {
	if string(text) == "no unit" {
		*u = NoUnit
		return nil
	}
	got, ok := ParseUnit(string(text))
	if !ok {
		return errors.New(say.Of("measure.unknown-unit-2", say.Quoted(text)))
	}
	*u = got
	return nil
}

// Imperial returns the neighbour of a metric unit, and any other unit as it is.
func (u Unit) Imperial() Unit {
	if f := u.fact(); u != NoUnit && f.system == Metric {
		return f.other
	}
	return u
}
