package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// PaperAndCards draws a paper piece as it is photographed, seen from above: 1 the paper,
// flat, 2 a card, 3 a card that lies beyond the paper's corner, 4 what the tape measures
// between the crosses of two cards.
func PaperAndCards() *drawing.Drawing {
	d := drawing.New("piece")
	f := drawing.Frame{Left: -170, Top: 740, K: 0.1}
	p := skirtFront()
	d.Draw(drawing.PieceArea).Outline(f, p.Outline)
	d.Draw(drawing.CutLine).Outline(f, p.Outline)
	cards := []struct{ x, y, turn float64 }{{-95, -70, 0.2}, {130, -95, -0.4}, {350, -60, 1.1}, {375, 200, 0.5}, {370, 430, -0.9}, {300, 680, 0.3}, {80, 690, -0.2}, {-100, 640, 1.3}, {-105, 290, 0.1}}
	for _, c := range cards {
		sin, cos := math.Sincos(c.turn)
		box := func(x, wide, high float64) []shape.Point {
			var out []shape.Point
			for _, q := range [5][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {-1, -1}} {
				u, v := x+q[0]*wide/2, q[1]*high/2
				out = append(out, shape.Point{X: c.x + cos*u - sin*v, Y: c.y + sin*u + cos*v})
			}
			return out
		}
		d.Draw(drawing.PieceEdge).Lines(f, box(0, 94, 50))
		d.Draw(drawing.TapeTick).Lines(f, box(-25, 30, 30))
		d.Draw(drawing.TapeTick).Lines(f, box(25, 30, 30))
	}
	a, b := shape.Point{X: cards[0].x, Y: cards[0].y}, shape.Point{X: cards[5].x, Y: cards[5].y}
	d.Draw(drawing.Measured).Lines(f, []shape.Point{a, b})
	d.Box.Left, d.Box.Top = f.At(shape.Point{X: -170, Y: 740})
	d.Box.Right, d.Box.Bottom = f.At(shape.Point{X: 440, Y: -150})
	point(d, f, []pointer{{to: shape.Point{X: 200, Y: 150}}, {to: shape.Point{X: 375, Y: 200}}, {to: shape.Point{X: 350, Y: -60}}, {to: shape.Point{X: a.X + 0.55*(b.X-a.X), Y: a.Y + 0.55*(b.Y-a.Y)}, left: true}})
	return d
}
