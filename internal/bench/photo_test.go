package bench

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// quarters is a picture 32 by 16 whose left upper eighth is red, whose right
// upper part is green, and whose lower half is blue.
func quarters() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 32, 16))
	for y := range 16 {
		for x := range 32 {
			c := color.RGBA{0, 0, 255, 255}
			if y < 8 && x < 16 {
				c = color.RGBA{255, 0, 0, 255}
			} else if y < 8 {
				c = color.RGBA{0, 255, 0, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

func jpegOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 100}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// exif is a block of metadata as cameras write it (Exif 2.3, TIFF 6.0, from
// memory): an orientation, a maker's name, and a place.
func exif(held uint16) []byte {
	le := binary.LittleEndian
	entry := func(b []byte, tag, kind uint16, count uint32, value []byte) []byte {
		b = le.AppendUint16(b, tag)
		b = le.AppendUint16(b, kind)
		b = le.AppendUint32(b, count)
		return append(b, append(value, make([]byte, 4-len(value))...)...)
	}
	b := append([]byte("II*\x00"), 8, 0, 0, 0)
	b = le.AppendUint16(b, 3)
	b = entry(b, 0x010f, 2, 4, []byte("CAM\x00"))
	b = entry(b, 0x0112, 3, 1, le.AppendUint16(nil, held))
	b = entry(b, 0x8825, 4, 1, le.AppendUint32(nil, 50)) // the place's own list follows
	b = le.AppendUint32(b, 0)
	b = le.AppendUint16(b, 1)
	b = entry(b, 1, 2, 2, []byte("N\x00")) // north
	b = le.AppendUint32(b, 0)
	return b
}

// withExif puts metadata into a JPEG file, after its first two bytes.
func withExif(data []byte, held uint16) []byte {
	body := append([]byte("Exif\x00\x00"), exif(held)...)
	head := append(data[:2:2], 0xff, 0xe1)
	head = binary.BigEndian.AppendUint16(head, uint16(len(body)+2))
	return append(append(head, body...), data[2:]...)
}

// TestPhotoUpright: where red, green and blue lie once the camera's way of
// being held is undone, worked out by hand for each of the eight.
func TestPhotoUpright(t *testing.T) {
	for held, want := range map[uint16]string{
		1: "rg/bb 32x16", 2: "gr/bb 32x16", 3: "bb/gr 32x16", 4: "bb/rg 32x16",
		5: "rb/gb 16x32", 6: "br/bg 16x32", 7: "bg/br 16x32", 8: "gb/rb 16x32",
	} {
		p, err := ReadPhoto(bytes.NewReader(withExif(jpegOf(t, quarters()), held)))
		if err != nil {
			t.Fatal(err)
		}
		if got := corners(t, p); got != want {
			t.Errorf("held as %d: got %s, want %s", held, got, want)
		}
		for _, data := range []string{"Exif", "CAM", "II*"} {
			if bytes.Contains(p.Data, []byte(data)) {
				t.Errorf("held as %d: %q is left in it", held, data)
			}
		}
	}
}

// corners names the colours at the corners of a photograph, and its size.
func corners(t *testing.T, p Photo) string {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(p.Data))
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	name := func(x, y int) string {
		r, g, bl, _ := img.At(x, y).RGBA()
		switch max(r, g, bl) {
		case r:
			return "r"
		case g:
			return "g"
		}
		return "b"
	}
	size := "32x16"
	if b.Dx() == 16 && b.Dy() == 32 {
		size = "16x32"
	}
	if p.Wide != b.Dx() || p.High != b.Dy() {
		t.Errorf("said to be %d by %d, is %v", p.Wide, p.High, b)
	}
	right, low := b.Dx()-2, b.Dy()-2
	return name(1, 1) + name(right, 1) + "/" + name(1, low) + name(right, low) + " " + size
}

// pngOf writes a PNG, with a text and metadata in it where wanted.
func pngOf(t testing.TB, img image.Image, more ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	const afterHeader = 8 + 25
	out := append([]byte(nil), b.Bytes()[:afterHeader]...)
	for _, m := range more {
		out = append(out, m...)
	}
	return append(out, b.Bytes()[afterHeader:]...)
}

// chunk is a part of a PNG file (PNG, third edition, section 5.3).
func chunk(name string, data []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	b = append(append(b, name...), data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

func TestPhotoPNG(t *testing.T) {
	p, err := ReadPhoto(bytes.NewReader(pngOf(t, quarters(), chunk("tEXt", []byte("Author\x00Somebody")), chunk("eXIf", exif(6)))))
	if err != nil {
		t.Fatal(err)
	}
	if got := corners(t, p); got != "br/bg 16x32" || p.Ext != ".png" {
		t.Errorf("got %s %s", got, p.Ext)
	}
	for _, data := range []string{"Somebody", "eXIf", "CAM"} {
		if bytes.Contains(p.Data, []byte(data)) {
			t.Errorf("%q is left in it", data)
		}
	}
}

func TestPhotoRefused(t *testing.T) {
	whole := jpegOf(t, quarters())
	huge := pngOf(t, quarters())
	binary.BigEndian.PutUint32(huge[16:], 20_000) // its size alone, as a bomb has it
	binary.BigEndian.PutUint32(huge[20:], 5_001)
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29]))
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"words":         {[]byte("These are words."), "it is not a picture\n    JPEG, PNG and WebP are read"},
		"nothing":       {nil, "it is empty"},
		"a phone's":     {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1"), "set the phone's camera to JPEG"},
		"cut short":     {whole[:len(whole)-20], "it is damaged"},
		"a bomb":        {huge, "it is 20000 by 5001 pixels, more than 100 million"},
		"too large":     {make([]byte, MostPhoto+1), "larger than 64 MB"},
		"only metadata": {withExif(whole[:2], 6), "it is damaged"},
	} {
		if _, err := ReadPhoto(bytes.NewReader(c.data)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// A photograph is never put in another file's place, nor outside the workroom.
func TestPhotoKeep(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "content/builds/coat/build.yaml"), plainRecord)
	p := Photo{Data: []byte("one"), Ext: ".jpg"}
	var got []string
	for range 3 {
		kept, err := p.Keep(dir, "content/builds/coat", "2026-08-05", "Größe: the hem, *pressed*!")
		if err != nil {
			t.Fatal(err)
		}
		kept.Settled()
		got = append(got, kept.Name)
		p.Data = append(p.Data, '!')
	}
	want := "photos/2026-08-05-grosse-the-hem-pressed.jpg photos/2026-08-05-grosse-the-hem-pressed-2.jpg photos/2026-08-05-grosse-the-hem-pressed-3.jpg"
	if strings.Join(got, " ") != want {
		t.Errorf("got %s", got)
	}
	if text := get(t, filepath.Join(dir, "content/builds/coat", got[0])); text != "one" {
		t.Errorf("the first holds %q now", text)
	}
	if list, _ := os.ReadDir(filepath.Join(dir, "content/builds/coat/photos")); len(list) != 3 {
		t.Errorf("%d files lie there", len(list))
	}
	outside := t.TempDir()
	if os.Symlink(outside, filepath.Join(dir, "content/builds/away")) != nil {
		t.Skip("no symbolic links here")
	}
	if kept, err := p.Keep(dir, "content/builds/away", "2026-08-05", "x"); err == nil {
		t.Errorf("%s was written outside", kept.Name)
	}
}

func TestPhotoStem(t *testing.T) {
	for _, c := range [][2]string{
		{"pressed", "2026-08-05-pressed"}, {"", "2026-08-05"}, {"***", "2026-08-05"}, {"../../etc/passwd", "2026-08-05-etc-passwd"},
		{"one two three four five six seven eight nine ten eleven", "2026-08-05-one-two-three-four-five-six-seven-eight-nine"},
		{"日本", "2026-08-05-ri-ben"},
	} {
		if got := photoStem("2026-08-05", c[0]); got != c[1] {
			t.Errorf("%q: got %s, want %s", c[0], got, c[1])
		}
	}
}

func FuzzReadPhoto(f *testing.F) {
	f.Add(withExif(jpegOf(f, quarters()), 6))
	f.Add(pngOf(f, quarters(), chunk("eXIf", exif(3))))
	f.Fuzz(func(t *testing.T, data []byte) {
		if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && config.Width*config.Height > 1<<20 {
			t.Skip("slow, and refused or read like any other")
		}
		p, err := ReadPhoto(bytes.NewReader(data))
		if err != nil {
			return
		}
		again, err := ReadPhoto(bytes.NewReader(p.Data))
		if err != nil || again.Wide != p.Wide || again.High != p.High {
			t.Errorf("%d by %d, then %d by %d, %v", p.Wide, p.High, again.Wide, again.High, err)
		}
	})
}
