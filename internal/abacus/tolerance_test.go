package abacus_test

import (
	"math"
	"strings"

	"hembook/internal/abacus"
)

// allowed is how far a figure of a kind may differ. The program measures edges
// to a hundredth of a millimetre, and a seam adds up to a dozen of them; the
// second calculator draws a curve as 512 straight bits. What is cut is promised
// to lie within 0.05 mm of where it should, at either side of a piece; an area
// may differ by much less than that along its whole border.
func allowed(kind string, f abacus.Figure) float64 {
	size := math.Abs(f.Value)
	switch f.Unit {
	case "mm":
		switch {
		case strings.HasSuffix(kind, ".side-1"), strings.HasSuffix(kind, ".side-2"), strings.HasSuffix(kind, ".difference"), strings.HasPrefix(kind, "level."):
			return 0.05 + 1e-5*size
		}
		if kind == "piece.*.width" || kind == "piece.*.height" {
			return 0.1 // a line at either side
		}
		return 0.05
	case "cm²":
		if kind == "piece.*.area" {
			return 0.02 + 1e-5*size
		}
		return 0.1 + 1e-5*size
	case "m²":
		return 4e-5 + 2e-5*size
	case "m":
		return 5e-5 + 1e-5*size
	case "g":
		return 0.01 + 4e-5*size
	case "%":
		return 0.01
	case "×":
		return 1e-4 * size
	}
	return 1e-6 + 1e-9*size
}

// mayWithhold says of which figures the program may say that it does not know
// them though the second calculator has a value: widths round the body are
// withheld where nobody can say that they are right.
func mayWithhold(kind string) bool {
	return strings.HasPrefix(kind, "level.") || strings.HasPrefix(kind, "piece.*.level.")
}

// worked says which kinds the second calculator works out whenever the program
// knows them.
func worked(kind string) bool {
	switch kind {
	case "piece.*.edge.*.length", "piece.*.edge.*.intake", "piece.*.edge.*.sewn", "piece.*.edge.*.allowance", "piece.*.area", "piece.*.cut-area",
		"cloth.*.area", "cloth.*.cut-area", "cloth.*.mass", "seam.*.total", "finish.*.total", "thread.*.total", "step.*.spent", "step.*.metres", "total.mass", "cost.total":
		return true
	}
	return false
}
