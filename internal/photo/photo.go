// Package photo holds a photograph as the light that fell on the camera, so that
// it can be asked for between its pixels.
//
// Light is linear: twice the number is twice the light, as the half-way point of a
// blurred edge lies where the light is half way, not where the stored number is. The
// middle of the upper left pixel is (0.5, 0.5), y runs down, and what lies outside is
// as at the rim. It reads no files and knows nothing of what is seen.
package photo

import (
	"image"
	"image/draw"
	"math"
)

// A Light is one channel of a photograph, 0 to 1, row by row from the top.
type Light struct {
	Wide, High int
	Of         []float32
}

// A Mix says how much of red, green and blue makes a channel.
type Mix [3]float64

// Brightness mixes as the eye does (ITU-R BT.709: luminance of linear red, green, blue).
var Brightness = Mix{0.2126, 0.7152, 0.0722}

// linear is the light of each stored number (IEC 61966-2-1, sRGB).
var linear = func() (out [256]float32) {
	for i := range out {
		v := float64(i) / 255
		if v <= 0.04045 {
			out[i] = float32(v / 12.92)
		} else {
			out[i] = float32(math.Pow((v+0.055)/1.055, 2.4))
		}
	}
	return out
}()

// New is an empty channel.
func New(wide, high int) *Light {
	return &Light{wide, high, make([]float32, wide*high)}
}

// Of is a channel of a picture, in pixels of its own.
func Of(img image.Image, mix Mix) *Light {
	b := img.Bounds()
	out := New(b.Dx(), b.Dy())
	eachRow(img, func(y int, pix []uint8) {
		row := out.Of[y*out.Wide : (y+1)*out.Wide]
		r, g, b := float32(mix[0]), float32(mix[1]), float32(mix[2])
		for x := range row {
			row[x] = r*linear[pix[4*x]] + g*linear[pix[4*x+1]] + b*linear[pix[4*x+2]]
		}
	})
	return out
}

// Small are red, green and blue with every so many pixels averaged into one. What is
// left over at the right and below is dropped.
func Small(img image.Image, by int) (rgb [3]*Light) {
	b := img.Bounds()
	wide, high := max(b.Dx()/by, 1), max(b.Dy()/by, 1)
	for c := range rgb {
		rgb[c] = New(wide, high)
	}
	share := 1 / float32(by*by)
	eachRow(img, func(y int, pix []uint8) {
		if y/by >= high {
			return
		}
		at := y / by * wide
		for x := range min(wide*by, b.Dx()) {
			for c := range rgb {
				rgb[c].Of[at+x/by] += share * linear[pix[4*x+c]]
			}
		}
	})
	return rgb
}

// eachRow calls visit with every row of a picture as red, green, blue and one more
// byte a pixel; what can be seen through lies on white.
func eachRow(img image.Image, visit func(y int, pix []uint8)) {
	b := img.Bounds()
	if rgba, ok := img.(*image.RGBA); ok && rgba.Opaque() {
		for y := range b.Dy() {
			visit(y, rgba.Pix[rgba.PixOffset(b.Min.X, b.Min.Y+y):])
		}
		return
	}
	row := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	for y := range b.Dy() {
		draw.Draw(row, row.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(row, row.Rect, img, b.Min.Add(image.Pt(0, y)), draw.Over)
		visit(y, row.Pix)
	}
}

// Holds reports whether a place lies in the picture, so far from its rim.
func (l *Light) Holds(x, y, rim float64) bool {
	return x >= rim && y >= rim && x <= float64(l.Wide)-rim && y <= float64(l.High)-rim
}

// At is the light at a place, between the four pixels about it.
func (l *Light) At(x, y float64) float64 {
	x, y = x-0.5, y-0.5
	x0, y0 := math.Floor(x), math.Floor(y)
	fx, fy := x-x0, y-y0
	i, j := int(x0), int(y0)
	if i < 0 || j < 0 || i+1 >= l.Wide || j+1 >= l.High {
		return l.atRim(i, j, fx, fy)
	}
	row := l.Of[j*l.Wide+i:]
	below := l.Of[(j+1)*l.Wide+i:]
	top := float64(row[0])*(1-fx) + float64(row[1])*fx
	foot := float64(below[0])*(1-fx) + float64(below[1])*fx
	return top*(1-fy) + foot*fy
}

func (l *Light) atRim(i, j int, fx, fy float64) float64 {
	get := func(i, j int) float64 {
		return float64(l.Of[min(max(j, 0), l.High-1)*l.Wide+min(max(i, 0), l.Wide-1)])
	}
	top := get(i, j)*(1-fx) + get(i+1, j)*fx
	foot := get(i, j+1)*(1-fx) + get(i+1, j+1)*fx
	return top*(1-fy) + foot*fy
}

// Stored is the number that is stored for a light, 0 to 255 (IEC 61966-2-1).
func Stored(light float64) uint8 {
	v := min(max(light, 0), 1)
	if v <= 0.0031308 {
		v *= 12.92
	} else {
		v = 1.055*math.Pow(v, 1/2.4) - 0.055
	}
	return uint8(255*v + 0.5)
}
