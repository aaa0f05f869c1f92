package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// The largest drawing of a remnant, in millimetres on paper.
const (
	remnantWide = 60
	remnantHigh = 45
)

// RemnantScale is the scale at which a remnant has room in its drawing. Those that stand
// below each other are drawn at the largest of theirs, so that they can be compared.
func RemnantScale(r shape.Ring) float64 {
	least, most := r.Bounds()
	return ScaleFor(most.X-least.X, most.Y-least.Y, remnantWide, remnantHigh)
}

// Remnant draws a piece of cloth that is left over, with the holes in it, at a scale, the
// grain along its selvedge.
func Remnant(r shape.Ring, holes []shape.Ring, name string, scale float64, style measure.Style) *drawing.Drawing {
	least, most := r.Bounds()
	f := drawing.Frame{Left: least.X, Top: most.Y, K: 1 / scale}
	w, h := f.At(shape.Point{X: most.X, Y: least.Y})
	bar := barFor(f.K, style)
	d := drawing.New("piece")
	d.Title, d.Desc = say.Of("draw.remnant", name), say.Of("draw.cloth-left-over-the-selvedge-runs-up")
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: max(w+margin, bar.wide()), Bottom: h + barTop + smallHeight}
	d.Draw(drawing.CutLine).Thinned(f, r)
	for _, hole := range holes {
		d.Draw(drawing.Flaw).Thinned(f, hole)
	}
	mid := shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}
	if len(r) > 0 && !r.Contains(mid) {
		mid = shape.Point{X: (2*r[0].X + mid.X) / 3, Y: (2*r[0].Y + mid.Y) / 3}
	}
	x, y := f.At(mid)
	half := min(h*0.25, 9)
	p := d.Draw(drawing.GrainLine)
	p.Move(x, y-half).Line(x, y+half)
	p.Arrow(x, y-half, 0, -1, arrowLong).Arrow(x, y+half, 0, 1, arrowLong)
	bar.draw(d, 0, h+barTop)
	return d
}
