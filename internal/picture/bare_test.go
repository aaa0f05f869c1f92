package picture

import (
	"bytes"
	"image"
	"image/jpeg"
	"testing"
)

// encodedAt is a photograph of waves in a quality.
func encodedAt(t testing.TB, quality int) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, waves(64, 48, image.YCbCrSubsampleRatio420), &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// noted puts a part with a secret after the start of a JPEG.
func noted(data []byte, mark byte, words string) []byte {
	part := append([]byte{0xff, mark, 0, byte(2 + len(words))}, words...)
	return append(append(bytes.Clone(data[:2]), part...), data[2:]...)
}

// TestBareKeepsThePictureAlone: whatever a file carries beside its picture is
// gone, and the picture is the same sample by sample.
func TestBareKeepsThePictureAlone(t *testing.T) {
	plain := encodedAt(t, 82)
	for name, data := range map[string][]byte{
		"nothing":       plain,
		"a note":        noted(plain, 0xfe, "SECRET"),
		"a first part":  noted(plain, 0xe0, "JFIF\x00SECRET"),
		"a colour part": noted(plain, 0xe2, "ICC_PROFILE\x00SECRET"),
		"a last part":   noted(noted(plain, 0xef, "SECRET"), 0xed, "SECRET"),
		"what follows":  append(bytes.Clone(plain), "SECRET, and another picture"...),
	} {
		bare, ok := Bare(data, 90)
		if !ok || !bytes.Equal(bare, plain) {
			t.Errorf("%s: %v, %d bytes of %d", name, ok, len(bare), len(plain))
		}
	}
}

// TestBareRefuses: what is finer than wanted, has to be turned, or is not plain
// is encoded anew.
func TestBareRefuses(t *testing.T) {
	plain := encodedAt(t, 82)
	with := func(at int, c byte) []byte {
		out := bytes.Clone(plain)
		out[at] = c
		return out
	}
	frame := bytes.Index(plain, []byte{0xff, markFrame})
	for name, data := range map[string][]byte{
		"finer":                    encodedAt(t, 92),
		"turned":                   noted(plain, 0xe1, "Exif\x00\x00"+string(turnedExif(6)[8:])),
		"colours of another kind":  noted(plain, 0xee, "Adobe\x00\x64\x00\x00\x00\x00\x00"),
		"in passes":                with(frame+1, 0xc2),
		"red, green and blue":      with(frame+10, 'R'),
		"twelve bits":              with(frame+4, 12),
		"two pictures, one frame":  append(bytes.Clone(plain[:len(plain)-2]), plain[2:]...),
		"cut off":                  plain[:len(plain)-40],
		"cut off in a part":        plain[:frame+6],
		"no frame":                 append(bytes.Clone(plain[:frame]), plain[bytes.Index(plain, []byte{0xff, markHuffman}):]...),
		"a table that is too long": with(3, 0),
		"a PNG":                    encoded(t, image.NewGray(image.Rect(0, 0, 9, 9)), "png"),
		"nothing":                  nil,
	} {
		if _, ok := Bare(data, 90); ok {
			t.Errorf("%s: kept as it is", name)
		}
	}
}

// TestCoarsenessFalls: a higher quality is always finer, so a limit on it
// means what it says.
func TestCoarsenessFalls(t *testing.T) {
	for q := 2; q <= 100; q++ {
		if coarsenessOf(q) > coarsenessOf(q-1) {
			t.Errorf("quality %d is coarser than %d", q, q-1)
		}
	}
	if got := coarsenessOf(100); got != 64 { // sixty-four steps of one
		t.Errorf("the finest adds up to %d", got)
	}
}

// TestSameSizeIsLeftAlone: a picture that is wanted as large as it is comes out
// sample by sample as it was.
func TestSameSizeIsLeftAlone(t *testing.T) {
	img := waves(65, 47, image.YCbCrSubsampleRatio420)
	if d := apart(planesOf(img).fitted(image.Pt(65, 47)).image(image.Pt(65, 47)), img); d != 0 {
		t.Errorf("%d apart", d)
	}
}

func FuzzBare(f *testing.F) {
	plain := encodedAt(f, 82)
	f.Add(plain)
	f.Add(noted(plain, 0xee, "Adobe\x00\x64\x00\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<14 {
			return
		}
		bare, ok := Bare(data, 90)
		if !ok {
			return
		}
		want, _, err := Read(data)
		if err != nil {
			return // it is decoded, and refused, before it is kept
		}
		got, err := jpeg.Decode(bytes.NewReader(bare))
		if err != nil || apart(got, want) != 0 {
			t.Fatalf("another picture: %v", err)
		}
		if again, ok := Bare(bare, 90); !ok || !bytes.Equal(again, bare) {
			t.Fatal("not the same once more")
		}
	})
}
