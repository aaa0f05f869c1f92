package paper

import "hembook/internal/drawing"

// A Block is one part of a document. The set is closed: a switch over blocks
// can be complete.
type Block interface{ block() }

// A Run is a stretch of text in one style.
type Run struct {
	Text  string
	Style Style
	Link  string // where the words lead; may be empty; only http, https and mailto
}

// A Style is how a run is set.
type Style int

// The styles of a run.
const (
	Plain  Style = iota
	Strong       // what must not be missed
	Small        // an aside, a source
	Figure       // numbers: in the face for figures, all digits of one width
)

// A Phrase is text made of runs.
type Phrase []Run

// Say is a phrase of one plain run.
func Say(text string) Phrase { return Phrase{{Text: text}} }

// Stress is a phrase of one strong run.
func Stress(text string) Phrase { return Phrase{{Text: text, Style: Strong}} }

// Aside is a phrase of one small run.
func Aside(text string) Phrase { return Phrase{{Text: text, Style: Small}} }

// Heading heads what follows it and is never parted from it. Level 1 is the
// document's own title and stands once, at its head; 2 and 3 follow.
type Heading struct {
	Level int
	Text  string
	About string // a line under it, smaller; may be empty
}

// Text is a paragraph.
type Text struct{ Phrase Phrase }

// List is a list of points, numbered or not. Several phrases under one
// number follow each other on new lines.
type List struct {
	Numbered bool
	From     int // the first number; 0 for 1
	Items    []Phrase
}

// Table is a table. Rows are not split over pages unless one is taller than a
// page; its head is said again on every page.
type Table struct {
	Caption string
	Columns []Column
	Rows    [][]Phrase // each as long as Columns; a shorter one is filled with empty cells
	RowHead bool       // the first cell of a row names the row
	Last    bool       // the last row is a sum: a line stands above it
}

// A Column of a table.
type Column struct {
	Head  string
	Align Align
	Share float64 // its part of the width, against the others; 0 for as wide as its words
}

// Align is where the words of a column stand.
type Align int

// The alignments.
const (
	Left   Align = iota
	Right        // words at the right
	Number       // at the right, in the face for figures, digits of one width
	Centre
)

// Ticks is a list of things to tick off by pen, and who signs it off.
type Ticks struct {
	Items  []Tick
	SignBy *Signature // nil for none
}

// A Tick is a box and what it stands for.
type Tick struct {
	Phrase Phrase
	Done   bool   // ticked already
	Note   string // at the right: how many, when
}

// A Signature is a line to sign and date, or who signed.
type Signature struct {
	About string // what is signed: "checked for pins and needles"
	Name  string // printed on the line; empty for a line to sign
	Date  string // printed on the line; empty for a line to date
}

// Symbols is a row of symbols, each with its words beside it.
type Symbols struct {
	Items []Symbol
	Note  string // under the row: whose marks they are; may be empty
}

// A Symbol is a small drawing and what it says in words. A symbol without a
// drawing is its words alone.
type Symbol struct {
	Drawing *drawing.Drawing // nil for none
	Words   string           // required: a symbol is never alone
	About   string           // a second, smaller line; may be empty
}

// Facts are terms and what is said of them.
type Facts struct{ Items []Fact }

// A Fact is a term and its value.
type Fact struct {
	Term  string
	Value Phrase
}

// Note is an aside set off from the text.
type Note struct {
	Head   string // may be empty
	Phrase Phrase
}

// Caution is a warning: what can hurt, and what to do.
type Caution struct {
	Head   string // in one or two words: "caution", "keep away from fire"
	Phrase Phrase
}

// Columns are blocks side by side. Where they are taller than a page, and on
// a narrow screen, they follow each other instead.
type Columns struct {
	Shares []float64 // parts of the width; nil for equal ones
	Blocks [][]Block
}

// Picture is a photograph or another picture of dots.
type Picture struct {
	Data    []byte  // JPEG or PNG, the right way up
	Alt     string  // what it shows, in words; required
	Wide    float64 // millimetres on paper; 0 for as wide as there is room
	High    float64 // it is made no higher than this; 0 for no limit
	Caption string
}

// QR is a code that a telephone reads, with its address in words.
type QR struct {
	Address string
	Words   string // what one finds there
}

// Sketch is a drawing set into a document at its true size; one wider than
// the page is made smaller, unless Exact.
type Sketch struct {
	Drawing *drawing.Drawing
	Caption string
	Exact   bool // never made smaller: a ruler, a test square
}

// PageBreak begins a new page, if anything stands on this one and anything
// follows.
type PageBreak struct{}

func (Heading) block()   {}
func (Text) block()      {}
func (List) block()      {}
func (Table) block()     {}
func (Ticks) block()     {}
func (Symbols) block()   {}
func (Facts) block()     {}
func (Note) block()      {}
func (Caution) block()   {}
func (Columns) block()   {}
func (Picture) block()   {}
func (QR) block()        {}
func (PageBreak) block() {}
func (Sketch) block()    {}
