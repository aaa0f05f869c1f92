package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
	"hembook/internal/words"
)

// seamSewn tells whether a seam is sewn flat or in the round, and what comes to be
// closed by it; t may be nil. step leads to the step that sews it; it may be nil.
func seamSewn(t *order.Together, step func(id string) document.Inline) ColumnOf[*garment.Seam] {
	return ColumnOf[*garment.Seam]{"sewn", true, 3, func(row *document.TableDraft, tell Teller, s *garment.Seam) {
		row.Cell(howSewn(t, tell, s.Name, step)...)
	}}
}

// HowSewn tells whether a seam is sewn flat or in the round, and what comes to be closed
// by it; both are empty where no step sews it, and the second where it closes nothing.
func HowSewn(t *order.Together, tell Teller, seam string) (how, closes string) {
	if t == nil {
		return "", ""
	}
	w := t.SewingOf(seam)
	if w == nil {
		return "", ""
	}
	how = wayOfSewing(tell, w.Round)
	names := make([]string, len(w.Closes))
	for i, name := range w.Closes {
		names[i] = tell.Called(Key("opening", name), name)
	}
	if len(names) > 0 {
		closes = tell.Called("sewn.closes", "closes") + " " + tell.Joined(names)
	}
	return how, closes
}

func howSewn(t *order.Together, tell Teller, seam string, step func(id string) document.Inline) []document.Inline {
	how, closes := HowSewn(t, tell, seam)
	out := []document.Inline{document.Say(how)}
	if how != "" && step != nil {
		// Both stand in one line, where they are as short as usual.
		out = append(out, document.Say(",\u00a0"), step(t.SewingOf(seam).Step.ID))
	}
	return append(out, document.As(document.Below, closes))
}

// finishSewn tells whether a hem or edge is worked flat or in the round; t may be nil.
// step leads to the step that works it; it may be nil.
func finishSewn(t *order.Together, step func(id string) document.Inline) ColumnOf[*garment.Finish] {
	return ColumnOf[*garment.Finish]{"sewn", true, 3, func(row *document.TableDraft, tell Teller, f *garment.Finish) {
		if t == nil {
			row.Cell()
			return
		}
		by, round := t.FinishingOf(f.Name)
		if by == nil {
			row.Cell()
			return
		}
		out := []document.Inline{document.Say(wayOfSewing(tell, round))}
		if step != nil {
			out = append(out, document.Say(",\u00a0"), step(by.ID))
		}
		row.Cell(out...)
	}}
}

func wayOfSewing(tell Teller, round bool) string {
	if round {
		return tell.Called("sewn.round", say.Of("compose.in-the-round"))
	}
	return tell.Called("sewn.flat", "flat")
}

// stepAnchors are where the steps of a build are led to, by their IDs.
func stepAnchors(steps []notebook.Step) map[string]string {
	ids, out := words.NamesFor(len(steps)), map[string]string{}
	for i := range steps {
		if _, twice := out[steps[i].ID]; !twice {
			out[steps[i].ID] = "step-" + ids.Unique(steps[i].ID)
		}
	}
	return out
}

// toStep leads to a step in the table of steps, by its number there.
func toStep(b *notebook.BuildPage) func(id string) document.Inline {
	anchors := stepAnchors(b.Steps)
	return func(id string) document.Inline {
		for i := range b.Steps {
			if b.Steps[i].ID == id {
				return document.Inline{Words: "step\u00a0" + strconv.Itoa(i+1), Anchor: anchors[id]}
			}
		}
		return document.Inline{}
	}
}

// A sewnThing is a seam or a finish by its name.
type sewnThing struct {
	name   string
	finish bool
}

// sewnAnchors are where the seams and finishes of a build are led to.
func sewnAnchors(b *notebook.BuildPage) map[sewnThing]string {
	out := map[sewnThing]string{}
	for _, s := range b.Seams {
		out[sewnThing{s.Name, false}] = s.Anchor
	}
	for _, f := range b.Finishes {
		out[sewnThing{f.Name, true}] = f.Anchor
	}
	return out
}
