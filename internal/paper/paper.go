// Package paper sets documents on paper and on one page of HTML.
//
// A Document is a list of blocks: headings, text, tables, boxes to tick, care
// symbols, drawings, cautions. The same blocks become a PDF of A4 or Letter
// pages and a self-contained HTML page, with the same words in the same order.
//
// It promises: every font embedded, text that can be selected in reading
// order, lengths of drawings exact, no blank page, no heading left behind at
// the foot of a page, table rows whole, and the same bytes on every run. The
// HTML asks nothing of any other host and carries its style and pictures in
// itself.
//
// It knows nothing of garments and makes up no words but those it is given in
// Words. The PDF is not tagged and does not kern, hyphenate or run from right
// to left; the HTML is the accessible original.
package paper

// A Document is one sheet or a few pages that belong together.
type Document struct {
	Title    string // what it is, in its own language; required
	Author   string // who made it; may be empty
	Language string // BCP 47: en, de, pt-BR; required
	Size     Size
	Blocks   []Block
	Footer   []string // lines at the foot of every page, above the page's number
	Words    Words    // the few words paper itself writes
	TextSize float64  // body text in points; 0 for DefaultText
}

// Body text in points.
const (
	DefaultText  = 10.0
	SmallestText = 8.5 // Fit does not go below: smaller is hard to read for many
)

// Words are what paper writes itself, in the document's language. An empty
// word takes its English default.
type Words struct {
	PageOf    string // page {n} of {of}: where its number stands; "page {n} of {of}"
	Continued string // said of a table that goes on over the page: "continued"
	Signed    string // beside the line for a name: "signed"
	Date      string // beside the line for a date: "date"
	Sheet     string // of a pattern in sheets, sheet {n} of {of}: "sheet {n} of {of}"
	Join      string // where another sheet is joined: "to sheet {n}"
	Window    string // which part of a large drawing it is: "row {r}, column {c}"
	Contents  string // heads the list of documents in a book's HTML: "contents"
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

const (
	mmPerInch  = 25.4
	pointsInch = 72.0
	mmPerPoint = mmPerInch / pointsInch
)
