package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/say"
)

// beside draws the rows that run beside seams and inside finished edges.
func (d *pieceDrawing) beside() {
	for i := range d.p.Beside {
		line := d.p.Beside[i].Line
		if d.has(Named) {
			d.Named(drawing.RowLine, say.Of("draw.topstitching", strconv.Itoa(i+1))).Lines(d.f, line)
		} else {
			d.Draw(drawing.RowLine).Lines(d.f, line)
		}
	}
}
