package sheet

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"

	"hembook/internal/picture"
)

// kinds are the sheets there are, in the order of the packet. What each may
// show of what is private is the type its writer takes; see opened.go.
var kinds []kind

func init() { // not at once: the writers refer to the kinds
	kinds = []kind{
		declare("agree", false, openAgree, agreeing, Orderer),
		declare("measure", false, openMeasure, measuring, Measured),
		declare("mock-up", false, openCard, mockUp, Fitted),
		declare("fit", false, openCard, proposal, Asked),
		declare("labels", false, openLabels, sewnIn, Labelled),
		declare("card", false, openCard, foldedCard, Wearer),
		declare("care-and-fit", true, openFit, careAndFit, Wearer),
		declare("box", true, openNothing, inTheBox, Wearer),
		declare("repairs", false, openNothing, repairs, Repairer, Maker),
		declare("remake", false, openNothing, remake, Maker),
		declare("customs", true, openCustoms, customsFacts, Post),
		declare("after", false, openCard, afterwards, Later),
	}
}

// Pictures on a sheet: no wider than a column needs when it is printed.
const (
	pictureDots    = 900
	pictureQuality = 84
)

// part is the half of a picture that is to be shown, as "left half"; the whole of it
// where none is named.
func part(whole image.Image, show string) image.Image {
	b := whole.Bounds()
	switch show {
	case "left half":
		b.Max.X -= b.Dx() / 2
	case "right half":
		b.Min.X += b.Dx() / 2
	case "upper half":
		b.Max.Y -= b.Dy() / 2
	case "lower half":
		b.Min.Y += b.Dy() / 2
	}
	cut, ok := whole.(interface {
		SubImage(image.Rectangle) image.Image
	})
	if !ok || show == "" {
		return whole
	}
	return cut.SubImage(b)
}

// SmallPicture is a photograph no larger than it is printed on a sheet, without what a
// camera wrote beside it; nil where it cannot be read.
func SmallPicture(data []byte) []byte { return small(data, "") }

// small is a picture the right way up and no larger than it is printed, coded
// anew so that nothing a camera wrote beside it is passed on; nil where it
// cannot be read.
func small(data []byte, show string) []byte {
	sized, _, err := picture.Sized(data, func(wide, high int) []image.Point {
		if most := max(wide, high); most > pictureDots {
			return []image.Point{{X: max(1, wide*pictureDots/most), Y: max(1, high*pictureDots/most)}}
		}
		return []image.Point{{X: wide, Y: high}}
	})
	if err != nil {
		return nil
	}
	out := part(sized[0], show)
	if _, photograph := out.(*image.YCbCr); !photograph {
		white := image.NewRGBA(out.Bounds())
		draw.Draw(white, out.Bounds(), image.White, image.Point{}, draw.Src) // behind what is transparent
		draw.Draw(white, out.Bounds(), sized[0], out.Bounds().Min, draw.Over)
		out = white
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, out, &jpeg.Options{Quality: pictureQuality}); err != nil {
		return nil
	}
	return buf.Bytes()
}
