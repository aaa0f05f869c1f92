package draw

import (
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// LayToGive draws a lay at its true size as files for others have it: the cloth
// right side up with its cut end at the left and its left selvedge at the top, folded where the lay is,
// and each piece by its name.
func LayToGive(l *cutting.Lay, title string) *drawing.Drawing {
	f := drawing.Frame{K: 1}
	d := drawing.New("lay")
	d.Title, d.Box = title, drawing.Box{Right: l.Plan.Length / l.Plan.Layers(), Bottom: l.Plan.Width}
	d.Draw(drawing.LayCloth).Rect(0, 0, d.Box.Right, d.Box.Bottom)
	for i := range l.Chalked {
		q := &l.Chalked[i]
		ring := upright(q.Outline)
		d.Named(drawing.CutLine, q.Piece).Ring(f, ring)
		least, most := ring.Bounds()
		x, y := f.At(shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2})
		d.Say(drawing.Label{X: x, Y: y, Words: strconv.Itoa(q.Number) + " " + q.Piece, Anchor: drawing.Middle, Size: 24})
	}
	return d
}

// LayPlain draws a lay with no words but the numbers and names of its pieces:
// the cloth with its cut end at the left. Scale is millimetres of the cloth
// for one on paper; called says what a piece is called there.
func LayPlain(l *cutting.Lay, scale float64, called func(piece string) string) *drawing.Drawing {
	f := drawing.Frame{K: 1 / scale}
	d := drawing.New("lay")
	long := l.Plan.Length / l.Plan.Layers()
	d.Box = drawing.Box{Right: long*f.K + 1, Bottom: l.Plan.Width*f.K + 1}
	d.Draw(drawing.LayCloth).Rect(0.2, 0.2, 0.2+long*f.K, 0.2+l.Plan.Width*f.K)
	for i := range l.Chalked {
		d.Draw(drawing.CutLine).Thinned(f, upright(l.Chalked[i].Outline))
	}
	stripesOnLay(d, f, l, 0, long)
	for i := range l.Chalked {
		q := &l.Chalked[i]
		s := roomiest(q.Outline)
		before, after := chord(q.Outline, s.at)
		name := strconv.Itoa(q.Number) + " " + called(q.Piece)
		if letters(name)*textWide > 2*min(before, after)*f.K {
			name = strconv.Itoa(q.Number)
		}
		x, y := f.At(shape.Point{X: s.at.X, Y: -s.at.Y})
		d.Say(drawing.Label{X: x, Y: y + 1, Words: name, Anchor: drawing.Middle, Size: textHeight})
	}
	return d
}
