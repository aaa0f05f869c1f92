package paper

import (
	"testing"

	"golang.org/x/image/font/sfnt"
)

// TestOnlyItsLetters reads a font cut down to some letters: they are the same outlines as
// wide as before, and it knows no other letter.
func TestOnlyItsLetters(t *testing.T) {
	f := serif()
	used := map[rune]bool{'A': true, 'B': true, 'é': true, '□': true, 'あ': true}
	cut, err := sfnt.Parse(f.only(used))
	if err != nil {
		t.Fatal(err)
	}
	var b sfnt.Buffer
	for _, r := range "ABé□" {
		want, err := f.font.GlyphIndex(&b, r)
		if err != nil || want == 0 {
			t.Fatal(r, want, err)
		}
		got, err := cut.GlyphIndex(&b, r)
		if err != nil || got != want {
			t.Errorf("%c is outline %d, was %d: %v", r, got, want, err)
		}
		a, err := f.font.GlyphAdvance(&b, want, 2048<<6, 0)
		if err != nil {
			t.Fatal(err)
		}
		if is, err := cut.GlyphAdvance(&b, got, 2048<<6, 0); err != nil || is != a {
			t.Errorf("%c is %v wide, was %v: %v", r, is, a, err)
		}
	}
	for _, r := range "Caあ " {
		if got, err := cut.GlyphIndex(&b, r); err != nil || got != 0 {
			t.Errorf("%c is outline %d: %v", r, got, err)
		}
	}
	if data := f.data; wholeTables(data[:len(data)/2]) || !wholeTables(data) {
		t.Error("a font that is cut off is taken for whole, or a whole one is not")
	}
}
