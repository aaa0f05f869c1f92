package measure

import (
	"strings"

	"hembook/internal/say"
)

// ParseRatio reads a ratio such as "3/4", "1.5", "1 1/2", "2×" or "3:2".
func ParseRatio(text string) (Quantity, error) {
	before, after, found := strings.Cut(text, ":")
	if !found {
		return parseQuantity(text, RatioDim, UnitRatio, false)
	}
	top, err := parseQuantity(before, RatioDim, UnitRatio, false)
	if err != nil {
		return Quantity{}, within(err, text, 0)
	}
	bottom, err := parseQuantity(after, RatioDim, UnitRatio, false)
	if err != nil {
		return Quantity{}, within(err, text, len(before)+1)
	}
	if bottom.Number == 0 {
		return Quantity{}, wrongAt(text, len(before)+1, say.Of("measure.a-ratio-to-0"), "")
	}
	return Quantity{Number: top.Number / bottom.Number, Unit: UnitRatio}, nil
}
