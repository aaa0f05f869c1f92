package sheet

import (
	"bytes"
	"image"
	"image/jpeg"

	"golang.org/x/image/draw"

	"hembook/internal/picture"
)

// kinds are the sheets there are, in the order of the packet. What each may
// show of what is private is the type its writer takes; see opened.go.
var kinds []kind

func init() { // not at once: the writers refer to the kinds
	kinds = []kind{
		declare("care-and-fit", true, openFit, careAndFit),
		declare("repairs", false, openNothing, repairs),
		declare("box", true, openNothing, inTheBox),
		declare("customs", true, openCustoms, customsFacts),
		declare("remake", false, openNothing, remake),
	}
}

// Pictures on a sheet: no wider than a column needs when it is printed.
const (
	pictureDots    = 900
	pictureQuality = 84
)

// small is a picture the right way up and no larger than it is printed, coded
// anew so that nothing a camera wrote beside it is passed on; nil where it
// cannot be read.
func small(data []byte) []byte {
	img, _, err := picture.Read(data)
	if err != nil {
		return nil
	}
	size := img.Bounds().Size()
	to := size
	if most := max(size.X, size.Y); most > pictureDots {
		to = image.Pt(max(1, size.X*pictureDots/most), max(1, size.Y*pictureDots/most))
	}
	out := image.NewRGBA(image.Rectangle{Max: to})
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src) // behind what is transparent
	draw.CatmullRom.Scale(out, out.Bounds(), img, img.Bounds(), draw.Over, nil)
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, out, &jpeg.Options{Quality: pictureQuality}); err != nil {
		return nil
	}
	return buf.Bytes()
}
