package compose

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/order"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// numbered is a seam or hem by its number on the net, with its name.
func numbered(tell Teller, n order.Numbered) []document.Inline {
	return []document.Inline{document.As(document.Strong, strconv.Itoa(n.Number)), document.Say(" " + EdgeCalled(tell, n.Name))}
}

// numbers are seams and hems by their numbers, with their names or alone.
func numbers(tell Teller, list []order.Numbered, named bool) []string {
	var out []string
	for _, n := range list {
		words := strconv.Itoa(n.Number)
		if named {
			words += "\u00a0" + EdgeCalled(tell, n.Name)
		}
		out = append(out, words)
	}
	return out
}

func altered(a order.Alter) *garment.Level { return a.Level }

// What is told on pages and on sheets of letting a level out.
var (
	AlterLevel = Of(LevelName.As("level", 3), altered)
	alterNow   = Of(levelFinished.As("now", 3), altered)
	AlterOwn   = Of(LevelOwn, altered)
	AlterPlain = Of(LevelPlain, altered)
	AlterGives = ColumnOf[order.Alter]{"gives", true, 5, func(t *document.TableDraft, tell Teller, a order.Alter) {
		t.Words(tell.Joined(numbers(tell, a.Gives, true)))
	}}
	AlterOpen = ColumnOf[order.Alter]{"open", true, 3, func(t *document.TableDraft, tell Teller, a order.Alter) {
		t.Words(tell.Joined(numbers(tell, a.Open, false)))
	}}
	AlterGrows = ColumnOf[order.Alter]{"grows", true, 5, func(t *document.TableDraft, tell Teller, a order.Alter) {
		grows := numbers(tell, a.Grows, true)
		for _, layer := range a.Other {
			if layer == "outer" {
				layer = "shell"
			}
			grows = append(grows, tell.Called("part."+layer, say.Of("compose.the", layer)))
		}
		t.Words(tell.Joined(grows))
	}}
)

// AlterHeld tells what holds a level, which may be another layer of the garment.
func AlterHeld(g *order.Together) ColumnOf[order.Alter] { return Of(LevelHeld(g), altered) }

// HeldBy tells what holds a level; g may be nil.
func HeldBy(g *order.Together, tell Teller, held string) string {
	if g != nil && slices.Contains(g.Layers(), held) {
		return tell.Called("part."+held, held)
	}
	return EdgeCalled(tell, held)
}

// An Unpick is a seam or hem that an alteration opens.
type Unpick struct {
	order.Numbered
	Made   *trade.SeamType // how it is sewn, with the rows beside it, which come out too; nil where that is not known
	Length *figure.Figure
	Rows   []*garment.Row
	Took   *figure.Figure // how long its step took, where that sewed nothing else; else nil
}

// Unpicking lists what alterations open and what gives, in the order in which it is
// opened: what was sewn last first. spent is the time that each step took, by its ID.
func Unpicking(t *order.Together, seams []*garment.Seam, finishes []*garment.Finish, spent map[string]*figure.Figure, alters []order.Alter, gives []order.Giving) []Unpick {
	opened := map[int]bool{}
	for i := range alters {
		for _, n := range alters[i].Open {
			opened[n.Number] = true
		}
	}
	for i := range gives {
		opened[gives[i].Number] = true
	}
	var out []Unpick
	for _, n := range slices.Backward(t.Numbered) {
		if !opened[n.Number] {
			continue
		}
		u := Unpick{Numbered: n, Rows: t.RowsOf(n)}
		for _, s := range seams {
			if !n.Finish && s.Name == n.Name {
				u.Made, u.Length = &s.Type, &s.Total
			}
		}
		for _, f := range finishes {
			if n.Finish && f.Name == n.Name {
				u.Made, u.Length = &f.Type, &f.Total
			}
		}
		if n.StepID != "" && t.SewsItAlone(n) {
			u.Took = spent[n.StepID]
		}
		out = append(out, u)
	}
	return out
}

// What is told on pages and on sheets of what is unpicked.
var (
	UnpickName   = ColumnOf[Unpick]{"unpick", true, 4, func(t *document.TableDraft, tell Teller, u Unpick) { t.Cell(numbered(tell, u.Numbered)...) }}
	UnpickStitch = ColumnOf[Unpick]{"stitch", true, 4, func(t *document.TableDraft, tell Teller, u Unpick) {
		t.Words(tell.Joined(Stitches(tell, u.Rows)))
	}}
	UnpickLength = ColumnOf[Unpick]{"length", false, 2, func(t *document.TableDraft, tell Teller, u Unpick) {
		if u.Length == nil {
			t.Cell()
			return
		}
		t.Cell(tell.Figure(u.Length))
	}}
	UnpickTook = ColumnOf[Unpick]{"took", false, 2, func(t *document.TableDraft, tell Teller, u Unpick) {
		if u.Took == nil || u.Took.ID == "" || !u.Took.Value.Known() {
			t.Cell()
			return
		}
		t.Cell(tell.Figure(u.Took))
	}}
)

// UnpickType tells how it is sewn, and the rows beside it.
func UnpickType(length Lengths) ColumnOf[Unpick] {
	return ColumnOf[Unpick]{"seam-type", true, 4, func(t *document.TableDraft, tell Teller, u Unpick) {
		if u.Made == nil {
			t.Cell()
			return
		}
		t.Cell(document.Say(tell.Called("seam."+u.Made.Name, u.Made.Title)), besideSaid(tell, u.Made, length))
	}}
}

// UnpickThread tells the colours of the threads, those of the build, by which one
// finds what to cut.
func UnpickThread(threads []*garment.Thread) ColumnOf[Unpick] {
	return ColumnOf[Unpick]{"thread", true, 3, func(t *document.TableDraft, tell Teller, u Unpick) {
		t.Words(tell.Joined(Colours(threads, u.Rows)))
	}}
}

// Stitches names the stitch types of rows by their numbers, each once.
func Stitches(tell Teller, rows []*garment.Row) []string {
	var out []string
	for _, r := range rows {
		if words := strings.TrimSpace(r.Stitch + " " + tell.Called("stitch."+r.Stitch, trade.StitchName(r.Stitch))); words != "" && !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return out
}

// Colours names the threads of rows by their colours, each once.
func Colours(threads []*garment.Thread, rows []*garment.Row) []string {
	var out []string
	for _, r := range rows {
		colour := r.Thread
		for _, t := range threads {
			if t.Name == r.Thread && t.Colour != "" {
				colour = t.Colour
			}
		}
		if colour != "" && !slices.Contains(out, colour) {
			out = append(out, colour)
		}
	}
	return out
}
