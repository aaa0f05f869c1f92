package notebook

import (
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// Passes says in words what is stitched in each pass, the measures filled in
// as the workroom shows them.
func Passes(t trade.SeamType, given trade.Params, style measure.Style) []string {
	params, err := t.Values(given)
	if err != nil {
		return nil
	}
	length := func(mm float64) string { return style.Length(measure.MM(mm)) }
	var out []string
	for i := range t.Passes {
		p := &t.Passes[i]
		words := p.Words(params, length)
		switch p.Together {
		case trade.RightTogether:
			words = "right sides together, " + words
		case trade.WrongTogether:
			words = "wrong sides together, " + words
		}
		if p.Temporary {
			words += " (basting, taken out again)"
		}
		if p.Then != "" {
			words += "; " + p.Afterwards(params, length)
		}
		out = append(out, words)
	}
	return out
}
