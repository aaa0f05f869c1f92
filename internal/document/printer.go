package document

import (
	"math"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// A Printer prints values as a workroom shows them.
type Printer struct {
	Style  measure.Style
	Moment string // how moments are written, as package time has it; in full words unless said
	kept   map[measure.Quantity][2]string
}

const (
	momentForm = "2 January 2006, 15:04"
	dayForm    = "2 January 2006"
	mostKept   = 10_000 // printed values: there is no end of them
)

// Value is what a figure says, in both units where the workroom shows both.
func (p *Printer) Value(v figure.Value) string {
	words, other := p.Two(v)
	if other != "" {
		words += " (" + other + ")"
	}
	return words
}

// Two is what a figure says, and the same in other units where the workroom
// shows both.
func (p *Printer) Two(v figure.Value) (words, other string) {
	switch {
	case !v.Known():
		return say.Of("document.not-known"), ""
	case v.Money != nil:
		return p.Style.Money(v.Money.Round()), ""
	case v.Moment != nil:
		if p.Moment != "" {
			return v.Moment.Format(p.Moment), ""
		}
		return v.Moment.Format(momentForm), ""
	case v.Exact && (v.Unit == measure.UnitMM && !onTape(v.Number) || v.Unit == measure.UnitDegree):
		words = p.Style.PreciseQuantity(v.Quantity) // as it was written, to the last digit
		if p.Style.System == measure.Both && v.Unit == measure.UnitMM {
			_, other = p.Style.Two(v.Quantity)
		}
		return words, other
	}
	if s, ok := p.kept[v.Quantity]; ok {
		return s[0], s[1]
	}
	if p.kept == nil || len(p.kept) > mostKept {
		p.kept = map[measure.Quantity][2]string{}
	}
	words, other = p.Style.Two(v.Quantity)
	p.kept[v.Quantity] = [2]string{words, other}
	return words, other
}

// Shown is what a figure says where it stands alone: a dash where it is a
// length of nothing.
func (p *Printer) Shown(v figure.Value) (words, other string) {
	words, other = p.Two(v)
	if v.Known() && (v.Unit == measure.UnitMM || v.Unit == measure.UnitM || v.Unit == measure.UnitDegree) && nothing(words) {
		return "–", ""
	}
	return words, other
}

// nothing reports whether words are a measure of zero.
func nothing(words string) bool {
	return words == "0°" || strings.HasPrefix(words, "0 ")
}

// Words is what an inline says without its voice, with the same in other units
// where there is such.
func (p *Printer) Words(r *Inline) (words, other string) {
	switch {
	case r.Figure != nil && r.Figure.ID == "":
		return "", ""
	case r.Figure != nil:
		return p.Shown(r.Figure.Value)
	case r.When != nil:
		return r.When.Format(dayForm), ""
	}
	return r.Words, r.Other
}

// Said is a figure in words: its value, or why that is not known.
func (p *Printer) Said(f *figure.Figure) string {
	if !f.Value.Known() {
		return say.Of("document.not-known-because", f.Value.Why)
	}
	return p.Value(f.Value)
}

// onTape reports whether a table shows a number of millimetres in full: whole
// ones, and below a centimetre whole tenths.
func onTape(mm float64) bool {
	if math.Abs(mm) < 10 {
		mm *= 10
	}
	return math.Abs(mm-math.Round(mm)) < 1e-6
}
