package compose

import (
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// A Taken is a strip, a zip or a piece that a seam or finish takes besides its edges.
type Taken struct {
	By string // the seam or finish
	*garment.StripNeed
}

// TakenBy lists what seams and finishes take, in the order of the record.
func TakenBy(seams []*garment.Seam, finishes []*garment.Finish) []Taken {
	var out []Taken
	add := func(by string, list []garment.StripNeed) {
		for i := range list {
			out = append(out, Taken{by, &list[i]})
		}
	}
	for _, s := range seams {
		add(s.Name, s.Strips)
	}
	for _, f := range finishes {
		add(f.Name, f.Strips)
	}
	return out
}

// What is told of strips on pages and on sheets.
var (
	TakenWhat = ColumnOf[Taken]{"what", true, 4, func(t *document.TableDraft, tell Teller, s Taken) {
		t.Words(tell.Called("notion."+strings.ReplaceAll(s.What, " ", "-"), s.What))
	}}
	TakenFor = ColumnOf[Taken]{"for", true, 4, func(t *document.TableDraft, tell Teller, s Taken) { t.Words(EdgeCalled(tell, s.By)) }}
	TakenCut = ColumnOf[Taken]{"wide", false, 2, func(t *document.TableDraft, tell Teller, s Taken) { t.Cell(tell.Figure(&s.Cut)) }}
	TakenAll = ColumnOf[Taken]{"all", false, 2, func(t *document.TableDraft, tell Teller, s Taken) { t.Cell(tell.Figure(&s.Length)) }}

	// TakenEach is how long one is, and how many there are; nothing of what simply runs
	// along its edges.
	TakenEach = ColumnOf[Taken]{"one", false, 3, func(t *document.TableDraft, tell Teller, s Taken) {
		switch {
		case s.Each.ID == "":
			t.Cell()
		case s.Count == 1:
			t.Cell(tell.Figure(&s.Each))
		default:
			t.Cell(document.Say(strconv.Itoa(s.Count)+"\u00a0× "), tell.Figure(&s.Each))
		}
	}}
	TakenFrom = ColumnOf[Taken]{"from", true, 3, func(t *document.TableDraft, tell Teller, s Taken) {
		if s.Cloth == "" {
			t.Words(tell.Called("taken.bought", say.Of("compose.to-be-had")))
			return
		}
		t.Words(tell.Called("part."+strings.ReplaceAll(s.Cloth, " ", "-"), s.Cloth))
	}}
)
