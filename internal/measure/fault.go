package measure

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// wrongAt is what is wrong with a text from one of its bytes on, as a [fault.List] of
// one. Its column is that of the character in the text, from 1: whoever knows
// where the text stands moves it there.
func wrongAt(text string, from int, message, hint string) error {
	return wrongAs(text, from, message, hint, "")
}

// wrongAs is as wrongAt, with the whole text as it was probably meant.
func wrongAs(text string, from int, message, hint, meant string) error {
	return fault.List{*fault.InText(utf8.RuneCountInString(text[:from]), message, hint).Whole(meant)}
}

// quote returns text in quotation marks, cut short if it is long.
func quote(text string) string {
	if strings.Contains(text, `"`) {
		return "'" + clip(text) + "'"
	}
	return `"` + clip(text) + `"`
}

// clip cuts a long text short, and makes it one that can be shown.
func clip(text string) string {
	const most = 32
	clean := strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) {
			return '\ufffd'
		}
		return r
	}, text)
	if utf8.RuneCountInString(clean) > most {
		clean = string([]rune(clean)[:most]) + "…"
	}
	return clean
}

// unitsOf lists the symbols of the units of a dimension, as "mm, cm or m".
func unitsOf(dim Dimension) string {
	var all []string
	for _, u := range AllUnits() {
		if u.Dimension() == dim && u.Symbol() != "" {
			all = append(all, u.Symbol())
		}
	}
	return meant.List(all, "or")
}

// article returns the name of a dimension with its article.
func article(dim Dimension) string {
	if dim == AreaDim || dim == AngleDim {
		return "an " + dim.String()
	}
	return "a " + dim.String()
}

// nearest returns the symbol of the unit of a dimension whose spelling is nearest
// to text; empty where none is near.
func nearest(text string, dim Dimension) string {
	guess := meant.For(tidy(text))
	for _, u := range AllUnits() {
		if u.Dimension() == dim {
			guess.TryAs(u.Symbol(), u.Symbol())
			for _, name := range u.fact().names {
				guess.TryAs(name, u.Symbol())
			}
		}
	}
	return guess.Best()
}

// wrongKind returns a hint for a part whose unit is of another dimension than
// the wanted, and what was probably meant; number is how it was written.
func wrongKind(number string, p amount, want Dimension) (hint, meant string) {
	type pair struct {
		want Dimension
		got  Unit
	}
	switch got := (pair{want, p.unit}); got {
	case pair{DurationDim, UnitM}:
		meant = number + " min"
		return say.Of("measure.for-minutes-write", meant), meant
	case pair{ArealMassDim, UnitMM}:
		meant = number + " momme"
		return say.Of("measure.for-the-weight-of-silk-write", meant), meant
	case pair{ArealMassDim, UnitG}:
		meant = number + " g/m²"
	case pair{ArealMassDim, UnitOz}:
		meant = number + " oz/yd²"
	case pair{LengthDim, UnitMin}:
		meant = number + " m"
		return say.Of("measure.for-metres-write", meant), meant
	case pair{LengthDim, UnitRatio}:
		return say.Of("measure.write-each-length-on-its-own"), ""
	case pair{RatioDim, UnitPercent}:
		value, _ := p.rat().Float64()
		meant = Style{}.Number(value/100, 6)
	default:
		return writeIn(want), ""
	}
	return say.Of("measure.write", meant), meant
}

// writeIn is the hint that names the units of a dimension.
func writeIn(dim Dimension) string {
	if dim == RatioDim || dim == CountDim {
		return say.Of("measure.write-the-number-alone")
	}
	return say.Of("measure.write-it-in", unitsOf(dim))
}

// nextUnit is the unit that a number is most often in after one with a larger unit.
var nextUnit = map[Unit]string{UnitFt: "in", UnitYd: "in", UnitM: "cm", UnitLb: "oz", UnitKG: "g", UnitHour: "min", UnitMin: "s"}

// likely are the two units that a number without one is most often in.
var likely = map[Dimension][2]string{
	LengthDim: {"mm", "in"}, MassDim: {"g", "oz"}, ArealMassDim: {"g/m²", "oz/yd²"}, DurationDim: {"min", "h"},
}

// withUnit shows how to write a number that has no unit: in the unit that
// would follow the last one, or in the two that are likely, the likelier first.
func withUnit(number string, want Dimension, last Unit) (hint, meant string) {
	if u := nextUnit[last]; u != "" {
		meant = number + " " + u
		return say.Of("measure.write", meant), meant
	}
	if u, ok := likely[want]; ok {
		meant = number + " " + u[0]
		return say.Of("measure.write-or", meant, number+" "+u[1]), meant
	}
	return say.Of("measure.write-with", number, unitsOf(want)), ""
}

// apart writes a space between the figures and the letters of a time, as 1 h 30 min of
// 1h 30 min.
func apart(text string) string {
	var out strings.Builder
	last := ' '
	for _, r := range text {
		if unicode.IsLetter(r) && unicode.IsDigit(last) || unicode.IsDigit(r) && unicode.IsLetter(last) {
			out.WriteByte(' ')
		}
		out.WriteRune(r)
		last = r
	}
	return out.String()
}
