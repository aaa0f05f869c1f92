package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"slices"
	"testing"

	"golang.org/x/image/draw"
)

// waves is a picture without sharp edges: what a scaler has to keep.
func waves(wide, high int, ratio image.YCbCrSubsampleRatio) *image.YCbCr {
	img := image.NewYCbCr(image.Rect(0, 0, wide, high), ratio)
	across, down := finer(ratio)
	for y := range high {
		for x := range wide {
			wave := math.Sin(2*math.Pi*float64(x)/float64(wide)) * math.Cos(2*math.Pi*float64(y)/float64(high))
			img.Y[img.YOffset(x, y)] = uint8(128 + 90*wave)
			// where the colour's own sample stands, in the middle of what it colours
			u, v := (float64(x/across)+0.5)*float64(across)/float64(wide), (float64(y/down)+0.5)*float64(down)/float64(high)
			img.Cb[img.COffset(x, y)], img.Cr[img.COffset(x, y)] = uint8(100+50*u), uint8(160-50*v)
		}
	}
	return img
}

var ratios = []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
	image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410}

// apart is by how much two pictures of one size differ most, in steps of 255.
func apart(a, b image.Image) (most int) {
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			p := color.RGBAModel.Convert(a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y)).(color.RGBA)
			q := color.RGBAModel.Convert(b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y)).(color.RGBA)
			for _, d := range []int{int(p.R) - int(q.R), int(p.G) - int(q.G), int(p.B) - int(q.B)} {
				most = max(most, d, -d)
			}
		}
	}
	return most
}

// TestSizedAgrees holds photographs scaled in planes against those scaled in
// colours by the other way, which has code of its own: halved by hand where it
// is, then by draw's own cubic.
func TestSizedAgrees(t *testing.T) {
	for _, ratio := range ratios {
		for _, c := range []struct{ wide, high, to int }{{300, 200, 200}, {301, 203, 117}, {640, 333, 96}, {97, 1003, 31}, {64, 64, 64}} {
			img := waves(c.wide, c.high, ratio)
			to := image.Pt(c.to, max(1, c.high*c.to/c.wide))
			got := planesOf(img).halved(to).fitted(to).image(to)
			colours := image.NewRGBA(img.Rect)
			draw.Draw(colours, colours.Rect, img, image.Point{}, draw.Src)
			want := fitted(colours, to)
			if got.Bounds().Size() != to {
				t.Errorf("%v: %v, want %v", ratio, got.Bounds(), to)
			}
			if d := apart(got, want); d > 9 { // the colours are half as fine as the brightness
				t.Errorf("%v, %d by %d to %v: %d apart", ratio, c.wide, c.high, to, d)
			}
		}
	}
}

// TestSizedKeepsWhatIsFlat: the shares of a sample add up to all of it, so one
// colour stays itself in every size.
func TestSizedKeepsWhatIsFlat(t *testing.T) {
	for _, size := range []image.Point{{700, 500}, {333, 251}, {17, 900}} {
		p := whole(bytes.Repeat([]byte{201}, size.X*size.Y), size.X, size.X, size.Y)
		for _, to := range []image.Point{size, {size.X / 2, size.Y / 2}, {size.X / 3, size.Y - 7}, {1, 1}} {
			s := planes{p}.halved(to).fitted(to)
			for i, c := range s[0].pix {
				if c != 201 {
					t.Fatalf("%v to %v: sample %d is %d", size, to, i, c)
				}
			}
		}
	}
}

// TestSizedIsUpright: turned after scaling it is what it is turned before.
func TestSizedIsUpright(t *testing.T) {
	for _, ratio := range ratios {
		img := waves(120, 81, ratio)
		for held := 0; held <= 9; held++ {
			to := image.Pt(120, 81)
			want := upright(img, held)
			size := asHeld(to, held)
			if held > 8 {
				size = to
			}
			if got := planesOf(img).fitted(to).turned(held).image(size); apart(got, want) > 6 || got.Bounds().Size() != want.Bounds().Size() {
				t.Errorf("%v, held %d: %d apart, %v for %v", ratio, held, apart(got, want), got.Bounds(), want.Bounds())
			}
		}
	}
}

// TestInEights: rows scaled with a loop for each sample and without come out the same.
func TestInEights(t *testing.T) {
	row := make([]byte, 301)
	for i := range row {
		row[i] = byte(i*i*7 + i*13) // edges everywhere
	}
	for _, to := range []int{1, 8, 150, 151, 160, 200, 300, 301, 450} {
		for _, cols := range []int{7, 8, 9, 301} {
			shares := weigh(cols, to, float64(cols)/float64(to))
			want, got := make([]int16, to), make([]int16, to)
			acrossRow(want, row[:cols], shares)
			eights := inEights(shares, cols)
			if eights == nil {
				if 2*to > cols && cols >= 8 {
					t.Errorf("%d samples to %d are not made in eights", cols, to)
				}
				continue
			}
			if acrossInEights(got, row[:cols], eights); !slices.Equal(got, want) {
				t.Errorf("%d samples to %d:\n%v\n%v", cols, to, got, want)
			}
		}
	}
}

func TestSizedReads(t *testing.T) {
	grey := image.NewGray(image.Rect(0, 0, 200, 100))
	for i := range grey.Pix {
		grey.Pix[i] = uint8(i % 200)
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, grey, nil); err != nil {
		t.Fatal(err)
	}
	list, h, err := Sized(buf.Bytes(), func(wide, high int) []image.Point { return []image.Point{{wide / 4, high / 4}, {wide, high}} })
	if err != nil || h.Wide != 200 || len(list) != 2 || list[0].Bounds().Dx() != 50 || list[1].Bounds().Dy() != 100 {
		t.Fatal(h, err, len(list))
	}
	if r, g, b, _ := list[0].At(25, 12).RGBA(); r != g || g != b || r>>8 < 90 || r>>8 > 110 {
		t.Error("the middle of a grey ramp is", r>>8, g>>8, b>>8)
	}
	if _, _, err := Sized([]byte("words"), nil); err == nil {
		t.Error("words are scaled")
	}
}

// BenchmarkSized scales a photograph of 24 megapixels to the widths of a page,
// and says how that stands to decoding it alone.
func BenchmarkSized(b *testing.B) {
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, waves(6000, 4000, image.YCbCrSubsampleRatio420), nil); err != nil {
		b.Fatal(err)
	}
	sizes := func(wide, high int) (out []image.Point) {
		for _, w := range []int{480, 960, 1600} {
			out = append(out, image.Pt(w, high*w/wide))
		}
		return out
	}
	for _, only := range []bool{true, false} {
		b.Run(fmt.Sprintf("decode-alone=%v", only), func(b *testing.B) {
			for b.Loop() {
				if only {
					_, _, _, _ = read(buf.Bytes())
				} else if _, _, err := Sized(buf.Bytes(), sizes); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
