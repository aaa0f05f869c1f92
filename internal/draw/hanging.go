package draw

import (
	"hembook/internal/drawing"
	"hembook/internal/garment"
)

// tickHalf is half a tick at the end of what hangs, in millimetres on paper.
const tickHalf = 1.2

// Hanging draws a piece with what hangs from it, by the notions' names: from each place it
// is put at straight down, as long as its free end is in millimetres of the piece. It is
// nil where none of them lies on the piece.
func Hanging(p *garment.Piece, free map[string]float64, style PieceStyle) *drawing.Drawing {
	any := false
	for i := range p.Chalked {
		any = any || free[p.Chalked[i].Notion] > 0
	}
	if !any {
		return nil
	}
	d := Piece(p, style)
	least, most := p.Bounds()
	f := drawing.Frame{Left: least.X, Top: most.Y, K: 1 / style.Scale}
	line := d.Draw(drawing.Measured)
	for i := range p.Chalked {
		long := free[p.Chalked[i].Notion] * f.K
		if long <= 0 {
			continue
		}
		x, y := f.At(p.Chalked[i].At)
		line.Move(x, y).Line(x, y+long).Move(x-tickHalf, y+long).Line(x+tickHalf, y+long)
		d.Box.Bottom = max(d.Box.Bottom, y+long+tickHalf)
		d.Box.Left, d.Box.Right = min(d.Box.Left, x-tickHalf), max(d.Box.Right, x+tickHalf)
	}
	return d
}
