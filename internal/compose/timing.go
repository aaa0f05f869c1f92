package compose

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
)

// timing shows the order of work on a line of days, what it comes to, and what is
// still to do.
func timing(d *Draft, b *notebook.BuildPage) {
	t := b.Timing
	if t == nil || len(t.Steps) == 0 {
		return
	}
	style := draw.TimelineStyle{Title: say.Of("compose.order-of-work-of", b.Heading), Measure: d.Style}
	onPhones := style
	onPhones.Narrow = true
	d.Add(document.Sketch{ID: "days",
		Draw:  func() *drawing.Drawing { return draw.Timeline(t, style) },
		Small: func() *drawing.Drawing { return draw.Timeline(t, onPhones) }})
	d.standing(t)
	d.overall(t)
	d.Add(document.Turn{})
	d.ahead(b)
	d.Add(document.Turn{})
}

// overall lists what the work comes to.
func (d *Draft) overall(t *order.Timing) {
	var figures []*figure.Figure
	overall := t.Overall()
	for i := range overall {
		if f := &overall[i]; (!t.Over || !ofWhatIsLeft(t, f)) && !oneTime(t, f) {
			figures = append(figures, f)
		}
	}
	d.Facts(figures...)
}

// oneTime recognises what is left at a quick and a slow time where that is the same: all of it
// is an estimate then.
func oneTime(t *order.Timing, f *figure.Figure) bool {
	left, low, high := t.Left.Value, t.LeftLow.Value, t.LeftHigh.Value
	return (f.ID == t.LeftLow.ID || f.ID == t.LeftHigh.ID) && left.Known() && low.Known() && high.Known() && low.Number == left.Number && high.Number == left.Number
}

// ofWhatIsLeft recognises the figures that say nothing where all is done.
func ofWhatIsLeft(t *order.Timing, f *figure.Figure) bool {
	return f.ID == t.Left.ID || f.ID == t.LeftLow.ID || f.ID == t.LeftHigh.ID || f.ID == t.ChainLong.ID ||
		f.ID == t.FinishLow.ID || f.ID == t.FinishHigh.ID
}

// standing says in a sentence or two what to take up and whether the due date
// holds, as of the record's own last moment.
func (d *Draft) standing(t *order.Timing) {
	var says []string
	if !t.Over {
		says = append(says, say.Of("compose.as-it-stood-on", draw.MomentWords(t.Now)), takeUp(t))
	}
	if t.Due.ID != "" && t.Slack.Value.Known() {
		says = append(says, d.dueWords(t))
	}
	if len(says) > 0 {
		d.Say(document.Say(strings.Join(says, " ")))
	}
}

// takeUp names what to take up first and what else could be.
func takeUp(t *order.Timing) string {
	if len(t.Order) == 0 {
		return say.Of("compose.nothing-can-be-started-now")
	}
	first := t.Order[0]
	words := say.Of("compose.start-now", first.Record.Do.V)
	if v := first.Start.Value; v.Moment != nil && v.Moment.After(t.Now) {
		words += say.Of("compose.from-3", draw.MomentWords(*v.Moment))
	}
	var others []string
	for _, s := range t.Start {
		if s != first {
			others = append(others, s.Record.Do.V)
		}
	}
	if len(others) > 0 {
		words += say.Of("compose.or", strings.Join(others, ", "))
	}
	return words + "."
}

func (d *Draft) dueWords(t *order.Timing) string {
	spare := func(sign float64) string {
		q := t.Slack.Value.Quantity
		q.Number *= sign
		return d.Style.Quantity(q)
	}
	switch {
	case t.Over && t.Holds:
		return say.Of("compose.finished-in-time")
	case t.Over:
		return say.Of("compose.finished-late")
	case t.Holds && !t.HighHolds:
		return say.Of("compose.in-time-at-your-usual-pace-late")
	case t.Holds:
		return say.Of("compose.in-time-with-to-spare", spare(1))
	}
	return say.Of("compose.late-by", spare(-1))
}

// ahead tables what is still to do: when it was planned, by when to begin it. What is
// done stands in the table of steps.
func (d *Draft) ahead(b *notebook.BuildPage) {
	t := b.Timing
	if t.Over {
		return
	}
	rows, year := draw.TimelineRows(t)
	caption := say.Of("compose.still-to-do")
	if year > 0 {
		caption += ", " + strconv.Itoa(year)
	}
	anchors := stepAnchors(b.Steps)
	rows = slices.DeleteFunc(rows, func(r draw.TimelineRow) bool { return r.Step.State == order.Done })
	if len(rows) == 0 {
		return
	}
	ofStep := func(r draw.TimelineRow) *order.StepTime { return r.Step }
	words := func(head string, of func(draw.TimelineRow) string) ColumnOf[draw.TimelineRow] {
		return ColumnOf[draw.TimelineRow]{Word: head, Words: true, Cell: func(t *document.TableDraft, _ Teller, r draw.TimelineRow) { t.Words(of(r)) }}
	}
	name := ColumnOf[draw.TimelineRow]{Word: "step", Words: true, Cell: func(t *document.TableDraft, _ Teller, r draw.TimelineRow) {
		t.Cell(document.Inline{Words: r.Step.Record.Do.V, Anchor: anchors[r.Step.ID]})
	}}
	Table(&d.Draft, OnPage, caption, rows, name, Of(stepMark, ofStep), words("planned", func(r draw.TimelineRow) string { return r.Planned }),
		words("when", func(r draw.TimelineRow) string { return r.Worked }), words("rests", func(r draw.TimelineRow) string { return r.Rests }),
		Of(stepLeft, ofStep), Of(stepLatest, ofStep), Of(stepSlack, ofStep)).Long().End()
}
