package trade

import (
	"slices"
	"strings"
)

// A TrimWeight is what a trim usually weighs: one piece of it, a metre of it, or a cubic
// centimetre, in grams. Only one of them is given.
type TrimWeight struct {
	Words   []string `yaml:"words"`
	One     float64  `yaml:"one,omitempty"`
	Metre   float64  `yaml:"metre,omitempty"`
	Density float64  `yaml:"density,omitempty"` // g/cm³
	Source  Source   `yaml:"source"`
}

type weightTable struct {
	Weights []TrimWeight `yaml:"weights"`
}

var weightData = onceTable[weightTable]("weights")

// UsualWeight is what a trim usually weighs, by what a record says of it: its kind, its
// material, its remark. A metal button may be hollow, so that nothing is said of one.
func UsualWeight(says string) (TrimWeight, bool) {
	says = strings.ToLower(says)
	has := func(word string) bool { return strings.Contains(says, word) }
	if has("button") && slices.ContainsFunc([]string{"brass", "metal", "steel", "pewter", "silver", "covered"}, has) {
		return TrimWeight{}, false
	}
	for _, row := range weightData().Weights {
		if !slices.ContainsFunc(row.Words, func(word string) bool { return !has(word) }) {
			return row, true
		}
	}
	return TrimWeight{}, false
}
