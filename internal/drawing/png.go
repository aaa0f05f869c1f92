package drawing

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strconv"
	"strings"
)

// PNG is the drawing as a picture of so many pixels, which it fills as far as
// its shape lets it. A picture has no words.
func (d *Drawing) PNG(wide, high int) []byte {
	c := newCanvas(wide, high)
	k := min(float64(wide)/d.Wide(), float64(high)/d.High())
	c.place(k, (float64(wide)-float64(d.Wide()*k))/2-float64(d.Box.Left*k), (float64(high)-float64(d.High()*k))/2-float64(d.Box.Top*k))
	for i := range d.Marks {
		if m := &d.Marks[i]; m.Label == nil {
			c.mark(d.Path(i), picture.Pen(m), m.Colour)
		}
	}
	return c.bytes()
}

// mark paints a path.
func (c *canvas) mark(p Path, pen Pen, colour string) {
	c.trace(p)
	if v, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 24); err == nil {
		c.fill()
		c.put(uint32(v), true)
	} else if pen.Fill != NoInk {
		c.fill()
		c.put(picture.inks[pen.Fill], true)
	}
	if pen.Ink != NoInk {
		c.stroke(pen)
		c.put(picture.inks[pen.Ink], false)
	}
}

// bytes encodes what is painted. A picture of few colours is written by its
// palette, as it was painted.
func (c *canvas) bytes() []byte {
	img := &image.Paletted{Pix: c.pix, Stride: c.wide, Rect: image.Rect(0, 0, c.wide, c.high)}
	for _, v := range c.colours {
		img.Palette = append(img.Palette, color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255})
	}
	var buf bytes.Buffer
	_ = (&png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: encoders}).Encode(&buf, img) // a buffer takes everything
	c.free()
	return buf.Bytes()
}
