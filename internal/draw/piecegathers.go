package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/say"
)

// gathers draws the rows that draw an edge up.
func (d *pieceDrawing) gathers() {
	n := 0
	for i := range d.p.Gathered {
		for _, line := range d.p.Gathered[i].Lines {
			n++
			if d.has(Named) {
				d.Named(drawing.GatherLine, say.Of("draw.gathers", strconv.Itoa(n))).Lines(d.f, line)
			} else {
				d.Draw(drawing.GatherLine).Lines(d.f, line)
			}
		}
	}
}
