package compose

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/notebook"
)

// work tables the steps.
func work(d *Draft, b *notebook.BuildPage) {
	if len(b.Steps) == 0 {
		return
	}
	number := map[string]int{}
	for i, s := range b.Steps {
		number[s.ID] = i + 1
	}
	anchors := stepAnchors(b.Steps)
	sewn := sewnAnchors(b)
	t := d.Table("Steps", document.Words("step"), document.Words("stage"), document.Words("technique"), document.Words("sews"), document.Words("after step"),
		document.Figures("planned"), document.Figures("took"), document.Words("done"), document.Figures("per metre")).Long()
	planned := stepPlanned(d.Style)
	for i := range b.Steps {
		s := &b.Steps[i]
		var after []string
		for _, id := range s.After {
			if n := number[id]; n > 0 {
				id = strconv.Itoa(n)
			}
			after = append(after, id)
		}
		name := document.Inline{Words: strconv.Itoa(i+1) + ". " + s.Do, ID: anchors[s.ID]}
		if s.Note == "" {
			t.RowOf(name)
		} else {
			t.RowOf(name, document.As(document.Below, s.Note))
		}
		t.Words(s.Stage)
		if s.Technique.Address != "" {
			t.Cell(document.Lead(string(s.Technique.Address), s.Technique.Name))
		} else {
			t.Cell()
		}
		t.Cell(sews(s, sewn)...).Words(strings.Join(after, ", "))
		if b.Timing != nil && i < len(b.Timing.Steps) {
			planned.Cell(t, OnPage, b.Timing.Steps[i])
		} else {
			t.Cell(document.As(document.Measured, timeWords(d.Style, s.Takes)))
		}
		t.Figures(&s.Spent).Cell(worked(b, s.ID)...).Figures(&s.Rate)
	}
	t.End()
}

// sews are the seams and hems that a step sews, each leading to where it is told of in
// full, and how long they are together.
func sews(s *notebook.Step, anchors map[sewnThing]string) (out []document.Inline) {
	for i, name := range s.Sews {
		if i > 0 {
			out = append(out, document.Say(", "))
		}
		to, known := anchors[sewnThing{name, false}]
		if !known {
			to = anchors[sewnThing{name, true}]
		}
		out = append(out, document.Inline{Words: name, Anchor: to})
	}
	if s.Metres.ID != "" {
		before := " " // after the name
		if len(s.Sews) > 1 {
			before = ", together "
		}
		out = append(out, document.Say(before), document.Of(&s.Metres))
	}
	return out
}

// mostEntries is how many entries a journal has before a page may end.
const mostEntries = 32

func journal(d *Draft, b *notebook.BuildPage) {
	anchors := stepAnchors(b.Steps)
	for some := range slices.Chunk(b.Journal, mostEntries) {
		list := document.List{Numbered: true}
		for i := range some {
			list.Items = append(list.Items, d.entry(&some[i], anchors[some[i].Step]))
		}
		d.Add(list, document.Turn{})
	}
}

// entry is a day's entry; its step leads to where that is told of.
func (d *Draft) entry(e *notebook.Entry, step string) document.Item {
	long := ""
	if e.For > 0 {
		long = ", " + d.Style.Duration(e.For)
	}
	it := document.Item{ID: e.Anchor, Phrase: d.Phrase(document.Inline{When: &e.When}, document.Say(" "), document.Inline{Words: e.Did, Anchor: step}, document.Say(long))}
	it.Blocks = d.Within(func() {
		if e.Note.Given() {
			d.inset(Prose{e.Note, 4, false})
		}
		d.photo(e.Picture, Column)
	})
	return it
}
