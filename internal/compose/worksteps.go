package compose

import (
	"strconv"
	"time"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/say"
)

// A WorkStep is a step in the order of work.
type WorkStep struct {
	*order.Step
	Number int             // its place, from 1
	After  []string        // the numbers of the steps it waits for; the words of those that are none
	Anchor string          // where it is led to; "" where nothing leads to it
	Timed  *order.StepTime // nil where nobody looked at its time
}

// WorkSteps numbers steps, which stand in the order of work.
func WorkSteps(steps []*order.Step) []WorkStep {
	number := map[string]int{}
	for i, s := range steps {
		number[s.ID] = i + 1
	}
	out := make([]WorkStep, len(steps))
	for i, s := range steps {
		out[i] = WorkStep{Step: s, Number: i + 1}
		for _, a := range s.Record.After {
			words := a.V
			if n := number[words]; n > 0 {
				words = strconv.Itoa(n)
			}
			out[i].After = append(out[i].After, words)
		}
	}
	return out
}

// What is told of steps on pages and on sheets.
var (
	WorkName = ColumnOf[WorkStep]{"step", true, 7, func(t *document.TableDraft, tell Teller, s WorkStep) {
		do := PlainWords(s.Record.Do.V)
		t.Cell(document.Inline{Words: strconv.Itoa(s.Number) + ". " + tell.Called(Key("work", do), do), ID: s.Anchor}, document.As(document.Below, PlainWords(s.Record.Note.V)))
	}}
	WorkAfter = ColumnOf[WorkStep]{"after", true, 2, func(t *document.TableDraft, tell Teller, s WorkStep) { t.Words(tell.Joined(s.After)) }}
	workStage = ColumnOf[WorkStep]{Word: "stage", Words: true, Cell: func(t *document.TableDraft, _ Teller, s WorkStep) { t.Words(s.Record.Stage.V) }}
	workSpent = ColumnOf[WorkStep]{Word: "spent", Cell: func(t *document.TableDraft, tell Teller, s WorkStep) {
		if s.Timed != nil && s.Timed.State != order.Done && !s.Spent.Value.Known() {
			t.Cell(document.As(document.Measured, say.Of("compose.not-yet")))
			return
		}
		t.Cell(tell.Figure(&s.Spent))
	}}
	workRate = FigureOf("rate", 0, func(s WorkStep) *figure.Figure { return &s.Rate })
)

// WorkSews tells which seams and hems a step sews, each as named says it, and how long
// they are together.
func WorkSews(named func(seam string) document.Inline) ColumnOf[WorkStep] {
	return ColumnOf[WorkStep]{"sews", true, 7, func(t *document.TableDraft, tell Teller, s WorkStep) {
		var out []document.Inline
		for i, name := range s.Record.Sews {
			if i > 0 {
				out = append(out, document.Say(", "))
			}
			out = append(out, named(name.V))
		}
		if s.Metres.ID != "" {
			before := " " // after the name
			if len(s.Record.Sews) > 1 {
				before = ", " + tell.Called("sewn.together", "together") + " "
			}
			out = append(out, document.Say(before), tell.Figure(&s.Metres))
		}
		t.Cell(out...)
	}}
}

// WorkPlanned tells how long a step is to take: by what was planned where its time was
// looked at, else as the record has it.
func WorkPlanned(style measure.Style) ColumnOf[WorkStep] {
	planned := stepPlanned(style)
	return ColumnOf[WorkStep]{"planned", false, 3, func(t *document.TableDraft, tell Teller, s WorkStep) {
		if s.Timed != nil {
			planned.Cell(t, tell, s.Timed)
			return
		}
		takes, wait := timeWords(style, s.Record.Takes.V), waitWords(tell, style, s.Record.Wait.V)
		if takes == "" { // it only lets time pass
			t.Cell(document.Say(wait))
			return
		}
		t.Cell(document.As(document.Measured, takes), document.As(document.Below, wait))
	}}
}

// waitWords say that something rests after a step; "" where nothing does.
func waitWords(tell Teller, style measure.Style, wait time.Duration) string {
	if wait <= 0 {
		return ""
	}
	return tell.Filled("step.wait", say.Of("compose.then-wait"), "time", unbroken(style.Duration(wait)))
}
