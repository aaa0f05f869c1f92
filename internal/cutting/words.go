package cutting

import (
	"strings"

	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

const (
	millimetres = measure.UnitMM

	derived  trade.Source = "derived"
	practice trade.Source = "common practice, no source"
	engine   trade.Source = "the lay plan: a search that a separate checker has looked over"
)

func number(v float64, decimals int) string { return measure.Style{}.Number(v, decimals) }

// mm prints a length for a working.
func mm(v float64) string { return number(v, 3) + " mm" }

func quoted(s string) string { return `"` + s + `"` }

// joined sets words side by side, each once.
func joined(words []string) string {
	var out []string
	seen := map[string]bool{}
	for _, w := range words {
		if !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}

func of(v float64, unit measure.Unit) garment.Value {
	return garment.Value{Quantity: measure.Quantity{Number: v, Unit: unit}}
}

func unknown(why string) garment.Value { return garment.Value{Why: why} }

// A sheet writes the figures of one lay.
type sheet struct {
	base, part string
	in         []garment.Input
}

func (s *sheet) note(name, value, from string) *sheet {
	s.in = append(s.in, garment.Input{Name: name, Value: value, From: from})
	return s
}

// noteAt notes what stands in a record, or what is taken where nothing does.
func (s *sheet) noteAt(name, value string, at record.Pos) *sheet {
	in := garment.Input{Name: name, Value: value, At: at}
	if !at.Given() {
		in.From = "default"
	}
	s.in = append(s.in, in)
	return s
}

// use notes another figure.
func (s *sheet) use(name string, f *garment.Figure) *sheet {
	value := "not known"
	switch {
	case !f.Value.Known():
	case f.Value.Money != nil:
		value = f.Value.Money.String()
	default:
		value = measure.Style{}.PreciseQuantity(f.Value.Quantity)
	}
	return s.note(name, value, f.ID)
}

// figure finishes a figure with the inputs noted.
func (s *sheet) figure(name, title string, v garment.Value, rule, sum string, source trade.Source) garment.Figure {
	if v.Known() && v.Money == nil && !finite(v.Number) {
		v = unknown("the numbers are beyond what can be reckoned with")
	}
	f := garment.Figure{ID: s.base + name, Title: title, Of: s.part, Value: v}
	f.Working = garment.Working{Rule: rule, Inputs: s.in, Source: source}
	if v.Known() {
		f.Working.Sum = sum
	}
	s.in = nil
	return f
}
