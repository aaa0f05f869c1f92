package notebook

import (
	"strings"

	"hembook/internal/fault"
	"hembook/internal/prose"
	"hembook/internal/record"
)

// A Head is what every page has.
type Head struct {
	Address Address
	What    string // front, build, leaf, record, technique, cloth, builds, techniques, cloths, rates, glossary, text, search, missing
	Heading string
	Lead    string // one sentence, for lists and descriptions; may be empty
	Up      []Link // the pages it lies under, outermost first
}

// A Picture is a picture to be shown: where it lies in the workroom, and the
// words that go with it.
type Picture struct {
	Path string // from the workroom's folder
	Alt  string
	Note string
	Show string // how much of it a card shows, as "left half" or "whole"; empty for its middle
	At   fault.Pos
}

// A Passage is Markdown that stands on a page.
type Passage struct {
	Text   []byte
	At     fault.Pos
	Folder string // where its pictures lie
}

// Given reports whether there is anything to show.
func (p Passage) Given() bool { return len(p.Text) > 0 }

// Plain is the passage without the signs of Markdown.
func (p Passage) Plain() string {
	if !p.Given() {
		return ""
	}
	return string(prose.Read(p.Text, "").Plain(nil))
}

// passage is a text field of a record as Markdown.
func passage(t record.Text, folder string) Passage {
	if !t.Given() {
		return Passage{}
	}
	at := t.At
	for i := range t.V {
		if t.V[i] == '\n' { // a block text begins on the line after its sign
			at.Line, at.Column = at.Line+1, 1
			break
		}
	}
	return Passage{[]byte(t.V), at, folder}
}

// passageOf is the text of a file as Markdown.
func passageOf(p *record.Prose, folder string) Passage {
	if p == nil {
		return Passage{}
	}
	return Passage{p.Text, p.At, folder}
}

// picture is a picture of a record; false where none is given.
func picture(folder string, p record.Photo) (Picture, bool) {
	if !p.Given() {
		return Picture{}, false
	}
	path := record.PhotoPath(folder, p)
	if path == "" {
		return Picture{}, false
	}
	alt := p.Alt.V
	if alt == "" {
		alt = p.Note.V
	}
	alt = strings.Join(strings.Fields(alt), " ") // a text over several lines is one in an attribute
	return Picture{Path: path, Alt: alt, Note: p.Note.V, At: p.File.At}, true
}

// AllPages has one of each kind of page, for tests that must not miss any.
var AllPages = []any{
	FrontPage{}, BuildPage{}, RecordPage{}, TechniquePage{}, ClothPage{}, BuildList{}, TechniqueList{}, ClothList{},
	RatesPage{}, GlossaryPage{}, TextPage{}, SearchPage{},
}
