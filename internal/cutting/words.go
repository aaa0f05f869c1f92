package cutting

import (
	"strings"

	"hembook/internal/measure"
	"hembook/internal/trade"
)

const (
	millimetres = measure.UnitMM

	engine trade.Source = "the lay plan: a search that a separate checker has looked over"
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
