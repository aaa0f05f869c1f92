// Package compose says what stands where: the parts of a build, of a technique,
// a cloth and the rates, as blocks of a document.
//
// A part is composed once and written by whoever shows it: press on a page, a
// command at the terminal. It knows neither templates nor files, and derives no
// figures.
package compose

import (
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// Where pictures stand, for browsers to choose one of their widths by.
const (
	Column = "(min-width: 64rem) 42rem, 96vw"
	Top    = "(min-width: 64rem) 42rem, 95vw" // where they are wanted at once
	Beside = "(min-width: 64rem) 20rem, (min-width: 40rem) 44vw, 96vw"
	Card   = "(min-width: 64rem) 15rem, 44vw"
)

// A Prose is a passage of Markdown to be set: what an inset of a document is of.
type Prose struct {
	Passage notebook.Passage
	Top     int  // the level of its highest headings
	Alone   bool // in a column to be read
}

// A Photo is a picture to be set with its caption: what an inset of a document
// is of.
type Photo struct {
	Picture notebook.Picture
	Sizes   string
}

// A Draft is a document that is being put together, with what is drawn and
// printed often.
type Draft struct {
	document.Draft
	numbers  map[measure.Quantity]string // printed for drawings
	sections map[string]document.Block   // ways of seaming, drawn
}

// NewDraft begins documents that print as a room does.
func NewDraft(style measure.Style) *Draft {
	d := &Draft{numbers: map[measure.Quantity]string{}, sections: map[string]document.Block{}}
	d.Style = style
	return d
}

func (d *Draft) inset(of any) { d.Add(document.Inset{Of: of}) }

func (d *Draft) photo(p *notebook.Picture, sizes string) {
	if p != nil {
		d.inset(Photo{*p, sizes})
	}
}

// value prints a value that has no working of its own.
func (d *Draft) value(v figure.Value) document.Inline {
	if !v.Known() {
		return document.As(document.Measured, say.Of("compose.not-known"))
	}
	return document.Quantity(d.Shown(v))
}
