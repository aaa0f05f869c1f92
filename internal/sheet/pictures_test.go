package sheet

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"testing"
	"testing/fstest"
)

// openings counts how often files are read.
type openings struct {
	fstest.MapFS
	read int
}

func (o *openings) ReadFile(name string) ([]byte, error) {
	o.read++
	return o.MapFS.ReadFile(name)
}

var _ fs.ReadFileFS = (*openings)(nil)

// TestPicturesAreReadOnce asks for a photograph as two sheets do: it is the same as made
// by itself, its halves are halves, and its file was read once.
func TestPicturesAreReadOnce(t *testing.T) {
	big := image.NewRGBA(image.Rect(0, 0, 1200, 600))
	for i := range big.Pix {
		big.Pix[i] = uint8(i / 7)
	}
	big.Set(0, 0, color.White)
	var data bytes.Buffer
	if err := jpeg.Encode(&data, big, nil); err != nil {
		t.Fatal(err)
	}
	files := &openings{MapFS: fstest.MapFS{"a.jpg": {Data: data.Bytes()}, "no.jpg": {Data: []byte("no picture")}}}
	var p Pictures
	whole := p.of(files, "a.jpg", "")
	if !bytes.Equal(whole, SmallPicture(data.Bytes())) || !bytes.Equal(whole, p.of(files, "a.jpg", "")) {
		t.Error("the picture is another than the one made by itself")
	}
	half, err := jpeg.DecodeConfig(bytes.NewReader(p.of(files, "a.jpg", "left half")))
	if err != nil || half.Width != pictureDots/2 || half.Height != pictureDots/2 {
		t.Errorf("its left half is %d by %d: %v", half.Width, half.Height, err)
	}
	if files.read != 1 {
		t.Errorf("its file was read %d times", files.read)
	}
	if p.of(files, "no.jpg", "") != nil || p.of(files, "absent.jpg", "") != nil {
		t.Error("there is a picture of what is none")
	}
}
