package paper

import (
	"errors"
	"math"
	"sync"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/go-fonts/liberation/liberationserifbold"
	"github.com/go-fonts/liberation/liberationserifitalic"
	"github.com/go-fonts/liberation/liberationserifregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/say"
)

// A face is one cut of a font, with the widths of its letters.
type face struct {
	name   string        // as the PDF calls it
	data   []byte        // TrueType outlines
	plain  func() []byte // plainFont of it
	font   *sfnt.Font
	units  float64 // of its grid, to the em
	high   float64 // ascent and
	low    float64 // descent, in em, the latter positive
	lock   sync.Mutex
	buffer sfnt.Buffer
	widths map[rune]float64 // in em; −1 for a letter the face has not
}

// The faces that are always there: one for text, one for figures and labels.
// Liberation 2, SIL Open Font License 1.1.
var (
	serif       = builtIn("text", liberationserifregular.TTF)
	serifBold   = builtIn("text-bold", liberationserifbold.TTF)
	serifItalic = builtIn("text-italic", liberationserifitalic.TTF)
	sans        = builtIn("figure", liberationsansregular.TTF)
	sansBold    = builtIn("figure-bold", liberationsansbold.TTF)
)

func builtIn(name string, data []byte) func() *face {
	return sync.OnceValue(func() *face {
		f, err := newFace(name, data)
		if err != nil {
			panic(say.Of("paper.face", name, err)) // the module is pinned by its hash
		}
		return f
	})
}

// newFace reads a TrueType font.
func newFace(name string, data []byte) (*face, error) {
	data, err := fromCollection(data)
	if err != nil {
		return nil, err
	}
	if len(data) > 4 && string(data[:4]) == "OTTO" {
		return nil, errors.New(say.Of("paper.the-font-has-postscript-outlines-a-truetype"))
	}
	font, err := sfnt.Parse(data)
	if err != nil {
		return nil, fault.Wrapping(err, say.Of("paper.the-font-cannot-be-read", err))
	}
	if !wholeTables(data) {
		return nil, errors.New(say.Of("paper.the-font-cannot-be-read-a-table"))
	}
	plain := sync.OnceValue(func() []byte { return plainFont(data) })
	f := &face{name: name, data: data, plain: plain, font: font, units: float64(font.UnitsPerEm()), widths: map[rune]float64{}}
	m, err := font.Metrics(&f.buffer, fixed.Int26_6(font.UnitsPerEm()), 0)
	if err != nil {
		return nil, fault.Wrapping(err, say.Of("paper.the-fonts-measures-cannot-be-read", err))
	}
	f.high, f.low = float64(m.Ascent)/f.units, math.Abs(float64(m.Descent))/f.units
	return f, nil
}

// width is how wide a letter is, in em, rounded to a thousandth as the PDF
// states it; false where the face has no such letter.
func (f *face) width(r rune) (float64, bool) {
	f.lock.Lock()
	defer f.lock.Unlock()
	w, known := f.widths[r]
	if !known {
		w = f.measure(r)
		f.widths[r] = w
	}
	return max(w, 0), w >= 0
}

// glyph is the outline of a letter; 0 where the face has none. The lock is held.
func (f *face) glyph(r rune) sfnt.GlyphIndex {
	if r > 0xFFFF { // the PDF writer counts letters in two bytes
		return 0
	}
	glyph, err := f.font.GlyphIndex(&f.buffer, r)
	if err != nil {
		return 0
	}
	return glyph
}

func (f *face) measure(r rune) float64 {
	glyph := f.glyph(r)
	if glyph == 0 {
		return -1
	}
	adv, err := f.font.GlyphAdvance(&f.buffer, glyph, fixed.Int26_6(f.font.UnitsPerEm()), 0)
	if err != nil {
		return -1
	}
	return math.Round(float64(adv)*1000/f.units) / 1000
}

// wide is the width of a text set in one face, in millimetres.
func (f *face) wide(text string, size float64) float64 {
	sum := 0.0
	for _, r := range text {
		w, _ := f.width(r)
		sum += w
	}
	return sum * size * mmPerPoint
}

// missingLetter stands for a letter that no face has.
const missingLetter = '□'

// faces chooses the face of each letter.
type faces struct {
	more  *face
	lacks map[rune]bool // letters that no face has; nil where nobody asks
}

// newFaces takes the font for letters that the built-in faces lack; nil for
// none.
func newFaces(more []byte) (faces, error) {
	if len(more) == 0 {
		return faces{}, nil
	}
	f, err := newFace("more", more)
	return faces{more: f}, err
}

// pick is the face a letter is set in, and the letter, which is
// missingLetter where no face has it.
func (fs faces) pick(want *face, r rune) (*face, rune) {
	if _, ok := want.width(r); ok {
		return want, r
	}
	if r == '\u202f' || r == '\u2009' { // narrow spaces that keep words together
		return fs.pick(want, '\u00a0')
	}
	if fs.more != nil {
		if _, ok := fs.more.width(r); ok {
			return fs.more, r
		}
	}
	if fs.lacks != nil && r != missingLetter {
		fs.lacks[r] = true
	}
	return want, missingLetter
}

// of is the face and size of a voice, by the size of body text in points.
func (fs faces) of(voice document.Voice, size float64) (*face, float64) {
	switch voice {
	case document.Strong, document.Good, document.Bad:
		return serifBold(), size
	case document.Small, document.Cited:
		return sans(), size * smallText
	case document.Measured:
		return sans(), size * figureText
	}
	return serif(), size
}
