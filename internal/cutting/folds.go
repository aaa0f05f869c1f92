package cutting

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/lay"
)

// FoldWords says how cloth lies, in a few words.
func FoldWords(f lay.Folding) string {
	switch f.Fold {
	case lay.Lengthwise:
		return "folded lengthwise"
	case lay.Crosswise:
		return "folded crosswise"
	case lay.BothSelvedges:
		return "both selvedges folded in"
	case lay.PartWidth:
		return "folded over part of its width"
	case lay.PartLength:
		return "folded over part of its length"
	}
	return "single layer"
}

// AcrossFrom says what distances across the cloth are measured from.
func AcrossFrom(f lay.Folding) string {
	switch f.Fold {
	case lay.Open, lay.Crosswise:
		return "the selvedge"
	case lay.BothSelvedges:
		return "the left fold"
	case lay.PartLength:
		return "the fold or the selvedge"
	}
	return "the fold"
}

// AlongFrom says what distances along the cloth are measured from.
func AlongFrom(f lay.Folding) string {
	if f.Fold == lay.Crosswise {
		return "the fold"
	}
	return "the cut end"
}

// doing says how the cloth is folded, chalked and cut, in the order of doing; nothing for
// a single layer.
func (l *Lay) doing() []string {
	f, width := l.Plan.Folding, l.Problem.Lay.Cloth.Width
	length := func(mm float64) string { return l.Problem.tape.about(math.Round(mm)) } // finer is not chalked
	two, one := l.numbers(true), l.numbers(false)
	sides := "right sides together"
	if l.lopsidedAlone() {
		sides = "its right side out" // what is cut from one layer is chalked on its right side
	}
	through := "Chalk " + two + "; cut through both layers."
	upper := ""
	if one != "" {
		upper = "Cut " + one + " from the upper layer alone."
	}
	half := length(width / 2)
	switch f.Fold {
	case lay.Lengthwise:
		return said("Fold the cloth lengthwise, "+sides+", selvedge on selvedge: it lies "+half+" wide without the selvedges.", through, upper)
	case lay.Crosswise:
		return said(fmt.Sprintf("Cut off %s. Fold it across, %s, cut end on cut end: it lies %s long. Distances along the cloth are from the fold.",
			length(l.Plan.Length), sides, length(l.Plan.Length/2)), through, upper)
	case lay.BothSelvedges:
		return said(fmt.Sprintf("Fold the left selvedge in by %s and the right one by %s, %s, so that they meet; both without the selvedges.",
			length(f.Near), length(f.Far), sides), through, upper)
	case lay.PartWidth:
		return said(fmt.Sprintf("Fold the left selvedge in by %s, without the selvedge, %s. The rest stays a single layer, right side up.", length(f.Near), sides),
			through, "Chalk "+one+" on the single layer; cut once.")
	case lay.PartLength:
		return said("Chalk a line across the cloth, "+length(f.Long)+" from the cut end.",
			"Up to it fold the cloth lengthwise, "+sides+", selvedge on selvedge: it lies "+half+" wide without the selvedges.",
			through, "Unfold the rest, right side up. Chalk "+one+" beyond the line, from the selvedge; cut once.")
	}
	return nil
}

func said(lines ...string) []string {
	return slices.DeleteFunc(lines, func(s string) bool { return s == "" })
}

// numbers are those of the pieces cut through two layers, or from one.
func (l *Lay) numbers(two bool) string {
	var out []string
	for i := range l.Chalked {
		if q := &l.Chalked[i]; (q.Pair || q.OnFold) == two {
			out = append(out, strconv.Itoa(q.Number))
		}
	}
	switch n := len(out); n {
	case 0, 1:
		return strings.Join(out, "")
	default:
		return strings.Join(out[:n-1], ", ") + " and " + out[n-1]
	}
}

// lopsidedAlone reports whether a piece that is not its own mirror image is cut from one
// of two layers.
func (l *Lay) lopsidedAlone() bool {
	for i := range l.Chalked {
		q := &l.Chalked[i]
		of := slices.IndexFunc(l.Problem.Lay.Pieces, func(p lay.Piece) bool { return p.Name == q.Piece })
		if g := l.Problem.Pieces[of]; q.Alone && (g == nil || g.Mirrored) {
			return true
		}
	}
	return false
}
