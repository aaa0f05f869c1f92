package tracing

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"strconv"

	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

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
// the outline over it, its corners by their numbers, and the lines found on the paper by
// theirs, as PNG.
func (t *Traced) Picture(img image.Image) []byte { return t.picture(img, true) }

// Flat is the same with nothing drawn over it.
func (t *Traced) Flat(img image.Image) []byte { return t.picture(img, false) }

func (t *Traced) picture(img image.Image, over bool) []byte {
	wide, high := t.Size()
	each := max((max(wide, high)+2*pictureRim)/pictureMost, 0.3) // mm of a pixel
	out := image.NewRGBA(image.Rect(0, 0, int((wide+2*pictureRim)/each), int((high+2*pictureRim)/each)))
	t.flatten(out, img, each, high)
	if over {
		t.drawSeen(out, func(p shape.Point) shape.Point {
			return shape.Point{X: (p.X + pictureRim) / each, Y: (high + pictureRim - p.Y) / each}
		})
	}
	var data bytes.Buffer
	if err := png.Encode(&data, out); err != nil {
		return nil // a buffer takes all there is
	}
	return data.Bytes()
}

// The colours of what is drawn over a picture.
var (
	rimColour  = color.RGBA{200, 30, 40, 255}
	lineColour = color.RGBA{20, 90, 200, 255}
)

// drawSeen draws the outline, its corners' numbers outside it, and what is drawn on the
// paper with its numbers.
func (t *Traced) drawSeen(out *image.RGBA, pixel func(shape.Point) shape.Point) {
	ring, _ := t.Outline.Flatten(0.1)
	for i, a := range ring {
		drawOver(out, pixel(a), pixel(ring[(i+1)%len(ring)]), rimColour)
	}
	mid := middleOf(ring)
	for i, c := range t.EdgeEnds() {
		p, m := pixel(c[0]), pixel(mid)
		far := max(math.Hypot(p.X-m.X, p.Y-m.Y), 1)
		drawNumber(out, shape.Point{X: p.X + numberOff*(p.X-m.X)/far, Y: p.Y + numberOff*(p.Y-m.Y)/far}, i+1, rimColour)
	}
	for i, d := range t.Drawn {
		for k := 1; k < len(d.Line); k++ {
			drawOver(out, pixel(d.Line[k-1]), pixel(d.Line[k]), lineColour)
		}
		if len(d.Line) > 0 {
			p := pixel(middleOf(d.Line))
			drawNumber(out, shape.Point{X: p.X + numberOff, Y: p.Y}, i+1, lineColour)
		}
	}
}

// numberOff is how far beside its place a number stands, and numberTimes how many times as
// large as its letters are made, in pixels.
const (
	numberOff   = 24.0
	numberTimes = 2
)

// drawNumber draws a number about a place, on white.
func drawNumber(out *image.RGBA, at shape.Point, number int, ink color.RGBA) {
	face := basicfont.Face7x13
	words := strconv.Itoa(number)
	small := image.NewRGBA(image.Rect(0, 0, face.Advance*len(words)+2, face.Height+1))
	draw.Draw(small, small.Rect, image.White, image.Point{}, draw.Src)
	font := font.Drawer{Dst: small, Src: image.NewUniform(ink), Face: face, Dot: fixed.P(1, face.Ascent)}
	font.DrawString(words)
	wide, high := small.Rect.Dx()*numberTimes, small.Rect.Dy()*numberTimes
	left, top := int(at.X)-wide/2, int(at.Y)-high/2
	for y := range high {
		for x := range wide {
			out.Set(left+x, top+y, small.At(x/numberTimes, y/numberTimes))
		}
	}
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

// drawOver draws a straight line of two pixels.
func drawOver(out *image.RGBA, a, b shape.Point, ink color.RGBA) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	n := int(long*2) + 1
	for i := range n {
		k := (float64(i) + 0.5) / float64(n)
		x, y := a.X+k*(b.X-a.X), a.Y+k*(b.Y-a.Y)
		for dy := -pictureLine / 2; dy <= pictureLine/2; dy += pictureLine / 2 {
			for dx := -pictureLine / 2; dx <= pictureLine/2; dx += pictureLine / 2 {
				out.SetRGBA(int(x+dx), int(y+dy), ink)
			}
		}
	}
}
