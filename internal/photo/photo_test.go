package photo

import (
	"image"
	"image/color"
	"math"
	"testing"
)

// TestLightIsLinear: 188 of 255 is half the light of white (sRGB: ((188/255+0.055)/1.055)^2.4
// = 0.503), and half way between black and white is half the light.
func TestLightIsLinear(t *testing.T) {
	img := image.NewGray(image.Rect(3, 4, 6, 5))
	img.SetGray(3, 4, color.Gray{188})
	img.SetGray(4, 4, color.Gray{0})
	img.SetGray(5, 4, color.Gray{255})
	l := Of(img, Brightness)
	for _, c := range []struct{ x, want float64 }{{0.5, 0.503}, {1.5, 0}, {2.5, 1}, {2, 0.5}, {1, 0.2515}, {-4, 0.503}, {9, 1}} {
		if got := l.At(c.x, 0.5); math.Abs(got-c.want) > 0.001 {
			t.Errorf("light at %g is %.4f, not %.4f", c.x, got, c.want)
		}
	}
}

// TestSmallAverages: two by two pixels of red, black, white and blue are half red, a
// quarter green and half blue; the odd column is dropped.
func TestSmallAverages(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 3, 2))
	img.Set(0, 0, color.NRGBA{255, 0, 0, 255})
	img.Set(1, 0, color.NRGBA{0, 0, 0, 255})
	img.Set(0, 1, color.NRGBA{255, 255, 255, 255})
	img.Set(1, 1, color.NRGBA{0, 0, 255, 255})
	rgb := Small(img, 2)
	for c, want := range []float32{0.5, 0.25, 0.5} {
		if rgb[c].Wide != 1 || rgb[c].High != 1 || math.Abs(float64(rgb[c].Of[0]-want)) > 1e-6 {
			t.Errorf("channel %d is %d × %d with %v, not %v", c, rgb[c].Wide, rgb[c].High, rgb[c].Of, want)
		}
	}
}
