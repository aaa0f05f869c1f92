package picture

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"hembook/internal/fault"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
)

// The parts of three WebP files of 32 by 16 pixels, as a browser wrote them:
// red in the upper left quarter, green in the upper right, blue below.
const (
	webpLossy    = "sAIAnQEqIAAQAADAEiWgAnS8CeAfgB+wH8gAiScAAP78bJf//Wjy/9i71zdf/FJ//4fxjxcM1X+tW///6L6wOHhLJ5QAAA=="
	webpLossless = "Lx/AAwAXIBZMJAaT/xWiQCAJYn+esQQCSVj7cwwz/6EvDQiybSo5yateIKL/sW1VPwAAAAAAAAAA"
	webpOpaque   = "AQ8w/xERQiyY5C+9O4OI/k9AeH4=" // how opaque: not at all in a corner of 8 by 8
	webpBehind   = "sAIAnQEqIAAQAADAEiWgAnS8CeAfhB+t38AAksEAAP791n//2mCK//7QW/q+P/+J7l+nfZqv9at///0X2Pq888BtYgAAAA=="
)

// riff makes a WebP file of its parts (RFC 9649, section 2.3).
func riff(parts ...[]byte) []byte {
	body := append([]byte("WEBP"), bytes.Join(parts, nil)...)
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func part(name, base64text string) []byte {
	data, err := base64.StdEncoding.DecodeString(base64text)
	if err != nil {
		panic(err)
	}
	return rawPart(name, data)
}

func rawPart(name string, data []byte) []byte {
	p := append(binary.LittleEndian.AppendUint32([]byte(name), uint32(len(data))), data...)
	if len(data)%2 == 1 {
		p = append(p, 0)
	}
	return p
}

// extended is the part before the others that says what there is: 0x10 how
// opaque, 0x08 EXIF, 0x02 that it moves (RFC 9649, section 2.7).
func extended(flags byte) []byte {
	return rawPart("VP8X", []byte{flags, 0, 0, 0, 31, 0, 0, 15, 0, 0})
}

// turnedExif is metadata that says how the camera was held (Exif 2.3, tag 274).
func turnedExif(held byte) []byte {
	return rawPart("EXIF", []byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00"+string(held)+"\x00\x00\x00\x00\x00\x00\x00"))
}

// colours names the strongest colour a little inside three corners: upper
// left, upper right, lower left; "-" where nothing is to be seen.
func colours(img image.Image) string {
	b := img.Bounds()
	name := func(x, y int) string {
		r, g, bl, a := img.At(x, y).RGBA()
		switch {
		case a < 0x8000:
			return "-"
		case r > g && r > bl:
			return "r"
		case g > bl:
			return "g"
		}
		return "b"
	}
	return name(b.Min.X+2, b.Min.Y+2) + name(b.Max.X-3, b.Min.Y+2) + name(b.Min.X+2, b.Max.Y-3)
}

func TestReadWebP(t *testing.T) {
	for name, c := range map[string]struct {
		data       []byte
		want       string
		wide, high int
		lossless   bool
	}{
		"lossy":         {riff(part("VP8 ", webpLossy)), "rgb", 32, 16, false},
		"lossless":      {riff(part("VP8L", webpLossless)), "rgb", 32, 16, true},
		"not opaque":    {riff(extended(0x10), part("ALPH", webpOpaque), part("VP8 ", webpBehind)), "-gb", 32, 16, true},
		"turned":        {riff(extended(0x08), part("VP8 ", webpLossy), turnedExif(6)), "brb", 16, 32, false}, // a quarter to the right
		"in a long way": {riff(extended(0), part("VP8L", webpLossless)), "rgb", 32, 16, true},
	} {
		img, h, err := Read(c.data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := colours(img); got != c.want || img.Bounds().Dx() != c.wide || img.Bounds().Dy() != c.high || h.Lossless != c.lossless {
			t.Errorf("%s: %s, %v, lossless %v", name, got, img.Bounds(), h.Lossless)
		}
	}
}

// pngHead is a PNG that claims a size and holds nothing.
func pngHead(wide, high uint32, depth, kind byte) []byte {
	out := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR")
	out = binary.BigEndian.AppendUint32(out, wide)
	out = binary.BigEndian.AppendUint32(out, high)
	out = append(out, depth, kind, 0, 0, 0)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[12:]))
}

// jpegHead is a JPEG that claims a size, three colours and how it is drawn:
// 0xc0 at once, 0xc2 in passes, 0xc3 without loss.
func jpegHead(wide, high uint16, frame, sampling byte) []byte {
	out := append([]byte("\xff\xd8\xff"), frame, 0, 17, 8)
	out = binary.BigEndian.AppendUint16(out, high)
	out = binary.BigEndian.AppendUint16(out, wide)
	return append(out, 3, 1, sampling, 0, 2, 0x11, 0, 3, 0x11, 0)
}

func encoded(t testing.TB, img image.Image, kind string) []byte {
	t.Helper()
	var b bytes.Buffer
	err := png.Encode(&b, img)
	if kind == "jpeg" {
		b.Reset()
		err = jpeg.Encode(&b, img, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestRefused(t *testing.T) {
	whole := encoded(t, image.NewGray(image.Rect(0, 0, 40, 40)), "jpeg")
	passes := append(bytes.Clone(whole[:len(whole)-2]), bytes.Repeat([]byte("\xff\xda"), 300)...)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"too many pixels":  {pngHead(20_000, 5_001, 8, 2), "it is 20000 by 5001 pixels, more than 100 million"},
		"a thread":         {pngHead(1, 100_000, 8, 2), "it is 1 by 100000 pixels, and no side may have more than 65535"},
		"sixteen bits":     {pngHead(10_000, 10_000, 16, 2), "opening its 10000 by 10000 pixels takes 1144 MB of memory, more than 600"}, // (8+4)·10⁸ ÷ 2²⁰
		"in passes":        {jpegHead(10_000, 10_000, 0xc2, 0x11), "takes 1811 MB"},                                                      // (3·5+4)·10⁸ ÷ 2²⁰
		"without loss":     {jpegHead(100, 100, 0xc3, 0x11), "a rare kind of JPEG"},
		"no size":          {jpegHead(0, 100, 0xc0, 0x22), "it has no size"},
		"hundreds of them": {passes, "hundreds of passes"},
		"cut short":        {whole[:len(whole)-20], "it is damaged"},
		"nothing":          {nil, "it is empty"},
		"words":            {[]byte("name: Harvest skirt"), "not a picture\n    JPEG, PNG and WebP are read"},
		"HEIC":             {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "HEIC picture\n    set the phone's camera to JPEG"},
		"HEIC by mif1":     {[]byte("\x00\x00\x00\x18ftypmif1\x00\x00\x00\x00mif1heic"), "HEIC"},
		"AVIF":             {[]byte("\x00\x00\x00\x1cftypavif\x00\x00\x00\x00avifmif1"), "AVIF picture\n    open it on the phone and save or share it as JPEG"},
		"AVIF by mif1":     {[]byte("\x00\x00\x00\x1cftypmif1\x00\x00\x00\x00avifmif1"), "AVIF"},
		"a film":           {[]byte("\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00isom"), "it is a film\n    take a still"},
		"GIF":              {[]byte("GIF89a\x01\x00\x01\x00"), "it is a GIF\n    take a screenshot"},
		"TIFF":             {[]byte("II*\x00\x08\x00\x00\x00"), "raw picture"},
		"PDF":              {[]byte("%PDF-1.7"), "it is a PDF"},
		"a WebP that moves": {riff(extended(0x02), rawPart("ANIM", make([]byte, 6)), rawPart("ANMF", make([]byte, 16))),
			"a WebP picture that moves"},
	} {
		_, _, err := Read(c.data)
		var r *fault.Refusal
		if !errors.As(err, &r) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := ReadBytes(bytes.NewReader(make([]byte, MostBytes+1))); err == nil || !strings.Contains(err.Error(), "larger than 64 MB") {
		t.Errorf("too many bytes: %v", err)
	}
}

// TestMemory reads pictures of each kind and compares what was allocated with
// what the head was said to cost.
func TestMemory(t *testing.T) {
	const side = 800
	r := image.Rect(0, 0, side, side)
	noise := image.NewRGBA(r)
	random := rand.New(rand.NewPCG(1, 2))
	for i := range noise.Pix {
		noise.Pix[i] = byte(random.Uint32()) | byte(i%4/3*255)
	}
	inPasses := encoded(t, noise, "jpeg")
	inPasses[bytes.Index(inPasses, []byte{0xff, 0xc0})+1] = 0xc2 // damaged, but not before its memory is taken
	scan := bytes.Index(inPasses, []byte{0xff, 0xda})
	copy(inPasses[scan+11:], []byte{0, 0, 0}) // the first pass: the mean of each block
	for name, data := range map[string][]byte{
		"JPEG": encoded(t, noise, "jpeg"), "grey JPEG": encoded(t, image.NewGray(r), "jpeg"), "JPEG in passes": inPasses,
		"PNG": encoded(t, noise, "png"), "PNG of sixteen bits": encoded(t, image.NewNRGBA64(r), "png"),
		"grey of sixteen bits": encoded(t, image.NewGray16(r), "png"), "PNG of two colours": encoded(t, image.NewPaletted(r, color.Palette{color.White, color.Black}), "png"),
	} {
		h, err := Look(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		img, _, err := Read(data)
		if err == nil {
			upright(img, 6)
		} else if name != "JPEG in passes" {
			t.Errorf("%s: %v", name, err)
		}
		runtime.ReadMemStats(&after)
		const beside = 1 << 20 // buffers, tables and the like
		if took := int64(after.TotalAlloc - before.TotalAlloc); took > h.Memory()+beside || h.Memory() > 8*took {
			t.Errorf("%s: %d bytes were taken, %d were said", name, took, h.Memory())
		}
	}
}

// TestHalveDepth: the upper eight bits of each colour stay.
func TestHalveDepth(t *testing.T) {
	deep := image.NewNRGBA64(image.Rect(0, 0, 2, 1))
	deep.SetNRGBA64(0, 0, color.NRGBA64{0x1234, 0x5678, 0x9abc, 0xffff})
	deep.SetNRGBA64(1, 0, color.NRGBA64{0x01ff, 0x02ff, 0x03ff, 0x80ff})
	img, _, err := Read(encoded(t, deep, "png"))
	if err != nil {
		t.Fatal(err)
	}
	for x, want := range []color.NRGBA{{0x12, 0x56, 0x9a, 0xff}, {0x01, 0x02, 0x03, 0x80}} {
		if got := img.At(x, 0); got != want {
			t.Errorf("point %d: %v, want %v", x, got, want)
		}
	}
}

func FuzzLook(f *testing.F) {
	f.Add(riff(part("VP8 ", webpLossy)))
	f.Add(riff(part("VP8L", webpLossless)))
	f.Add(riff(extended(0x18), part("ALPH", webpOpaque), part("VP8 ", webpBehind), turnedExif(6)))
	f.Add(jpegHead(10, 10, 0xc2, 0x21))
	f.Add(pngHead(10, 10, 16, 6))
	f.Add(encoded(f, image.NewGray(image.Rect(0, 0, 9, 9)), "jpeg"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := Look(bytes.NewReader(data))
		var r *fault.Refusal
		if err != nil {
			if !errors.As(err, &r) || r.Message == "" {
				t.Fatalf("refused with %v", err)
			}
			return
		}
		if h.Memory() <= 0 || h.Memory() > MostMemory || h.Wide > MostSide || h.High > MostSide {
			t.Fatalf("taken: %+v", h)
		}
		if h.Wide*h.High > 1<<20 {
			return // slow, and read like any other
		}
		img, _, err := Read(data)
		if err != nil {
			if !errors.As(err, &r) {
				t.Fatalf("refused with %v", err)
			}
			return
		}
		if size := img.Bounds().Size(); size != image.Pt(h.Wide, h.High) && size != image.Pt(h.High, h.Wide) {
			t.Fatalf("said to be %d by %d, is %v", h.Wide, h.High, size)
		}
	})
}
