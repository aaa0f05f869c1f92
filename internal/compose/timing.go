package compose

import (
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/notebook"
	"hembook/internal/order"
)

// timing shows the order of work on a line of days, what it comes to, and what is
// still to do.
func timing(d *Draft, b *notebook.BuildPage) {
	t := b.Timing
	if t == nil || len(t.Steps) == 0 {
		return
	}
	d.Add(document.Sketch{Draw: func() *drawing.Drawing {
		return draw.Timeline(t, draw.TimelineStyle{Title: "Order of work of " + b.Heading, Measure: d.Style})
	}})
	d.standing(t)
	var figures []*figure.Figure
	overall := t.Overall()
	for i := range overall {
		if f := &overall[i]; !t.Over || !ofWhatIsLeft(t, f) {
			figures = append(figures, f)
		}
	}
	d.Facts(figures...)
	d.Add(document.Turn{})
	d.ahead(b)
	d.Add(document.Turn{})
}

// ofWhatIsLeft recognises the figures that say nothing where all is done.
func ofWhatIsLeft(t *order.Timing, f *figure.Figure) bool {
	return f.ID == t.Left.ID || f.ID == t.LeftLow.ID || f.ID == t.LeftHigh.ID || f.ID == t.ChainLong.ID ||
		f.ID == t.FinishLow.ID || f.ID == t.FinishHigh.ID
}

// standing says in a sentence or two what to take up and whether the due date
// holds, as of the record's own last moment.
func (d *Draft) standing(t *order.Timing) {
	var say []string
	if !t.Over {
		say = append(say, "As it stood on "+draw.MomentWords(t.Now)+".", takeUp(t))
	}
	if t.Due.ID != "" && t.Slack.Value.Known() {
		say = append(say, d.dueWords(t))
	}
	if len(say) > 0 {
		d.Say(document.Say(strings.Join(say, " ")))
	}
}

// takeUp names what to take up first and what else could be.
func takeUp(t *order.Timing) string {
	if len(t.Order) == 0 {
		return "Nothing can be started now."
	}
	first := t.Order[0]
	words := "Start now: " + first.Record.Do.V
	if v := first.Start.Value; v.Moment != nil && v.Moment.After(t.Now) {
		words += ", from " + draw.MomentWords(*v.Moment)
	}
	var others []string
	for _, s := range t.Start {
		if s != first {
			others = append(others, s.Record.Do.V)
		}
	}
	if len(others) > 0 {
		words += "; or: " + strings.Join(others, ", ")
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
		return "Finished in time."
	case t.Over:
		return "Finished late."
	case t.Holds && !t.HighHolds:
		return "In time at your usual pace; late if the work goes slowly."
	case t.Holds:
		return "In time, with " + spare(1) + " to spare."
	}
	return "Late by " + spare(-1) + "."
}

// ahead tables what is still to do: when it was planned, by when to begin it. What is
// done stands in the table of steps.
func (d *Draft) ahead(b *notebook.BuildPage) {
	t := b.Timing
	if t.Over {
		return
	}
	rows, year := draw.TimelineRows(t)
	caption := "Still to do"
	if year > 0 {
		caption += ", " + strconv.Itoa(year)
	}
	anchors := stepAnchors(b.Steps)
	out := d.Table(caption, document.Words("step"), document.Words("decides the date"), document.Words("planned"), document.Words("when"), document.Words("wait until"),
		document.Figures("to do"), document.Figures("start by"), document.Figures("to spare")).Long()
	for _, row := range rows {
		s, path := row.Step, ""
		if s.State == order.Done {
			continue
		}
		if row.Critical {
			path = "yes"
		}
		out.RowOf(document.Inline{Words: s.Record.Do.V, Anchor: anchors[s.ID]}).Words(path, row.Planned, row.Worked, row.Rests).Figures(&s.Left, &s.Latest, &s.Slack)
	}
	if !out.Empty() {
		out.End()
	}
}
