package draw

import (
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// LayPlain draws a lay with no words but the numbers and names of its pieces:
// the cloth with its cut end at the left. Scale is millimetres of the cloth
// for one on paper.
func LayPlain(l *cutting.Lay, scale float64) *drawing.Drawing {
	f := drawing.Frame{K: 1 / scale}
	d := drawing.New("lay")
	d.Box = drawing.Box{Right: l.Plan.Length*f.K + 1, Bottom: l.Plan.Width*f.K + 1}
	d.Draw(drawing.LayCloth).Rect(0.2, 0.2, 0.2+l.Plan.Length*f.K, 0.2+l.Plan.Width*f.K)
	for i := range l.Chalked {
		d.Draw(drawing.CutLine).Thinned(f, upright(l.Chalked[i].Outline))
	}
	for i := range l.Chalked {
		q := &l.Chalked[i]
		s := roomiest(q.Outline)
		before, after := chord(q.Outline, s.at)
		name := strconv.Itoa(q.Number) + " " + q.Piece
		if letters(name)*smallWide > 2*min(before, after)*f.K {
			name = strconv.Itoa(q.Number)
		}
		x, y := f.At(shape.Point{X: s.at.X, Y: -s.at.Y})
		d.Say(drawing.Label{X: x, Y: y + 1, Words: name, Anchor: drawing.Middle, Size: smallHeight})
	}
	return d
}
