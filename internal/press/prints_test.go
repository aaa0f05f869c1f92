package press

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

// quarters is a picture with a red upper left quarter; the rest is grey.
func quarters(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{120, 120, 120, 255}
			if x < w/2 && y < h/2 {
				c = color.RGBA{220, 20, 20, 255}
			}
			img.Set(x, y, c)
		}
	}
	return img
}

// photo encodes a JPEG that says how the camera was held, and where it was.
func photo(t *testing.T, img image.Image, held byte) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, nil); err != nil {
		t.Fatal(err)
	}
	// Exif 2.3: one IFD in big-endian order with Orientation (0x0112) and
	// ImageDescription (0x010e); from memory
	secret := "SECRETplace\x00"
	tiff := []byte("MM\x00\x2a\x00\x00\x00\x08\x00\x02")
	tiff = append(tiff, 0x01, 0x0e, 0, 2, 0, 0, 0, byte(len(secret)), 0, 0, 0, 38)
	tiff = append(tiff, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, held, 0, 0)
	tiff = append(tiff, 0, 0, 0, 0)
	tiff = append(tiff, secret...)
	app := append([]byte("Exif\x00\x00"), tiff...)
	head := []byte{0xff, 0xd8, 0xff, 0xe1}
	head = binary.BigEndian.AppendUint16(head, uint16(len(app)+2))
	return append(append(head, app...), buf.Bytes()[2:]...)
}

// TestUpright turns each of the eight orientations: a picture stored so that
// it shows upright when turned has its red quarter where that orientation
// puts it.
func TestUpright(t *testing.T) {
	// where the stored picture's upper left quarter belongs (Exif 2.3, tag
	// 274, from memory): 1 upper left, 2 upper right, 3 lower right, 4 lower
	// left, 5 upper left, 6 upper right, 7 lower right, 8 lower left
	for held, want := range map[byte][2]int{1: {0, 0}, 2: {1, 0}, 3: {1, 1}, 4: {0, 1}, 5: {0, 0}, 6: {1, 0}, 7: {1, 1}, 8: {0, 1}} {
		out, why := scale(photo(t, quarters(80, 40), held))
		if why != nil || len(out) != 1 {
			t.Fatal(why, len(out))
		}
		wide, high := 80, 40
		if held >= 5 {
			wide, high = 40, 80
		}
		if out[0].wide != wide || out[0].high != high {
			t.Errorf("held %d: %d by %d", held, out[0].wide, out[0].high)
		}
		img, err := jpeg.Decode(bytes.NewReader(out[0].data))
		if err != nil {
			t.Fatal(err)
		}
		x, y := wide/4+want[0]*wide/2, high/4+want[1]*high/2
		if r, g, _, _ := img.At(x, y).RGBA(); r>>8 < 180 || g>>8 > 80 {
			t.Errorf("held %d: the red quarter is not at %v", held, want)
		}
		if bytes.Contains(out[0].data, []byte("SECRET")) || bytes.Contains(out[0].data, []byte("Exif")) {
			t.Errorf("held %d: metadata is left", held)
		}
	}
}

func TestWidths(t *testing.T) {
	for _, c := range []struct {
		wide int
		want []int
	}{{300, []int{300}}, {480, []int{480}}, {640, []int{640}}, {642, []int{480, 642}}, {700, []int{480, 700}}, {1200, []int{480, 1200}}, {1280, []int{480, 1280}}, {1282, []int{480, 960, 1282}}, {1600, []int{480, 960, 1600}}, {1700, []int{480, 960, 1600}}} {
		sizes := sizesOf(c.wide, c.wide/2)
		if len(sizes) != len(c.want) {
			t.Errorf("%d: %v", c.wide, sizes)
			continue
		}
		for i, s := range sizes {
			if s.X != c.want[i] || s.Y != c.want[i]/2 {
				t.Errorf("%d: %v, want %v", c.wide, sizes, c.want)
			}
		}
	}
	if s := sizesOf(4000, 1); s[0].Y != 1 {
		t.Errorf("a thread of a picture: %v", s)
	}
}

// bomb is a PNG head that claims to be large: 33 bytes that would unfold to
// gigabytes.
func bomb(w, h uint32) []byte {
	out := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR")
	out = binary.BigEndian.AppendUint32(out, w)
	out = binary.BigEndian.AppendUint32(out, h)
	out = append(out, 8, 6, 0, 0, 0)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[12:]))
}

func TestPicturesThatAreRefused(t *testing.T) {
	var cut bytes.Buffer
	_ = jpeg.Encode(&cut, quarters(400, 400), nil)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"a bomb": {bomb(60_000, 60_000), "100 million"}, "words": {[]byte("not a picture"), "JPEG, PNG and WebP are read"}, "nothing": {nil, "it is empty"},
		"cut off": {cut.Bytes()[:cut.Len()/2], "damaged"}, "a GIF": {[]byte("GIF89a\x01\x00\x01\x00\x00\x00\x00;"), "it is a GIF"},
	} {
		if _, err := scale(c.data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestDrawingStaysLossless(t *testing.T) {
	img := image.NewPaletted(image.Rect(0, 0, 300, 200), color.Palette{color.White, color.Black})
	for x := range 300 {
		img.SetColorIndex(x, x*200/300, 1)
	}
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		t.Fatal(err)
	}
	out, why := scale(buf.Bytes())
	if why != nil || out[0].ext != ".png" {
		t.Fatal(why, out[0].ext)
	}
}

// TestPicturesOnPages presses a photograph twice: the second time from what is
// kept, to the same bytes, also where what is kept was spoilt.
func TestPicturesOnPages(t *testing.T) {
	f := small()
	const file = "content/builds/apron/build.yaml"
	f[file] = strings.Replace(f[file], "state: sewing\n", "state: sewing\npicture: {file: photos/a.jpg, alt: 'an <apron>', note: Done.}\n", 1)
	f["content/builds/apron/photos/a.jpg"] = string(photo(t, quarters(1000, 700), 6))
	f["content/builds/apron/photos/b.jpg"] = f["content/builds/apron/photos/a.jpg"]
	f["content/builds/apron/notes.md"] = "![the *same*](photos/b.jpg)\n"
	dir := room(t, f)
	one := pressed(t, dir, filepath.Join(t.TempDir(), "a"))
	page := one["builds/apron.html"]
	for _, want := range []string{`width="700" height="1000"`, `alt="an &lt;apron&gt;"`, `480w`, `700w`, "<figcaption>Done."} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is missing in the page", want)
		}
	}
	notes := one["builds/apron/journal.html"]
	for _, want := range []string{`alt="the same"`, `480w`, `loading="lazy"`} {
		if !strings.Contains(notes, want) {
			t.Errorf("%q is missing beside the notes", want)
		}
	}
	checkPage(t, "builds/apron.html", page, one)
	kept, err := filepath.Glob(filepath.Join(dir, ".hembook", "pictures", "*", "480x*"))
	if err != nil || len(kept) != 1 {
		t.Fatal(kept, err)
	}
	same(t, one, pressed(t, dir, filepath.Join(t.TempDir(), "b")))
	if err := os.WriteFile(kept[0], []byte("spoilt"), 0o644); err != nil {
		t.Fatal(err)
	}
	same(t, one, pressed(t, dir, filepath.Join(t.TempDir(), "c")))
}

func FuzzScale(f *testing.F) {
	var buf bytes.Buffer
	_ = jpeg.Encode(&buf, quarters(8, 8), nil)
	f.Add(buf.Bytes())
	f.Add(bomb(3, 3))
	f.Fuzz(func(t *testing.T, data []byte) {
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); len(data) > 1<<16 || err == nil && c.Width*c.Height > 1<<20 {
			return
		}
		for _, p := range first(scale(data)) {
			if p.wide <= 0 || p.high <= 0 || len(p.data) == 0 {
				t.Fatalf("an empty picture: %+v", p)
			}
		}
	})
}

// FuzzKeptList: of what is kept of a photograph, only a list that could have
// been written is read, and it leads to no other folder.
func FuzzKeptList(f *testing.F) {
	for _, list := range []string{
		"480x360.0123456789abcdef.jpg\n960x720.0123456789abcdef.jpg\n", "3x4.00.png\n", "", "\n", "-1x4.00.png\n", "04x4.00.png\n",
		"4x4./../../x.png\n", "4x4.00.png\n4x4.00.png\n", "999999999999999999999x4.00.png\n", "4x4.00.svg\n", "480x360.00.jpg",
	} {
		f.Add(list)
	}
	f.Fuzz(func(t *testing.T, list string) {
		prints, hashes, ok := parseKept(list)
		if !ok {
			return
		}
		var again strings.Builder
		for i, p := range prints {
			name := p.keptName(hashes[i])
			if filepath.Base(name) != name || p.wide > 1600 || p.high < 1 {
				t.Errorf("%q leads to %q", list, name)
			}
			again.WriteString(name + "\n")
		}
		if got := again.String(); got != list && got != list+"\n" {
			t.Errorf("%q was read as %q", list, got)
		}
	})
}

// TestKeptPrints: what is kept is taken only as it was written.
func TestKeptPrints(t *testing.T) {
	dir := t.TempDir()
	data := photo(t, quarters(40, 20), 1)
	keep(dir, []print{{wide: 40, high: 20, ext: ".jpg", data: data}})
	if got := kept(dir); len(got) != 1 || !bytes.Equal(got[0].data, data) {
		t.Fatalf("what was kept is read as %d prints", len(got))
	}
	for name, list := range map[string]string{
		"another size": "20x40." + hashOf(data) + ".jpg\n", "a file of another folder": "40x20./../" + hashOf(data) + ".jpg\n",
		"a file that is not there": "40x20.00.jpg\n", "a long list": strings.Repeat("1x1.00.jpg\n", 1000), "nothing": "",
	} {
		from := "20x40." + hashOf(data) + ".jpg"
		if err := os.WriteFile(filepath.Join(dir, from), data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "list"), []byte(list), 0o644); err != nil {
			t.Fatal(err)
		}
		if got := kept(dir); got != nil {
			t.Errorf("%s: %d prints were taken", name, len(got))
		}
	}
}

func first[T any](v T, _ error) T { return v }
