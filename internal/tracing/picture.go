package tracing

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"

	"hembook/internal/camera"
	"hembook/internal/photo"
	"hembook/internal/shape"
)

// How the picture of what was seen is drawn.
const (
	pictureMost = 2000 // pixels of its longer side
	pictureRim  = 40.0 // mm shown about the piece
	pictureLine = 1.2  // pixels on each side of the outline
)

// Picture is a photograph made flat and to scale, as the piece lies in its outline, with
// the outline over it, as PNG.
func (t *Traced) Picture(img image.Image) []byte {
	wide, high := t.Size()
	each := max((max(wide, high)+2*pictureRim)/pictureMost, 0.3) // mm of a pixel
	out := image.NewRGBA(image.Rect(0, 0, int((wide+2*pictureRim)/each), int((high+2*pictureRim)/each)))
	t.flatten(out, img, each, high)
	ring, _ := t.Outline.Flatten(0.1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		drawOver(out, shape.Point{X: (a.X + pictureRim) / each, Y: (high + pictureRim - a.Y) / each}, shape.Point{X: (b.X + pictureRim) / each, Y: (high + pictureRim - b.Y) / each})
	}
	var data bytes.Buffer
	if err := png.Encode(&data, out); err != nil {
		return nil // a buffer takes all there is
	}
	return data.Bytes()
}

// flatten draws the table as it is seen from above.
func (t *Traced) flatten(out *image.RGBA, img image.Image, each, high float64) {
	view := t.views[0]
	by := max(int(each/view.Finest(t.still(shape.Point{}))), 1)
	rgb := photo.Small(img, by)
	b := out.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			p := shape.Point{X: (float64(x)+0.5)*each - pictureRim, Y: high + pictureRim - (float64(y)+0.5)*each}
			out.SetRGBA(x, y, colourAt(rgb, view, t.still(p), float64(by)))
		}
	}
}

func colourAt(rgb [3]*photo.Light, view camera.View, p shape.Point, by float64) color.RGBA {
	at, ok := view.See(p)
	if !ok || !rgb[0].Holds(at.X/by, at.Y/by, 0) {
		return color.RGBA{200, 200, 200, 255}
	}
	var c [3]uint8
	for i := range c {
		c[i] = photo.Stored(rgb[i].At(at.X/by, at.Y/by))
	}
	return color.RGBA{c[0], c[1], c[2], 255}
}

// drawOver draws a straight red line of two pixels.
func drawOver(out *image.RGBA, a, b shape.Point) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	n := int(long*2) + 1
	for i := range n {
		k := (float64(i) + 0.5) / float64(n)
		x, y := a.X+k*(b.X-a.X), a.Y+k*(b.Y-a.Y)
		for dy := -pictureLine / 2; dy <= pictureLine/2; dy += pictureLine / 2 {
			for dx := -pictureLine / 2; dx <= pictureLine/2; dx += pictureLine / 2 {
				out.SetRGBA(int(x+dx), int(y+dy), color.RGBA{200, 30, 40, 255})
			}
		}
	}
}
