package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"hembook/internal/bench"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/order"
	"hembook/internal/record"
)

// printTime prints the order of work of a build.
func (t *tally) printTime(room *record.Room, tailor *derive.Tailor, bf record.BuildFile, g *derive.Garment) ([]fault.Fault, error) {
	from, err := t.standing(room, tailor, bf, g)
	if err != nil {
		return nil, err
	}
	look := tailor.Timing(g, from)
	if t.json {
		return look.Faults, timeJSON(t.out, bf, look)
	}
	d := newDraft(room.Workroom.Style())
	timeBlocks(d, bf, look)
	if t.working {
		d.Add(document.Section{Blocks: []document.Block{facts(d, public(look.Figures()), true)}})
	}
	tell(t.out, d, t.working)
	printFaults(t.errs, look.Faults)
	return look.Faults, nil
}

// standing is how the work stands now: by the clock on the wall, the clocks
// that run, and the maker's rates where a step needs them.
func (t *tally) standing(room *record.Room, tailor *derive.Tailor, bf record.BuildFile, g *derive.Garment) (order.Standing, error) {
	from := order.Standing{Now: t.now()}
	if t.from != "" {
		at, err := fromMoment(t.from, t.now())
		if err != nil {
			return from, err
		}
		from.Now = at
	}
	clocks, err := bench.ClocksOf(room.Dir).All()
	if err != nil {
		fmt.Fprintf(t.errs, "%s\n", err)
	}
	for _, c := range clocks {
		if c.Build == bf.Slug {
			if from.Running == nil {
				from.Running = map[string]time.Duration{}
			}
			from.Running[c.Step] += max(c.Spent(t.now()), 0)
		}
	}
	for _, s := range g.Steps {
		if !s.Record.Takes.Given() {
			from.Rates = t.gatherRates(room, tailor)
			break
		}
	}
	return from, nil
}

// fromMoment reads the moment from which work is to be ordered. It may lie
// ahead.
func fromMoment(text string, now time.Time) (time.Time, error) {
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", time.DateOnly} {
		if at, err := time.Parse(form, text); err == nil {
			return at, nil
		}
	}
	if at, err := time.Parse("15:04", text); err == nil {
		y, m, d := now.Date()
		return time.Date(y, m, d, at.Hour(), at.Minute(), 0, 0, time.UTC), nil
	}
	return now, useErrorf("%q is not a moment\n    write 14:10, 2026-08-05 or \"2026-08-05 14:10\"", text)
}

// timeBlocks are the steps in a table and what follows from them in sentences.
func timeBlocks(d *document.Draft, bf record.BuildFile, look *order.Timing) {
	d.Say(document.Say(bf.Name + " (" + bf.Slug + "), as it stands on " + look.Now.Format(momentForm)))
	if len(look.Steps) > 0 {
		stepTable(d, look)
	}
	var all document.Facts
	say := func(what, words string) {
		all.Items = append(all.Items, document.Fact{Term: what, Says: []document.Phrase{{document.Say(words)}}})
	}
	amount := func(f figure.Figure) string { return d.Said(&f) }
	say("planned", amount(look.Planned))
	say("took", amount(look.Spent))
	if !look.Over {
		say("to do", amount(look.Left)+between(amount, &look.Left, &look.LeftLow, &look.LeftHigh))
		say("start now", takeUp(look))
		if len(look.Chain) > 0 {
			say("what decides the date", names(look.Chain, ", then ")+" ("+amount(look.ChainLong)+")")
		}
	}
	for _, s := range look.Early {
		say("early", s.ID+" was worked on before something it needs. If that is done, note it: hembook clock "+bf.Slug+" STEP --for TIME")
	}
	whenOver(say, amount, look)
	d.Add(all)
}

func whenOver(say func(what, words string), amount func(figure.Figure) string, look *order.Timing) {
	words := amount(look.Finish) + between(amount, &look.Finish, &look.FinishLow, &look.FinishHigh)
	say("finished", words)
	if look.NotBefore.ID != "" {
		say("", "not before "+amount(look.NotBefore))
	}
	if look.Due.ID == "" {
		return
	}
	due := amount(look.Due) + ", "
	slack := look.Slack.Value
	switch {
	case !slack.Known():
		due += "not known whether in time"
	case look.Holds:
		due += "in time, " + amount(look.Slack) + " to spare"
	default:
		late := look.Slack
		late.Value.Number = -late.Value.Number
		due += "late by " + amount(late)
	}
	if slack.Known() && look.Holds && !look.HighHolds {
		due += " (late if the work goes slowly)"
	}
	say("due", due)
}

// takeUp names the step to take up, and others that could be.
func takeUp(look *order.Timing) string {
	if len(look.Order) == 0 {
		return "nothing"
	}
	first := look.Order[0]
	words := first.Record.Do.V
	if v := first.Start.Value; v.Moment != nil && v.Moment.After(look.Now) {
		words += ", from " + v.Moment.Format(momentForm)
	}
	var others []*order.StepTime
	for _, s := range look.Start {
		if s != first {
			others = append(others, s)
		}
	}
	if len(others) > 0 {
		words += "; or: " + names(others, ", ")
	}
	return words
}

func names(steps []*order.StepTime, between string) string {
	list := make([]string, len(steps))
	for i, s := range steps {
		list[i] = s.ID
	}
	return strings.Join(list, between)
}

// between says a range, where there is one.
func between(amount func(figure.Figure) string, middle, low, high *figure.Figure) string {
	if low.ID == "" || !low.Value.Known() || !high.Value.Known() || amount(*low) == amount(*high) {
		return ""
	}
	return ", usually between " + amount(*low) + " and " + amount(*high)
}

// stepTable tables the steps. A star marks those that decide the date.
func stepTable(d *document.Draft, look *order.Timing) {
	cell := func(f figure.Figure) string {
		switch v := f.Value; {
		case f.ID == "":
			return ""
		case !v.Known():
			return "?"
		case v.Moment != nil:
			return v.Moment.Format("Mon 02 Jan 15:04")
		default:
			return d.Value(v)
		}
	}
	t := d.Table("", document.Words(""), document.Words("step"), document.Words(""), document.Words("planned"), document.Words("took"),
		document.Words("to do"), document.Words("start from"), document.Words("start by"), document.Words("to spare"))
	for _, s := range look.Steps {
		mark, spent := "", ""
		if s.Critical {
			mark = "*"
		}
		if s.Spent.Value.Known() {
			spent = cell(s.Spent)
		}
		planned := cell(s.Estimate.Figure)
		if low, high := cell(s.Estimate.LowFigure), cell(s.Estimate.HighFigure); low != high {
			planned += " (" + low + " to " + high + ")"
		}
		left := cell(s.Left)
		if s.State == order.Done {
			left = ""
		}
		t.Row(mark).Words(s.ID, s.State.String(), planned, spent, left, cell(s.Start), cell(s.Latest), cell(s.Slack))
	}
	t.End()
}

type (
	jsonTiming struct {
		Build        string                `json:"build"`
		Name         string                `json:"name"`
		Now          string                `json:"now"`
		Over         bool                  `json:"over"`
		Holds        *bool                 `json:"holds"` // null where nothing is due, or it is not known
		Shortest     bool                  `json:"shortest"`
		Order        []string              `json:"order"`
		Start        []string              `json:"start"`
		CriticalPath []string              `json:"decides"`
		Early        []string              `json:"early"`
		Steps        []jsonStep            `json:"steps"`
		Figures      []document.JSONFigure `json:"figures"`
	}
	jsonStep struct {
		ID       string                `json:"id"`
		Do       string                `json:"do"`
		State    string                `json:"state"`
		Why      string                `json:"why"`
		Critical bool                  `json:"decides"`
		Turn     int                   `json:"turn,omitempty"`
		Guess    bool                  `json:"estimate"`
		Figures  []document.JSONFigure `json:"figures"`
	}
)

func timeJSON(out io.Writer, bf record.BuildFile, look *order.Timing) error {
	j := jsonTiming{
		Build: bf.Slug, Name: bf.Name, Now: look.Now.Format("2006-01-02T15:04"), Over: look.Over, Shortest: look.Shortest,
		Order: idList(look.Order), Start: idList(look.Start), CriticalPath: idList(look.Chain), Early: idList(look.Early),
		Steps: []jsonStep{}, Figures: document.FiguresJSON(look.Overall()),
	}
	if look.Slack.Value.Known() && look.Due.ID != "" {
		j.Holds = &look.Holds
	}
	for _, s := range look.Steps {
		j.Steps = append(j.Steps, jsonStep{
			ID: s.ID, Do: s.Record.Do.V, State: s.State.String(), Why: s.Why, Critical: s.Critical, Turn: s.Turn,
			Guess: s.Estimate.Guess, Figures: document.FiguresJSON(s.Figures()),
		})
	}
	return document.PrintJSON(out, j)
}

func idList(steps []*order.StepTime) []string {
	out := []string{}
	for _, s := range steps {
		out = append(out, s.ID)
	}
	return out
}

// public are figures that hold nothing private.
func public(list []figure.Figure) []shown {
	out := make([]shown, len(list))
	for i, f := range list {
		out[i] = shown{f, false}
	}
	return out
}
