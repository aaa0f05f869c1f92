package document

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // pictures come as JPEG
	_ "image/png"  // or as PNG
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// A Document is blocks that stand for themselves, outside a notebook: one sheet
// of paper or a few that belong together.
type Document struct {
	Title    string // what it is, in its own language; required
	Author   string // who made it; may be empty
	Language string // BCP 47: en, de, pt-BR; required
	NoPDF    bool   // some of its letters are in no face: it is written as a page alone
	Size     Size
	Blocks   []Block
	Card     *Card    // instead of blocks, where it is a folded card; else nil
	Footer   []string // lines at the foot of every page, above the page's number
	Words    Wording
	TextSize float64 // body text in points; 0 for DefaultText
	Printer  Printer // prints its figures
}

// DefaultText is the size of body text in points.
const DefaultText = 10.0

// Wording is the few words that writers add to a document, in its language. An
// empty word takes its English default.
type Wording struct {
	PageOf    string // page {n} of {of}: where its number stands; "page {n} of {of}"
	Continued string // said of a table that goes on over the page: "continued"
	Contents  string // heads the list of documents in a book: "contents"
}

// Check looks for what would make a document useless: no title, no language.
func (d *Document) Check() error {
	var wrong []error
	if strings.TrimSpace(d.Title) == "" {
		wrong = append(wrong, errors.New("the document has no title"))
	}
	if strings.TrimSpace(d.Language) == "" {
		wrong = append(wrong, fmt.Errorf("%q has no language", d.Title))
	}
	return errors.Join(wrong...)
}

// A Book is several documents in one file. Each begins on a new page and is
// numbered by itself, so that a sheet taken out still says how many pages it
// has.
type Book struct {
	Title     string
	Author    string
	Language  string
	Documents []Document
}

// Alone is the book that holds one document.
func Alone(d Document) Book {
	return Book{Title: d.Title, Author: d.Author, Language: d.Language, Documents: []Document{d}}
}

// A Size is a size of paper, upright.
type Size int

// The sizes of paper.
const (
	A4     Size = iota // 210 × 297 mm: ISO 216
	Letter             // 8 1/2 × 11 in: ANSI/ASME Y14.1, size A
)

// MM is the width and height of the paper in millimetres.
func (s Size) MM() (wide, high float64) {
	const mmPerInch = 25.4
	if s == Letter {
		return 8.5 * mmPerInch, 11 * mmPerInch
	}
	return 210, 297
}

func (s Size) String() string {
	if s == Letter {
		return "Letter"
	}
	return "A4"
}

// Margins of a sheet of paper, in millimetres.
const (
	MarginSide = 18.0
	MarginTop  = 15.0
	MarginFoot = 12.0 // under the foot
	FootHigh   = 9.0  // the foot itself, with the space above it
)

// Kind is "jpeg" or "png", with the picture's size in dots.
func (p *Picture) Kind() (kind string, wide, high int, err error) {
	c, kind, err := image.DecodeConfig(bytes.NewReader(p.Data))
	switch {
	case err != nil || c.Width < 1 || c.Height < 1:
		return "", 0, 0, fmt.Errorf("the picture %q is neither JPEG nor PNG", p.Alt)
	case strings.TrimSpace(p.Alt) == "":
		return "", 0, 0, errors.New("a picture does not say what it shows")
	}
	return kind, c.Width, c.Height, nil
}

// Clean is a text as it is set outside a notebook: composed letters, no marks
// that cannot be seen, every space but the unbreakable ones the same.
func Clean(text string) string {
	return norm.NFC.String(strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\r', r == '\u3000':
			return ' '
		case unicode.Is(unicode.Cf, r), unicode.IsControl(r), r == unicode.ReplacementChar, unicode.Is(unicode.Cs, r):
			return -1
		}
		return r
	}, text))
}

// PlainTag keeps what a language tag may hold: it stands in files as it is.
func PlainTag(tag string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return -1
	}, tag)
}

// SafeLink is an address that may be followed from a document outside a
// notebook, or nothing.
func SafeLink(address string) string {
	for _, start := range []string{"https://", "http://", "mailto:"} {
		if strings.HasPrefix(address, start) && !strings.ContainsAny(address, " \n\t\"<>") {
			return address
		}
	}
	return ""
}

// Shown is the table without the columns that are empty in all rows, its rows
// all as long as its columns.
func (t Table) Shown() Table {
	shape := t.shape()
	out := t
	out.Columns, out.Rows = nil, make([]TableRow, len(t.Rows))
	for i, c := range t.Columns {
		if shape[i] == none {
			continue
		}
		out.Columns = append(out.Columns, c)
		for n, row := range t.Rows {
			out.Rows[n] = append(out.Rows[n], row.cell(i))
		}
	}
	return out
}
