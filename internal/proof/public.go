package proof

import (
	"strings"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// Public says everything that may be shown of a workroom, and the words that
// come with the program, for [Secrets.Private].
func Public(room *record.Room) func(say func(words string)) {
	return func(say func(words string)) {
		room.PublicWords(say)
		for _, t := range trade.Glossary() {
			say(t.Term + " " + t.Definition)
		}
	}
}

// SayFigure says a figure's value in every system it may be shown in, with a point
// and with a comma, as its reader writes it; for [Secrets.NotOf].
func SayFigure(f *figure.Figure, say func(words string)) {
	both := func(value string) {
		say(value)
		if strings.Contains(value, ".") {
			say(strings.ReplaceAll(value, ".", ","))
		}
	}
	for _, style := range []measure.Style{{}, {Unit: measure.UnitCM}, {System: measure.Imperial}} {
		both(style.Quantity(f.Value.Quantity))
		both(style.PreciseQuantity(f.Value.Quantity))
	}
}
