package notebook

import (
	"strings"

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
	var out []string
	for _, p := range t.Passes {
		words := fill(p.Do, params, style)
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
			words += "; " + fill(p.Then, params, style)
		}
		out = append(out, words)
	}
	return out
}

// fill replaces {formula} in a text by its value as a length.
func fill(text string, params trade.Params, style measure.Style) string {
	var b strings.Builder
	for {
		head, rest, ok := strings.Cut(text, "{")
		b.WriteString(head)
		if !ok {
			return b.String()
		}
		formula, tail, closed := strings.Cut(rest, "}")
		value := formula
		if e, err := trade.ParseExpr(formula); err == nil {
			if w, err := e.Eval(params); err == nil {
				value = style.Length(measure.MM(w.Value))
			}
		}
		b.WriteString(value)
		if !closed {
			return b.String()
		}
		text = tail
	}
}
