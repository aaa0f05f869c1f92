package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// placeRound is how wide the ring is, in a file, about a place of what has no size, mm.
const placeRound = 4

// chalk draws a cross wherever a button or the like is put, a ring as wide as the button
// about it, and its buttonhole, to scale.
func (d *pieceDrawing) chalk() {
	count := map[string]int{}
	for i := range d.p.Chalked {
		c := &d.p.Chalked[i]
		count[c.Notion]++
		if d.has(Named) {
			d.namedChalk(c, c.Notion+" "+strconv.Itoa(count[c.Notion]))
			continue
		}
		x, y := d.f.At(c.At)
		if !c.HoleOnly {
			p := d.Draw(drawing.ButtonPlace)
			if p.Cross(x, y, d.hand.cross, d.hand.cross); c.Size > 0 {
				p.Circle(x, y, c.Size/2*d.f.K)
			}
		}
		if c.Open {
			d.buttonhole(c)
		}
	}
}

// buttonhole draws a slit with a stroke across each of its ends.
func (d *pieceDrawing) buttonhole(c *garment.Chalked) {
	p := d.Draw(drawing.Buttonhole).Lines(d.f, c.Hole[:])
	ax, ay := d.f.At(c.Hole[0])
	bx, by := d.f.At(c.Hole[1])
	long := math.Hypot(bx-ax, by-ay)
	if long < 1e-9 {
		return
	}
	half := min(d.hand.cross, long/4)
	sx, sy := -(by-ay)/long*half, (bx-ax)/long*half
	p.Move(ax-sx, ay-sy).Line(ax+sx, ay+sy).Move(bx-sx, by-sy).Line(bx+sx, by+sy)
}

// namedChalk draws the same as lines that a file can hold and be read from.
func (d *pieceDrawing) namedChalk(c *garment.Chalked, name string) {
	if !c.HoleOnly {
		x, y := d.f.At(c.At)
		wide := c.Size
		if wide == 0 {
			wide = placeRound
		}
		d.Named(drawing.ButtonPlace, say.Of("draw.place", name)).Circle(x, y, wide/2*d.f.K)
	}
	if c.Open {
		d.Named(drawing.Buttonhole, say.Of("draw.buttonhole", name)).Lines(d.f, []shape.Point{c.Hole[0], c.Hole[1]})
	}
}
