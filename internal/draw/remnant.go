package draw

import (
	"hembook/internal/measure"
	"hembook/internal/shape"
)

// The largest drawing of a remnant, in millimetres on paper.
const (
	remnantWide = 60
	remnantHigh = 45
)

// Remnant adds a piece of cloth that is left over to dst, to scale, with the
// grain along its selvedge.
func Remnant(dst []byte, r shape.Ring, name string, style measure.Style) []byte {
	least, most := r.Bounds()
	scale := ScaleFor(most.X-least.X, most.Y-least.Y, remnantWide, remnantHigh)
	d := pieceDrawing{s: sheet{least.X, most.Y, unitsPerMM / scale}, style: PieceStyle{Scale: scale, Measure: style}}
	w, h := d.s.at(shape.Point{X: most.X, Y: least.Y})
	b := box{-margin, -margin, w + margin, h + barTop + smallHeight}
	bar := d.bar(w)
	b.right = max(b.right, bar.length+letters(bar.label)*smallWide+2*gap)
	dst = open(dst, "piece", b, "remnant "+name, "Cloth left over; the selvedge runs up the drawing.")
	p := pen{dst: append(dst, `<path class="cut" d="`...)}
	sc := scratches.Get().(*scratch)
	p.thin(r, d.s, sc)
	scratches.Put(sc)
	p.dst = append(p.dst, `"/><path class="grain" d="`...)
	mid := shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}
	if len(r) > 0 && !r.Contains(mid) {
		mid = shape.Point{X: (2*r[0].X + mid.X) / 3, Y: (2*r[0].Y + mid.Y) / 3}
	}
	x, y := d.s.at(mid)
	half := min(h*0.25, 90)
	p.move(x, y-half)
	p.line(x, y+half)
	p.arrow(x, y-half, 0, -1)
	p.arrow(x, y+half, 0, 1)
	dst = append(p.dst, `"/>`...)
	dst = bar.draw(dst, 0, h+barTop)
	return append(dst, "</svg>"...)
}
