package compose

import (
	"fmt"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// A ColumnOf says one thing of each row of a table. What a page and a sheet both
// say is one column here, so that they cannot say it differently: they choose
// columns, and each has its own Teller.
type ColumnOf[T any] struct {
	Word  string  // names its head
	Words bool    // it holds words, not figures
	Share float64 // its part of the width on paper
	Cell  func(t *document.TableDraft, tell Teller, of T)
}

// A Teller has the words of a document's language, and its reader's units.
type Teller interface {
	Head(word string) string                     // what a column is called
	Called(word, own string) string              // what a thing is called; own where nobody gave it another name
	Filled(word, own string, with ...any) string // words with names in braces that are filled in, name and value by turns
	Joined(words []string) string                // a list
	Figure(f *figure.Figure) document.Inline     // what a figure says
}

// Table is a table of rows, each told column by column. The caller ends it.
func Table[T any](d *document.Draft, tell Teller, caption string, rows []T, columns ...ColumnOf[T]) *document.TableDraft {
	heads := make([]document.Column, len(columns))
	for i := range columns {
		c := &columns[i]
		heads[i] = document.Column{Head: tell.Head(c.Word), Words: c.Words, Share: c.Share}
	}
	return Rows(d.Table(caption, heads...), tell, rows, columns...)
}

// Rows adds rows of another kind below those of a table.
func Rows[T any](t *document.TableDraft, tell Teller, rows []T, columns ...ColumnOf[T]) *document.TableDraft {
	for _, row := range rows {
		t.Next()
		for i := range columns {
			columns[i].Cell(t, tell, row)
		}
	}
	return t
}

// As is the column under another head, or with another part of the width on paper.
func (c ColumnOf[T]) As(word string, share float64) ColumnOf[T] {
	c.Word, c.Share = word, share
	return c
}

// Of is a column of rows that each hold what it is told of.
func Of[A, B any](c ColumnOf[B], held func(A) B) ColumnOf[A] {
	return ColumnOf[A]{c.Word, c.Words, c.Share, func(t *document.TableDraft, tell Teller, row A) { c.Cell(t, tell, held(row)) }}
}

// FigureOf is a column that shows one figure of each row.
func FigureOf[T any](word string, share float64, of func(T) *figure.Figure) ColumnOf[T] {
	return ColumnOf[T]{word, false, share, func(t *document.TableDraft, tell Teller, row T) { t.Cell(tell.Figure(of(row))) }}
}

// Key is what a thing is called by where its name in another language is looked up.
func Key(group, name string) string {
	return group + "." + strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), " ", "-")
}

// EdgeCalled is what an edge, or the seam or hem along it, is called.
func EdgeCalled(tell Teller, name string) string { return tell.Called(Key("edge", name), name) }

// EdgesCalled are what several are called.
func EdgesCalled(tell Teller, names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = EdgeCalled(tell, name)
	}
	return out
}

// OnPage tells in the words of the notebook's pages, and of the terminal: figures
// open their workings, or stand above them.
var OnPage Teller = onPage{}

type onPage struct{}

func (onPage) Head(word string) string                 { return say.Of("head." + word) }
func (onPage) Called(_, own string) string             { return own }
func (onPage) Joined(words []string) string            { return strings.Join(words, ", ") }
func (onPage) Figure(f *figure.Figure) document.Inline { return document.Of(f) }

func (onPage) Filled(_, own string, with ...any) string {
	for i := 0; i+1 < len(with); i += 2 {
		own = strings.ReplaceAll(own, fmt.Sprintf("{%v}", with[i]), fmt.Sprint(with[i+1]))
	}
	return own
}

// What is told of seams on pages and on sheets.
var (
	SeamName = ColumnOf[*garment.Seam]{"seam", true, 3, func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		t.Cell(document.Inline{Words: EdgeCalled(tell, s.Name), ID: s.Anchor})
	}}
	SeamLength = ColumnOf[*garment.Seam]{"length", false, 2, func(t *document.TableDraft, tell Teller, s *garment.Seam) { t.Cell(tell.Figure(&s.Length)) }}
	SeamTotal  = ColumnOf[*garment.Seam]{"total", false, 2, func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		if s.Times == 1 { // its length says it
			t.Cell()
			return
		}
		t.Cell(tell.Figure(&s.Total))
	}}
	SeamAllowance = ColumnOf[*garment.Seam]{"allowance", false, 2, func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		if s.Gives[0].Value == s.Gives[1].Value { // both edges give the same
			t.Cell(tell.Figure(&s.Gives[0]))
			return
		}
		t.Cell(tell.Figure(&s.Gives[0]), document.Say(" / "), tell.Figure(&s.Gives[1]))
	}}
)

// What is told where seams cross, on pages and on sheets.
var (
	CrossName  = ColumnOf[*garment.Seam]{"seam", true, 4, func(t *document.TableDraft, tell Teller, s *garment.Seam) { t.Words(EdgeCalled(tell, s.Name)) }}
	CrossOver  = ColumnOf[*garment.Seam]{"over", true, 4, func(t *document.TableDraft, tell Teller, s *garment.Seam) { t.Words(EdgeCalled(tell, s.Over)) }}
	CrossPlies = FigureOf("plies", 2, func(s *garment.Seam) *figure.Figure { return &s.Crossed })
)

// Crossing are the seams that run over others.
func Crossing(list []*garment.Seam) (out []*garment.Seam) {
	for _, s := range list {
		if s.Crossed.ID != "" {
			out = append(out, s)
		}
	}
	return out
}

// What is told of hems and edges on pages and on sheets.
var (
	FinishName = ColumnOf[*garment.Finish]{"edge", true, 3, func(t *document.TableDraft, tell Teller, f *garment.Finish) {
		t.Cell(document.Inline{Words: EdgeCalled(tell, f.Name), ID: f.Anchor})
	}}
	FinishLength    = ColumnOf[*garment.Finish]{"length", false, 2, func(t *document.TableDraft, tell Teller, f *garment.Finish) { t.Cell(tell.Figure(&f.Total)) }}
	FinishAllowance = ColumnOf[*garment.Finish]{"allowance", false, 2, func(t *document.TableDraft, tell Teller, f *garment.Finish) { t.Cell(tell.Figure(&f.Takes)) }}
)
