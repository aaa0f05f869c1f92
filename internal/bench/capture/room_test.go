package capture

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hembook/internal/bench"
	"hembook/internal/fault"
	"hembook/internal/record"
)

// noon is a Wednesday.
var noon = time.Date(2026, 8, 5, 12, 0, 0, 0, time.Local)

const coatRecord = `# a record with a hand of its own
name: Landing coat     # spaced
garment: coat
state: sewing
cloth: {shell: flannel}
pieces:
  skirt: {cut: 2, rectangle: [520, 600], edges: {bottom: {name: hem}}}
seams:
  sides: {join: [skirt.right, skirt.left], type: plain}
finishes:
  hem: {of: skirt.hem, type: double-turned-hem, depth: 20}
levels: {waist: 700, hip: 1000}
work:
  cut out: 40 min
  sides: {takes: 50 min, sews: [sides]}
  let it hang a day: {wait: 24 h, after: sides}
  hem: {takes: 70 min, sews: [hem], after: let it hang}
  last: {takes: 90 min, after: hem}
journal:   # newest last
- {at: 2026-08-04 09:30, did: cut-out, for: 42 min}
measured: {waist: 702}   # before the stay
`

const slipRecord = "name: Plum slip\ngarment: slip\nstate: planned\n"

// newRoom is a workroom with two builds.
func newRoom(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	put(t, dir, "content/workroom.yaml", "name: Ferry House\nunits: mm\nhours: {wed: \"09:00-12:30, 13:30-17:00\", thu: \"09:00-12:30\"}\n")
	put(t, dir, "content/cloth/flannel.yaml", "name: Charcoal flannel\nfibres: {wool: 100}\nwidth: 150 cm\nprice: 31.00 EUR\n")
	put(t, dir, "content/wearers/pip.yaml", "name: Pip of the secret name\nbody: {waist: 690}\n")
	put(t, dir, "content/builds/slip/build.yaml", slipRecord)
	long := time.Now().Add(-time.Hour)
	if err := os.Chtimes(filepath.Join(dir, "content/builds/slip/build.yaml"), long, long); err != nil {
		t.Fatal(err)
	}
	put(t, dir, "content/builds/coat/build.yaml", coatRecord)
	return dir
}

func put(t testing.TB, dir, name, text string) {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func get(t testing.TB, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func coat(t testing.TB, dir string) string { return get(t, dir, "content/builds/coat/build.yaml") }

// folderSum is one sum over the names and contents of everything in a folder.
func folderSum(t testing.TB, dir string) string {
	t.Helper()
	sum := sha256.New()
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		fmt.Fprintln(sum, p, d.IsDir())
		if d.IsDir() {
			return nil
		}
		text, err := os.ReadFile(p)
		sum.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// numbered is an id that a phone might have made.
func numbered(n int) string { return fmt.Sprintf("%032x", n) }

// keeperAt is a keeper by a clock that stands.
func keeperAt(dir string, now time.Time) *keeper {
	k := newKeeper(dir)
	k.now = func() time.Time { return now }
	return k
}

// keep enters a slip as a phone with the right time would send it.
func keep(t testing.TB, dir string, now time.Time, s phoneSlip) slipAnswer {
	t.Helper()
	if s.Build == "" {
		s.Build = "coat"
	}
	if s.At == 0 {
		s.At = now.UnixMilli()
	}
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	if s, err = readSlip(text); err != nil {
		return answer("", err)
	}
	return keeperAt(dir, now).keep(s, now.UnixMilli(), nil)
}

// picture is a JPEG of that size.
func picture(t testing.TB, wide, high int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	for i := range wide * high {
		img.Set(i%wide, i/wide, color.RGBA{uint8(i), uint8(i / wide), 90, 255})
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func photoOf(t testing.TB, data []byte) *bench.Photo {
	t.Helper()
	p, err := bench.ReadPhoto(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return &p
}

func times(text, part string) int { return strings.Count(text, part) }

// openRecord reads the coat's record and returns its first error.
func openRecord(t testing.TB, dir string) string {
	t.Helper()
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	bf, _ := room.BuildNamed("coat")
	_, faults := room.ReadBuild(bf)
	for _, f := range faults {
		if f.Severity == fault.Error {
			return f.String()
		}
	}
	return ""
}
