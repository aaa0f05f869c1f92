package sheet

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"io/fs"
	"sync"

	"hembook/internal/picture"
)

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

// Pictures are the photographs of a build as its sheets have them, each read and made
// smaller once, however many sheets show it or a part of it.
type Pictures struct {
	lock  sync.Mutex
	sized map[string]image.Image // by their files; nil where one cannot be read
	coded map[[2]string][]byte   // by file and the part that is shown
}

// of is a part of the photograph in a file; nil where it cannot be read.
func (p *Pictures) of(files fs.FS, file, show string) []byte {
	p.lock.Lock()
	defer p.lock.Unlock()
	at := [2]string{file, show}
	if out, made := p.coded[at]; made {
		return out
	}
	if p.coded == nil {
		p.sized, p.coded = map[string]image.Image{}, map[[2]string][]byte{}
	}
	sized, made := p.sized[file]
	if !made {
		sized = printed(files, file)
		p.sized[file] = sized
	}
	if sized != nil {
		p.coded[at] = coded(sized, show)
	}
	return p.coded[at]
}

// printed reads a photograph as asPrinted has it.
func printed(files fs.FS, file string) image.Image {
	info, err := fs.Stat(files, file)
	if err != nil || picture.CheckBytes(info.Size()) != nil {
		return nil
	}
	data, err := fs.ReadFile(files, file)
	if err != nil {
		return nil
	}
	return asPrinted(data)
}

// SmallPicture is a picture the right way up and no larger than it is printed, coded anew
// so that nothing a camera wrote beside it is passed on; nil where it cannot be read.
func SmallPicture(data []byte) []byte {
	sized := asPrinted(data)
	if sized == nil {
		return nil
	}
	return coded(sized, "")
}

// asPrinted is a picture the right way up and no larger than it is printed; nil where it
// cannot be read.
func asPrinted(data []byte) image.Image {
	sized, _, err := picture.Sized(data, func(wide, high int) []image.Point {
		if most := max(wide, high); most > pictureDots {
			return []image.Point{{X: max(1, wide*pictureDots/most), Y: max(1, high*pictureDots/most)}}
		}
		return []image.Point{{X: wide, Y: high}}
	})
	if err != nil {
		return nil
	}
	return sized[0]
}

// coded is the part of a picture that is to be shown, coded anew.
func coded(sized image.Image, show string) []byte {
	out := part(sized, show)
	if _, photograph := out.(*image.YCbCr); !photograph {
		white := image.NewRGBA(out.Bounds())
		draw.Draw(white, out.Bounds(), image.White, image.Point{}, draw.Src) // behind what is transparent
		draw.Draw(white, out.Bounds(), sized, out.Bounds().Min, draw.Over)
		out = white
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, out, &jpeg.Options{Quality: pictureQuality}); err != nil {
		return nil
	}
	return buf.Bytes()
}
