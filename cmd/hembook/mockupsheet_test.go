package main

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// blackRuns are the lengths of what is black in a row of a picture, in its dots.
func blackRuns(at func(x int) bool, wide int) (out []int) {
	run := 0
	for x := range wide + 1 {
		if x < wide && at(x) {
			run++
			continue
		}
		if run > 0 {
			out = append(out, run)
		}
		run = 0
	}
	return out
}

// TestScaleStripIsTrue: at ten dots a millimetre each black field of the strip that goes
// with a mock-up is 100 dots wide on paper, and there are eight in a row.
func TestScaleStripIsTrue(t *testing.T) {
	needTools(t, "pdftoppm")
	if testing.Short() {
		t.Skip("draws pages of a sheet")
	}
	t.Parallel()
	for _, size := range []string{"a4", "letter"} {
		folder, _ := packDemo(t, "boatyard-trousers", "--for", "mock-up", "--paper", size)
		to := filepath.Join(t.TempDir(), "page")
		tool(t, "pdftoppm", "-r", "254", "-gray", "-png", filepath.Join(folder, "mock-up.pdf"), to)
		pages, err := filepath.Glob(to + "*.png")
		if err != nil || len(pages) == 0 {
			t.Fatal(pages, err)
		}
		found := false
		for _, page := range pages {
			f, err := os.Open(page)
			if err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(f)
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			b := img.Bounds()
			for y := b.Min.Y; y < b.Max.Y && !found; y += 10 {
				fields := 0
				for _, run := range blackRuns(func(x int) bool { r, _, _, _ := img.At(b.Min.X+x, y).RGBA(); return r < 0x6000 }, b.Dx()) {
					if run >= 98 && run <= 103 { // the last has the frame's line beside it
						fields++
					}
				}
				found = fields == 8
			}
		}
		if !found {
			t.Errorf("%s: no row of the mock-up's sheet has eight black centimetres", size)
		}
	}
}
