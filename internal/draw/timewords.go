package draw

import (
	"strconv"
	"strings"
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/say"
)

// timelineWords says in words what a line of time shows.
func timelineWords(t *order.Timing, style measure.Style) string {
	var b strings.Builder
	b.WriteString(say.Of("draw.steps", strconv.Itoa(len(t.Steps))))
	add := func(head string, f *figure.Figure) {
		switch v := f.Value; {
		case f.ID == "" || !v.Known():
		case v.Moment != nil:
			b.WriteString(head + MomentWords(*v.Moment))
		default:
			b.WriteString(head + style.Quantity(v.Quantity))
		}
	}
	add(say.Of("draw.planned"), &t.Planned)
	add(say.Of("draw.took"), &t.Spent)
	if !t.Over {
		add(say.Of("draw.to-do-2"), &t.Left)
	}
	b.WriteString(".")
	if len(t.Chain) > 0 {
		list := make([]string, len(t.Chain))
		for i, s := range t.Chain {
			list[i] = s.Record.Do.V
		}
		b.WriteString(say.Of("draw.what-decides-the-date", strings.Join(list, ", then ")))
	}
	head := say.Of("draw.finished-on")
	if t.Over {
		head = say.Of("draw.finished-on")
	}
	if t.Finish.Value.Known() {
		add(head, &t.Finish)
		b.WriteString(".")
	}
	if t.Due.ID != "" && t.Finish.Value.Known() {
		add(say.Of("draw.it-is-due-on"), &t.Due)
		if t.Holds {
			b.WriteString(say.Of("draw.in-time"))
		} else {
			b.WriteString(say.Of("draw.too-late"))
		}
	}
	return b.String()
}

// MomentWords writes a moment as it stands in a sentence.
func MomentWords(t time.Time) string { return t.Format("2 January 2006, 15:04") }

// A TimelineRow is one step of a line of time as a table shows it.
type TimelineRow struct {
	Step     *order.StepTime
	Critical bool
	Planned  string // the days it was planned for: "3 Aug" or "3 to 5 Aug 2026"
	Worked   string // the days it was worked on, or is to be
	Rests    string // until when its wait passes; empty where it has none
}

// TimelineRows gives the same in words, for the table beside the drawing, and
// the year that all of its days lie in, which then is not said at each; 0 where
// they lie in several.
func TimelineRows(t *order.Timing) (rows []TimelineRow, year int) {
	year = oneYear(t)
	out := make([]TimelineRow, len(t.Steps))
	for i, s := range t.Steps {
		worked := daysWords(s.Worked, year)
		if ahead := daysWords(s.Ahead, year); ahead != "" {
			if worked != "" {
				worked += "; "
			}
			worked += say.Of("draw.to-do-3", ahead)
		}
		out[i] = TimelineRow{Step: s, Critical: s.Critical, Planned: daysWords(s.Plan, year), Worked: worked}
		if s.Resting.To.After(s.Resting.From) {
			out[i].Rests = say.Of("draw.until", s.Resting.To.Format("2 Jan, 15:04"))
		}
	}
	return out, year
}

// oneYear is the year that all days of a line of time lie in; 0 where there are
// several.
func oneYear(t *order.Timing) int {
	year := 0
	for _, s := range t.Steps {
		for _, list := range [][]order.Spell{s.Plan, s.Worked, s.Ahead} {
			if len(list) == 0 {
				continue
			}
			from, to := reach(list)
			if year == 0 {
				year = from.Year()
			}
			if from.Year() != year || to.Year() != year {
				return 0
			}
		}
	}
	return year
}

// reach is from when to when stretches reach: at least one.
func reach(list []order.Spell) (from, to time.Time) {
	from, to = list[0].From, list[0].To
	for _, s := range list[1:] {
		if s.From.Before(from) {
			from = s.From
		}
		if s.To.After(to) {
			to = s.To
		}
	}
	return from, to.Add(-time.Minute) // what ends at midnight ends on the day before
}

// daysWords says from which day to which, its year only where it is not the one
// that is said already.
func daysWords(list []order.Spell, said int) string {
	if len(list) == 0 {
		return ""
	}
	from, to := reach(list)
	last := "2 Jan 2006"
	if to.Year() == said {
		last = "2 Jan"
	}
	switch {
	case dayOf(from).Equal(dayOf(to)):
		return to.Format(last)
	case from.Year() == to.Year() && from.Month() == to.Month():
		return say.Of("draw.to", from.Format("2"), to.Format(last))
	case from.Year() == to.Year():
		return say.Of("draw.to", from.Format("2 Jan"), to.Format(last))
	}
	return say.Of("draw.to", from.Format("2 Jan 2006"), to.Format("2 Jan 2006"))
}
