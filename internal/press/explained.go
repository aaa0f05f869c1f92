package press

import (
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// drawings are what texts may show by name, which notebook.Drawings lists.
var drawings = map[string]func() *drawing.Drawing{
	"piece":          draw.PieceNumbered,
	"curves":         draw.CurvesNumbered,
	"corners":        draw.CornersNamed,
	"practice-skirt": draw.SkirtNumbered,
	"paper-piece":    draw.PaperAndCards,
	"tape":           taped("head", "neck", "bust", "upper arm", "reach", "waist", "hip", "skirt length", "rise", "inside leg"),
	"tape-skirt":     taped("waist", "hip", "skirt length"),
}

// taped draws where the tape goes for measurements, numbered in their order.
func taped(names ...string) func() *drawing.Drawing {
	return func() *drawing.Drawing {
		return draw.Taped(names, false, [4]string{say.Of("press.from-the-front"), say.Of("press.from-the-side"), say.Of("press.from-the-back"), "sitting"})
	}
}

// explained adds a drawing that a text names, with the words that stand for it.
func explained(dst []byte, name, words string) ([]byte, bool) {
	of, ok := drawings[name]
	if !ok {
		return dst, false
	}
	d := of()
	d.Title, d.Desc = words, ""
	dst = append(dst, `<figure class="tissue">`...)
	dst = d.SVG(dst)
	d.Free()
	return append(dst, "</figure>\n"...), true
}
