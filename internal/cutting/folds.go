package cutting

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/lay"
	"hembook/internal/say"
)

// FoldWords says how cloth lies, in a few words.
func FoldWords(f lay.Folding) string {
	switch f.Fold {
	case lay.Lengthwise:
		return say.Of("cutting.folded-lengthwise")
	case lay.Crosswise:
		return say.Of("cutting.folded-crosswise")
	case lay.BothSelvedges:
		return say.Of("cutting.both-selvedges-folded-in")
	case lay.PartWidth:
		return say.Of("cutting.folded-over-part-of-its-width")
	case lay.PartLength:
		return say.Of("cutting.folded-over-part-of-its-length")
	}
	return say.Of("cutting.single-layer")
}

// AcrossFrom says what distances across the cloth are measured from.
func AcrossFrom(f lay.Folding) string {
	switch f.Fold {
	case lay.Open, lay.Crosswise:
		return say.Of("cutting.the-selvedge")
	case lay.BothSelvedges:
		return say.Of("cutting.the-left-fold")
	case lay.PartLength:
		return say.Of("cutting.the-fold-or-the-selvedge")
	}
	return say.Of("cutting.the-fold")
}

// AlongFrom says what distances along the cloth are measured from.
func AlongFrom(f lay.Folding) string {
	if f.Fold == lay.Crosswise {
		return say.Of("cutting.the-fold")
	}
	return say.Of("cutting.the-cut-end")
}

// doing says how the cloth is folded, chalked and cut, in the order of doing; nothing for
// a single layer.
func (l *Lay) doing() []string {
	f, width := l.Plan.Folding, l.Problem.Lay.Cloth.Width
	length := func(mm float64) string { return l.Problem.tape.about(math.Round(mm)) } // finer is not chalked
	two, one := l.numbers(true), l.numbers(false)
	sides := say.Of("cutting.right-sides-together")
	if l.lopsidedAlone() {
		sides = say.Of("cutting.its-right-side-out") // what is cut from one layer is chalked on its right side
	}
	through := say.Of("cutting.chalk-cut-through-both-layers", two)
	upper := ""
	if one != "" {
		upper = say.Of("cutting.cut-from-the-upper-layer-alone", one)
	}
	half := length(width / 2)
	switch f.Fold {
	case lay.Lengthwise:
		return said(say.Of("cutting.fold-the-cloth-lengthwise-selvedge-on", sides, half), through, upper)
	case lay.Crosswise:
		return said(say.Of("cutting.cut-off-fold-it-across-cut-end", length(l.Plan.Length), sides, length(l.Plan.Length/2)), through, upper)
	case lay.BothSelvedges:
		return said(say.Of("cutting.fold-the-left-selvedge-in-by-and", length(f.Near), length(f.Far), sides), through, upper)
	case lay.PartWidth:
		return said(say.Of("cutting.fold-the-left-selvedge-in-by-without", length(f.Near), sides),
			through, say.Of("cutting.chalk-on-the-single-layer-cut-once", one))
	case lay.PartLength:
		return said(say.Of("cutting.chalk-a-line-across-the-cloth-from", length(f.Long)),
			say.Of("cutting.up-to-it-fold-the-cloth-lengthwise", sides, half),
			through, say.Of("cutting.unfold-the-rest-right-side-up-chalk", one))
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
		return say.Of("cutting.and", strings.Join(out[:n-1], ", "), out[n-1])
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
