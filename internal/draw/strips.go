package draw

import "hembook/internal/drawing"

// Strip draws a value among others that are held side by side: a strip of paper as
// long as its share of the largest of them, from 0 to 1. The figure beside it says
// what it is, so it has no words.
func Strip(share float64) *drawing.Drawing {
	const wide, high = 40, 3
	share = min(max(share, 0), 1)
	d := drawing.New("spread")
	d.Box = drawing.Box{Left: -1, Right: wide + 1, Bottom: high + 1}
	d.Draw(drawing.SpreadScale).Move(0, 0.5).Line(0, high+0.5)
	d.Draw(drawing.StripArea).Rect(0, 1, share*wide, high)
	return d
}
