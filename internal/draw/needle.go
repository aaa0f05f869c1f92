package draw

import (
	"math"

	"hembook/internal/drawing"
)

// Lengths of a line of running stitches with its needle, in millimetres.
const (
	stitchLong  = 3.6
	stitchApart = 1.5
	needleLong  = 15.0
)

// NeedleLine draws a line of running stitches with the needle still in it: for the eye
// only.
func NeedleLine(wide float64) *drawing.Drawing {
	d := drawing.New("needle")
	d.Box = drawing.Box{Right: wide, Bottom: 5}
	const y = 3.0
	end := wide - needleLong
	var thread = d.Draw(drawing.Thread)
	for x := 0.0; x+stitchLong < end-4; x += stitchLong + stitchApart {
		sag := 0.25 * math.Sin(x) // by hand
		thread.Move(x, y+sag).Curve(x+1, y-0.5+sag, x+2.6, y-0.5+sag, x+stitchLong, y+sag)
	}
	thread.Move(end-4, y).Curve(end-2, y+1.4, end-1, y+1.6, end+1.2, y+0.6)
	needle := d.Draw(drawing.ScaleBar)
	needle.Move(end, y+0.9).Curve(end+1, y-0.2, end+3, y-0.4, wide, 1).
		Curve(end+4, y+0.5, end+2, y+1.2, end, y+0.9)
	needle.Move(end+1, y+0.55).Line(end+2.4, y+0.3) // its eye
	return d
}
