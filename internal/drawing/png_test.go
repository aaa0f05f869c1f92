package drawing

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"
)

func painted(t *testing.T, d *Drawing, wide, high int) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(d.PNG(wide, high)))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func shade(img image.Image, x, y int) string {
	c := color.RGBAModel.Convert(img.At(x, y)).(color.RGBA)
	return fmt.Sprintf("%02x%02x%02x", c.R, c.G, c.B)
}

// TestPicture: a square of 10 mm in a box of 20 by 10 at 20 pixels a
// millimetre. Its edge, 0.4 mm, is 8 pixels wide: 4 to either side of it.
func TestPicture(t *testing.T) {
	d := New("x")
	d.Box = Box{Right: 20, Bottom: 10}
	d.Draw(Table).Rect(0, 0, 20, 10)
	d.Draw(CutLine).Rect(4, 2, 14, 8)
	img := painted(t, d, 400, 200)
	for _, c := range []struct {
		x, y int
		want string
	}{
		{180, 100, "fcf9f2"}, {20, 20, "f6f0e4"}, // within, without
		{76, 100, "2b241e"}, {83, 100, "2b241e"}, {75, 100, "f6f0e4"}, {84, 100, "fcf9f2"}, // its left edge, from 76 to 84
		{180, 36, "2b241e"}, {180, 43, "2b241e"}, {180, 35, "f6f0e4"}, {180, 44, "fcf9f2"}, // its upper one
	} {
		if got := shade(img, c.x, c.y); got != c.want {
			t.Errorf("%d, %d is %s, want %s", c.x, c.y, got, c.want)
		}
	}
}

// TestPictureCoversByArea: the edge of a cloth's cutting runs through the
// middle of a column of pixels, which is half in its colour.
func TestPictureCoversByArea(t *testing.T) {
	d := New("x")
	d.Box = Box{Right: 10, Bottom: 10}
	d.Draw(TapeTick).Rect(2.5, 0, 7, 10)
	img := painted(t, d, 10, 10)
	// half of 0x2b and half of 0xff is 0x95, and so on
	if a, b, c := shade(img, 1, 5), shade(img, 2, 5), shade(img, 3, 5); a != "ffffff" || b != "95928f" || c != "2b241e" {
		t.Errorf("%s %s %s", a, b, c)
	}
	// a slope of one half: of each pixel it runs through, a quarter and three
	// quarters in turn
	d = New("x")
	d.Box = Box{Right: 10, Bottom: 10}
	d.Draw(TapeTick).Move(0, 0).Line(10, 5).Line(10, 10).Line(0, 10).Close()
	img = painted(t, d, 10, 10)
	if a, b := shade(img, 4, 2), shade(img, 5, 2); a != "605b56" || b != "cac8c7" {
		t.Errorf("%s %s", a, b)
	}
}

// TestPictureDashes: dashes of 1.6 and gaps of 0.9 mm along a line of 10.
func TestPictureDashes(t *testing.T) {
	d := New("x")
	d.Box = Box{Right: 10, Bottom: 1}
	d.Draw(SewLine).Move(0, 0.5).Line(10, 0.5)
	img := painted(t, d, 1000, 100)
	for x := range 1000 {
		at := math.Mod(float64(x)+0.5, 250)
		if got := shade(img, x, 50) != "ffffff"; got != (at < 160) {
			t.Fatalf("at %d: %v", x, got)
		}
	}
}

// TestPictureLeavesOutWords: what would be too small to read.
func TestPictureLeavesOutWords(t *testing.T) {
	d := New("x")
	d.Box = Box{Right: 10, Bottom: 10}
	d.Draw(LevelLine).Move(0, 1).Line(10, 1)
	d.Draw(GrainLine).Move(0, 4).Line(10, 4)
	d.Say(Label{X: 1, Y: 8, Words: "x"})
	img := painted(t, d, 30, 30)
	for i := range 900 {
		if shade(img, i%30, i/30) != "ffffff" {
			t.Fatal("something is painted")
		}
	}
}

// TestPictureTakesAnything: what no drawing has is painted as far as it goes,
// without a panic.
func TestPictureTakesAnything(t *testing.T) {
	wild := []float64{0, -5, 1e300, -1e300, math.NaN(), math.Inf(1), 3.7}
	for _, a := range wild {
		for _, b := range wild {
			d := New("x")
			d.Box = Box{Right: a, Bottom: 2}
			for _, m := range []Meaning{CutLine, SewLine, Thread} {
				d.Draw(m).Close()
				d.Draw(m).Line(a, b).Line(1, 1)
				d.Draw(m).Move(a, b).Line(2, 2).Curve(b, a, 1, 1, a, a).Close()
				d.Draw(m).Move(1, 1)
				d.Thick(m, b).Move(1, 1).Line(b, a)
			}
			d.PNG(40, 30)
		}
	}
}

// TestPictureHasTheThemesLook: the picture of a page looks as the page does.
func TestPictureHasTheThemesLook(t *testing.T) {
	data, err := os.ReadFile("../../themes/plainweave/look/1-ground.css")
	if err != nil {
		t.Fatal(err)
	}
	light, _, _ := strings.Cut(string(data), "@media")
	for name, ink := range map[string]Ink{
		"cloth": Cloth, "lining": Lining, "tissue": Buff, "crease": Folds, "chalk": Chalk, "ink": Dark, "thread": Red, "tape": Yellow,
		"ply-one": One, "ply-two": Two, "ply-strip": Strip, "ply-cord": Cord,
	} {
		if want := fmt.Sprintf("--%s: #%06x;", name, picture.inks[ink]); !strings.Contains(light, want) {
			t.Errorf("the theme does not say %s", want)
		}
	}
	sheet, err := os.ReadFile("../../themes/plainweave/look/5-drawings.css")
	if err != nil {
		t.Fatal(err)
	}
	looked := 0
	for m, pen := range picture.pens {
		found := regexp.MustCompile(`svg \.` + regexp.QuoteMeta(classes[m]) + ` \{[^}]*stroke-width: ([0-9.]+)`).FindSubmatch(sheet)
		if found == nil || pen.Weight == 0 {
			continue
		}
		if looked++; fmt.Sprintf("%.4g", pen.Weight*pageUnits) != string(found[1]) {
			t.Errorf("%s weighs %v here, %s in the theme", classes[m], pen.Weight*pageUnits, found[1])
		}
	}
	if looked < 5 {
		t.Errorf("only %d weights were compared", looked)
	}
}

func BenchmarkPNG(b *testing.B) {
	d := New("x")
	d.Box = Box{Right: 228, Bottom: 120}
	d.Draw(Table).Rect(0, 0, 228, 120)
	d.Draw(Tissue).Rect(7, 14, 221, 113)
	for i := range 8 {
		x := 14 + 26*float64(i)
		d.Draw(CutLine).Move(x, 20).Curve(x+5, 40, x-5, 80, x, 100).Line(x+20, 100).Curve(x+15, 80, x+25, 40, x+20, 20).Close()
		d.Draw(SewLine).Move(x+2, 22).Curve(x+7, 40, x-3, 80, x+2, 98).Line(x+18, 98).Curve(x+13, 80, x+23, 40, x+18, 22).Close()
	}
	b.ReportAllocs()
	for b.Loop() {
		d.PNG(1200, 630)
	}
}
