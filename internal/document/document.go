// Package document holds what is to be read, as data: headings, paragraphs,
// figures with their workings, tables, lists, drawings, cautions.
//
// What stands where is said once, in blocks; writers make of the same blocks a
// part of a page, through the theme, one file of HTML that needs nothing beside
// itself, or text for a terminal; package paper sets them as PDF. Links, anchors
// and rules are data in a block, so that a writer knows them and nobody looks
// for them in what was written.
//
// It knows nothing of garments, and its words are those it is given, apart
// from the few that stand at every figure: "not known", "default", "because".
package document

import (
	"time"

	"hembook/internal/drawing"
	"hembook/internal/figure"
)

// A Block is one part of a document. The set is closed: a switch over blocks
// can be complete.
type Block interface{ block() }

// A Phrase is words, figures and links in a row.
type Phrase []Inline

// An Inline is a stretch of a phrase in one voice.
type Inline struct {
	Voice  Voice
	Words  string
	Other  string                  // a measured quantity in other units; may be empty
	Page   string                  // the address of the page that it leads to; may be empty
	Anchor string                  // and the place there; alone, on whichever page of the document it came to stand
	ID     string                  // what others lead to it by, in documents of several pages; may be empty
	Figure *figure.Figure          // shown instead of words; opens its working
	When   *time.Time              // a day, or a moment, shown instead of words
	Draw   func() *drawing.Drawing // drawn before the words
	Behind *Behind                 // what the words open
	Above  bool                    // instead of words: what stands in the row above

	Language string // of the words, BCP 47, where it is not the document's
}

// Say is an inline of words.
func Say(words string) Inline { return Inline{Words: words} }

// As is an inline in a voice.
func As(v Voice, words string) Inline { return Inline{Voice: v, Words: words} }

// Quantity is an inline of a measured quantity, the same in other units after it.
func Quantity(words, other string) Inline { return Inline{Voice: Measured, Words: words, Other: other} }

// Of is an inline that shows a figure.
func Of(f *figure.Figure) Inline { return Inline{Figure: f} }

// Lead is an inline that leads to a page; to none where there is no address.
func Lead(page, words string) Inline { return Inline{Page: page, Words: words} }

// Verdict is an inline that says how something was found.
func Verdict(good bool, yes, no string) Inline {
	if good {
		return As(Good, yes)
	}
	return As(Bad, no)
}

// A Voice is how an inline is said.
type Voice uint8

// The voices.
const (
	Plain    Voice = iota
	Strong         // the name of a thing within a sentence
	Small          // an aside
	Measured       // a quantity
	Good           // a verdict …
	Bad            // … with a mark of its own, so that it does not hang on colour
	Cited          // a source
	Below          // a line of its own under what was said
)

// A Behind is what stands behind words that can be opened: how figures were
// reached, and what else is to be said of them.
type Behind struct {
	Workings []*figure.Working
	Say      []string // lines
	Source   string   // of what is said; may be empty
}

// Heading heads what follows it.
type Heading struct {
	Level int
	ID    string // its anchor; may be empty
	Words string
	Aside string // said after them, smaller; may be empty
}

// Text is a paragraph.
type Text struct {
	Phrase Phrase
	As     Tone
}

// A Tone is what a paragraph is for.
type Tone uint8

// The tones.
const (
	Body   Tone = iota
	Note        // how to read what follows
	Byline      // when, from whom or for what, under a heading
	Spoken      // from one person to another, large
	Quiet       // a few words by themselves, in italics
)

// List is a list of points.
type List struct {
	Numbered bool
	Row      bool   // side by side, what is drawn above its words
	Marks    bool   // under each other, what is drawn small before its words
	As       string // plain, laid, cloths: what is listed, for a style sheet; may be empty
	Items    []Item
}

// An Item is a point of a list.
type Item struct {
	ID     string                  // its anchor; may be empty
	Draw   func() *drawing.Drawing // beside its words; may be nil
	Phrase Phrase
	Blocks []Block // below its words, which then are a paragraph; nil for words alone
}

// Table is a table of figures. A column that is empty in all rows is left out.
type Table struct {
	Caption string
	Headed  bool // the heading above says the caption: on pages it only names the table
	Columns []Column
	Rows    []TableRow
	Long    bool // it may be continued on another page
}

// A Column of a table.
type Column struct {
	Head  string
	Words bool    // it holds words, not figures
	Share float64 // its part of the width on paper, against the others; 0 in all for as wide as their words
}

// Words is a column of words.
func Words(head string) Column { return Column{Head: head, Words: true} }

// Figures is a column of figures.
func Figures(head string) Column { return Column{Head: head} }

// Wide is the column with its part of the width on paper.
func (c Column) Wide(share float64) Column {
	c.Share = share
	return c
}

// A TableRow is the cells of a row; the first of them names it. It may stop early.
type TableRow []Phrase

// Facts are terms and what is said of them.
type Facts struct {
	Items  []Fact
	Glance bool // what one wants to know first
}

// A Fact is a term and what is said of it.
type Fact struct {
	Term    string
	Says    []Phrase
	Wide    bool   // it is long
	Private bool   // only the maker may see it
	Below   []Fact // what follows from it
}

// Cautions are what can hurt, and what to do. What all of them defer to is said
// once, below them.
type Cautions struct {
	Items  []Caution
	Defers string
}

// A Caution is one of them, with why it is given and who says so. One without a
// head goes on from the one before.
type Caution struct {
	Head, Words string
	Why         string
	Source      string
}

// Sketch is a drawing, or several side by side.
type Sketch struct {
	Draw    func() *drawing.Drawing // nil, or giving nil, for no drawing
	Beside  func() *drawing.Drawing // belongs to it, and stands beside it or, where there is no room, below; nil for none; for pages alone
	Drawn   []byte                  // an SVG element that was drawn already, for pages alone
	Narrow  []byte                  // the same in a form that a narrow screen has room for, which leads to the large one; for pages alone
	Small   func() *drawing.Drawing // that form where it is not drawn yet
	ID      string                  // its anchor, where it has a narrow form
	Caption string
	Exact   bool    // never made smaller on paper: a ruler, a test square
	High    float64 // millimetres on paper that it is at most; 0 for no limit
}

// Sketches are drawings side by side, as many as there is room for.
type Sketches struct{ Of []Sketch }

// Stages are drawings of one thing as it grows: on a screen one is looked at
// after the other, by a control of its own, on paper all of them stand.
type Stages struct {
	ID     string // begins the anchors of its parts, its own on a page
	Choose string // what is chosen: "Step"
	Of     []Growth
}

// A Growth is how far the thing has grown, in one drawing or several.
type Growth struct {
	Phrase Phrase
	Of     []Sketch
}

// Columns are blocks side by side, on a narrow screen below each other.
type Columns struct {
	Of     [][]Block
	Shares []float64 // parts of the width; nil for equal ones
}

// Section is a part with a heading and, where it has one, an anchor.
type Section struct {
	ID     string
	As     string // way, round, pattern: what it is of, for a style sheet
	Level  int    // of its heading; 0 for none
	Head   string
	Blocks []Block
}

// Ticks is a list of things to tick off by pen.
type Ticks struct{ Items []Tick }

// A Tick is a box and what it stands for.
type Tick struct {
	Phrase Phrase
	Done   bool // ticked already
}

// FillIn is what is filled in by hand: a line to sign, a line to date.
type FillIn struct {
	Says   string // what is filled in here
	Fields []Field
}

// A Field is a line with its name below it.
type Field struct {
	Name  string
	Value string  // on the line; empty for one to be written
	Share float64 // its part of the width, against the others
}

// Picture is a photograph that the document carries in itself.
type Picture struct {
	Data    []byte  // JPEG or PNG, the right way up
	Alt     string  // what it shows, in words; required
	High    float64 // millimetres on paper that it is at most; 0 for no limit
	Framed  bool    // within a frame of stitches
	Caption string
}

// Inset is what another room sets: a text in Markdown, a photograph in its
// widths. A writer that cannot set it leaves it out.
type Inset struct{ Of any }

// Turn is where a page may end and the document go on in another.
type Turn struct{}

func (Heading) block()  {}
func (Text) block()     {}
func (List) block()     {}
func (Table) block()    {}
func (Facts) block()    {}
func (Cautions) block() {}
func (Sketch) block()   {}
func (Sketches) block() {}
func (Stages) block()   {}
func (Columns) block()  {}
func (Section) block()  {}
func (Ticks) block()    {}
func (FillIn) block()   {}
func (Picture) block()  {}
func (Inset) block()    {}
func (Turn) block()     {}
