package paper

import (
	"maps"
	"slices"

	"hembook/internal/document"
)

// textStep is by how much text is made smaller at a time, in points.
const textStep = 0.25

// Pages is how many pages a document takes.
func Pages(d document.Document, opt Options) (int, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return 0, err
	}
	pages, err := layout(d, fs)
	return len(pages), err
}

// Fit makes a document's text smaller, a quarter of a point at a time, until
// it takes at most that many pages; it stops at SmallestText. It returns the
// document with the size it came to, and whether it fits.
func Fit(d document.Document, most int, opt Options) (document.Document, bool, error) {
	if d.TextSize == 0 {
		d.TextSize = document.DefaultText
	}
	for {
		n, err := Pages(d, opt)
		if err != nil || n <= most {
			return d, err == nil, err
		}
		if d.TextSize <= smallestText {
			return d, false, nil
		}
		d.TextSize = max(d.TextSize-textStep, smallestText)
	}
}

// Unset are the letters of a document that no face has and that a PDF shows
// as □, in the order of their numbers. HTML shows them where the reader's
// machine has a font for them.
func Unset(d document.Document, opt Options) ([]rune, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return nil, err
	}
	fs.lacks = map[rune]bool{}
	_, err = layout(d, fs)
	return slices.Sorted(maps.Keys(fs.lacks)), err
}
