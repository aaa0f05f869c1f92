package figure

import (
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// A Setting is a default with where it comes from.
type Setting struct {
	V      float64
	At     fault.Pos // in the workroom's file; not given where it is the program's own
	Source trade.Source
}

// Term is a setting as a term.
func (s Setting) Term(p *Pad, name string, unit measure.Unit) Term {
	if s.At.Given() {
		return p.Written(name, s.V, unit, s.At)
	}
	return p.Usual(name, s.V, unit)
}
