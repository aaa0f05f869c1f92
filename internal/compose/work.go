package compose

import (
	"slices"

	"hembook/internal/document"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
)

// work tables the steps.
func work(d *Draft, b *notebook.BuildPage) {
	if len(b.Steps) == 0 {
		return
	}
	steps := make([]*order.Step, len(b.Steps))
	for i := range b.Steps {
		steps[i] = b.Steps[i].Step
	}
	rows := WorkSteps(steps)
	anchors := stepAnchors(b.Steps)
	for i := range rows {
		rows[i].Anchor = anchors[rows[i].ID]
		if b.Timing != nil {
			rows[i].Timed = b.Timing.Steps[i]
		}
	}
	technique := ColumnOf[WorkStep]{Word: "technique", Words: true, Cell: func(t *document.TableDraft, _ Teller, s WorkStep) {
		to := b.Steps[s.Number-1].Technique
		t.Cell(document.Lead(string(to.Address), to.Name))
	}}
	done := ColumnOf[WorkStep]{Word: "done", Words: true, Cell: func(t *document.TableDraft, _ Teller, s WorkStep) { t.Cell(worked(b, s.ID)...) }}
	Table(&d.Draft, OnPage, say.Of("compose.steps"), rows, WorkName, workStage, technique, WorkSews(ledTo(sewnAnchors(b))), WorkAfter, WorkPlanned(d.Style), workSpent, done, workRate).Long().End()
}

// ledTo names a seam or hem, leading to where it is told of in full.
func ledTo(anchors map[sewnThing]string) func(name string) document.Inline {
	return func(name string) document.Inline {
		to, known := anchors[sewnThing{name, false}]
		if !known {
			to = anchors[sewnThing{name, true}]
		}
		return document.Inline{Words: name, Anchor: to}
	}
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
	it := document.Item{ID: e.Anchor, Phrase: d.Phrase(document.Inline{When: &e.When, Anchor: e.Anchor}, document.Say(" "), document.Inline{Words: e.Did, Anchor: step}, document.Say(long))}
	it.Blocks = d.Within(func() {
		if e.Note.Given() {
			d.inset(Prose{e.Note, 4, false})
		}
		d.photo(e.Picture, Column)
	})
	return it
}
