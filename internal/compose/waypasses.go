package compose

import (
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// WayPasses are the passes of a way of sewing as sentences with their widths, in English:
// what is done, and what follows it.
func WayPasses(w *garment.Way, style measure.Style) []string {
	var out []string
	for _, p := range notebook.Passes(w.Type, w.Measures, style, w.Sides) {
		says := sentence(p.Do)
		if p.Then != "" {
			says += " " + sentence(p.Then)
		}
		out = append(out, says)
	}
	return out
}
