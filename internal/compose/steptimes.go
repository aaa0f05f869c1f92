package compose

import (
	"strings"
	"time"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/say"
)

// What is told of the times of a step.
var (
	stepLeft   = FigureOf("left", 0, func(s *order.StepTime) *figure.Figure { return &s.Left })
	stepLatest = FigureOf("latest", 0, func(s *order.StepTime) *figure.Figure { return &s.Latest })
	stepSlack  = FigureOf("spare", 0, func(s *order.StepTime) *figure.Figure { return &s.Slack })
	stepStart  = FigureOf("start", 0, func(s *order.StepTime) *figure.Figure { return &s.Start })
	stepSpent  = FigureOf("spent", 0, func(s *order.StepTime) *figure.Figure { return &s.Spent })
	stepMark   = wordOfStep("decides", func(s *order.StepTime) string {
		if s.Critical {
			return "yes"
		}
		return ""
	})
	stepState = wordOfStep("state", func(s *order.StepTime) string { return s.State.String() })
	stepName  = wordOfStep("step", func(s *order.StepTime) string { return s.Record.Do.V })
)

func wordOfStep(head string, of func(*order.StepTime) string) ColumnOf[*order.StepTime] {
	return ColumnOf[*order.StepTime]{Word: head, Words: true, Cell: func(t *document.TableDraft, _ Teller, s *order.StepTime) { t.Words(of(s)) }}
}

// stepPlanned tells how long a step is to take: what the record says, called an
// estimate, or what the maker's own rates say, with half of what was observed between
// the quartiles.
func stepPlanned(style measure.Style) ColumnOf[*order.StepTime] {
	return ColumnOf[*order.StepTime]{Word: "planned", Cell: func(t *document.TableDraft, tell Teller, s *order.StepTime) {
		e, takes, wait := &s.Estimate, s.Record.Takes.V, s.Record.Wait.V
		switch {
		case e.Guess && takes == 0: // it only lets time pass
			t.Cell(document.Say(timeWords(style, wait)))
		case e.Guess:
			t.Cell(tell.Figure(&e.Figure), document.As(document.Small, "estimate"), document.As(document.Below, waitWords(tell, style, wait)))
		case e.LowFigure.ID != "":
			t.Cell(tell.Figure(&e.Figure), document.As(document.Below, say.Of("compose.usually")), tell.Figure(&e.LowFigure), document.Say(say.Of("compose.to-2")), tell.Figure(&e.HighFigure))
		default:
			t.Cell(tell.Figure(&e.Figure))
		}
	}}
}

// unbroken is a measured quantity in one line.
func unbroken(words string) string { return strings.ReplaceAll(words, " ", "\u00a0") }

// timeWords prints a duration that was written; nothing where none was.
func timeWords(style measure.Style, t time.Duration) string {
	if t == 0 {
		return ""
	}
	return style.Duration(t)
}

// known tells figures that are known alone: why the others are not stands with their sum.
type known struct{ Teller }

func (k known) Figure(f *figure.Figure) document.Inline {
	switch {
	case f.ID == "":
		return document.Inline{}
	case !f.Value.Known():
		return document.Say("?")
	}
	return k.Teller.Figure(f)
}

// only leaves the cells of a column empty that say nothing of a step.
func (c ColumnOf[T]) only(where func(T) bool) ColumnOf[T] {
	cell := c.Cell
	c.Cell = func(t *document.TableDraft, tell Teller, row T) {
		if !where(row) {
			t.Cell()
			return
		}
		cell(t, tell, row)
	}
	return c
}

// Times tells how the work of a garment stands: every step, what to take up, whether the
// due date holds, and what it comes to.
func Times(d *Draft, t *order.Timing) {
	if len(t.Steps) == 0 {
		return
	}
	begun := func(s *order.StepTime) bool { return s.Spent.Value.Known() }
	open := func(s *order.StepTime) bool { return s.State != order.Done }
	Table(&d.Draft, known{OnPage}, "", t.Steps, stepName, stepState, stepMark, stepPlanned(d.Style), stepSpent.only(begun), stepLeft.only(open), stepStart, stepLatest, stepSlack).End()
	d.standing(t)
	d.overall(t)
}
