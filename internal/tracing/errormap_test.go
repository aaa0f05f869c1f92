package tracing

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"slices"

	"hembook/internal/shape"
)

// errorMap is the picture of a traced piece with a stroke at every five millimetres of
// its outline, fifty times as long as it is off there, towards where the truth lies.
func errorMap(got *Traced, img image.Image, j judged, truth shape.Outline) []byte {
	seen, err := png.Decode(bytes.NewReader(got.Picture(img)))
	if err != nil {
		panic(err)
	}
	out := image.NewRGBA(seen.Bounds())
	draw.Draw(out, out.Rect, seen, image.Point{}, draw.Src)
	ring, _ := truth.Flatten(0.01)
	want := shape.Line(append(slices.Clone([]shape.Point(ring)), ring[0]))
	found, _ := got.Outline.Flatten(0.05)
	wide, high := got.Size()
	each := max((max(wide, high)+2*pictureRim)/pictureMost, 0.3)
	pixel := func(p shape.Point) shape.Point {
		return shape.Point{X: (p.X + pictureRim) / each, Y: (high + pictureRim - p.Y) / each}
	}
	for _, p := range evenly(found, 5) {
		q := j.turned.at(p)
		along, _ := want.Nearest(q)
		near, _ := want.At(along)
		dx, dy := near.X-q.X, near.Y-q.Y
		// The stroke is drawn in the outline's own frame.
		x, y := j.turned.cos*dx+j.turned.sin*dy, j.turned.cos*dy-j.turned.sin*dx
		drawOver(out, pixel(p), pixel(shape.Point{X: p.X + 50*x, Y: p.Y + 50*y}), lineColour)
	}
	var data bytes.Buffer
	if err := png.Encode(&data, out); err != nil {
		panic(err)
	}
	return data.Bytes()
}
