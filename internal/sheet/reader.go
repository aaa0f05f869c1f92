package sheet

import (
	"errors"
	"slices"

	"hembook/internal/document"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// A Reader is one whom sheets are for.
type Reader string

// The readers there are.
const (
	Orderer  Reader = "agree"    // who orders it: what is agreed before anything is cut
	Measured Reader = "measure"  // who measures a body far away, before anything is cut
	Fitted   Reader = "mock-up"  // who tries a mock-up on, far away
	Asked    Reader = "fit"      // who is asked whether a round of fitting may be cut
	Labelled Reader = "labels"   // who sews labels in: the maker herself
	Wearer   Reader = "wearer"   // who wears it
	Repairer Reader = "repairer" // who mends or alters it, in any year
	Maker    Reader = "maker"    // who makes it again
	Post     Reader = "post"     // who carries it over a border
	Later    Reader = "after"    // who has worn it for some weeks
)

// Readers are all of them, in the order of the packet.
var Readers = []Reader{Orderer, Measured, Fitted, Asked, Labelled, Wearer, Repairer, Maker, Post, Later}

// A Bundle is the sheets that may lie together: what is for one is never bound
// with what is for another, because whoever holds a bundle reads all of it.
type Bundle string

// The bundles there are.
const (
	ByItself    Bundle = "" // what is asked goes out alone, before the garment or after it
	ToTheWearer Bundle = "wearer"
	ToMakers    Bundle = "makers" // and menders
	ToThePost   Bundle = "post"   // stays outside the box
)

var bundles = []Bundle{ToTheWearer, ToMakers, ToThePost}

// bundle is where a reader's sheets lie.
func (r Reader) bundle() Bundle {
	switch r {
	case Orderer, Measured, Fitted, Asked, Labelled, Later:
		return ByItself
	case Wearer:
		return ToTheWearer
	case Post:
		return ToThePost
	}
	return ToMakers
}

// readersNamed reads the names of readers.
func readersNamed(names []string) ([]Reader, error) {
	var out []Reader
	for _, name := range names {
		r := Reader(name)
		if !slices.Contains(Readers, r) {
			return nil, errors.New(say.Of("sheet.there-are-no-sheets-for-there-are", say.Quoted(name), meant.List(ReaderNames(), "and")))
		}
		out = append(out, r)
	}
	return out, nil
}

// ReaderNames are the readers' names, in the order of the packet.
func ReaderNames() []string {
	var out []string
	for _, r := range Readers {
		out = append(out, string(r))
	}
	return out
}

// Bundled are the sheets of each bundle as one book. A bundle of one sheet is
// that sheet, and is left out.
func (p *Packet) Bundled() (names []Bundle, books []document.Book) {
	for _, name := range bundles {
		b := document.Book{Title: p.Title, Language: p.Language}
		for _, s := range p.Sheets {
			if s.Bundle == name {
				b.Author = s.Document.Author
				b.Documents = append(b.Documents, s.Document)
			}
		}
		if len(b.Documents) > 1 {
			names, books = append(names, name), append(books, b)
		}
	}
	return names, books
}
