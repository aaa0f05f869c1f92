package draw

import (
	"hembook/internal/garment"
	"hembook/internal/shape"
)

// silhouetteHigh is how high or wide, in millimetres on paper, the largest of
// several pieces that are shown side by side may be.
const silhouetteHigh = 42

// CommonScale is the largest scale at which each of some pieces is small enough
// to lie beside the others: millimetres of the piece for one on paper.
func CommonScale(pieces []*garment.Piece) float64 {
	wide, high := 0.0, 0.0
	for _, p := range pieces {
		least, most := pieceBounds(p)
		wide, high = max(wide, most.X-least.X), max(high, most.Y-least.Y)
	}
	return ScaleFor(wide, high, 1.7*silhouetteHigh, silhouetteHigh)
}

// Silhouette adds a piece as it is cut, with its sewing line and no words: for
// use beside its name, so it is hidden from those who listen.
func Silhouette(dst []byte, p *garment.Piece, scale float64) []byte {
	least, most := pieceBounds(p)
	s := sheet{least.X, most.Y, unitsPerMM / scale}
	w, h := s.at(shape.Point{X: most.X, Y: least.Y})
	dst = openSilent(dst, box{-margin / 2, -margin / 2, w + margin/2, h + margin/2})
	d := pieceDrawing{p: p, s: s}
	return append(d.lines(dst), "</svg>"...)
}

// openSilent begins a drawing that only repeats the words beside it.
func openSilent(dst []byte, b box) []byte {
	w, h := whole(b.right-b.left), whole(b.bottom-b.top)
	dst = appendInt(append(dst, `<svg aria-hidden="true" viewBox="`...), whole(b.left))
	dst = appendInt(append(dst, ' '), whole(b.top))
	dst = appendInt(append(dst, ' '), w)
	dst = appendInt(append(dst, ' '), h)
	dst = shape.AppendNumber(append(dst, `" width="`...), float64(w)/unitsPerMM, 1)
	dst = shape.AppendNumber(append(dst, `mm" height="`...), float64(h)/unitsPerMM, 1)
	return append(dst, `mm">`...)
}
