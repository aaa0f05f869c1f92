package main

import (
	"fmt"
	"io"
	"time"

	"hembook/internal/bench"
	"hembook/internal/compose"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// printTime prints the order of work of a build.
func (t *tally) printTime(room *record.Room, tailor *derive.Tailor, bf record.BuildFile, g *derive.Garment) ([]fault.Fault, error) {
	from, err := t.standing(room, tailor, bf, g)
	if err != nil {
		return nil, err
	}
	look := tailor.Timing(g, from)
	d := compose.NewDraft(room.Workroom.Style())
	d.Moment = momentForm
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	compose.Times(d, look)
	for _, s := range look.Early {
		d.Note(say.Of("hembook.was-worked-on-before-something-it-needs", s.Record.Do.V, bf.Slug))
	}
	if t.json {
		return look.Faults, timeJSON(t.out, reportOf(bf, &d.Draft), look)
	}
	if t.working {
		d.Add(document.Section{Blocks: []document.Block{facts(&d.Draft, public(look.Figures()), true)}})
	}
	tell(t.out, &d.Draft, t.working)
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
	return now, misused(say.Of("hembook.is-not-a-moment-write-14-10", say.Quoted(text)))
}

type (
	// A jsonTiming is what is to do and when, by the IDs of steps.
	jsonTiming struct {
		jsonReport
		Now          string     `json:"now"`
		Over         bool       `json:"over"`
		Holds        *bool      `json:"holds"` // null where nothing is due, or it is not known
		Shortest     bool       `json:"shortest"`
		Order        []string   `json:"order"`
		Start        []string   `json:"start"`
		CriticalPath []string   `json:"decides"`
		Early        []string   `json:"early"`
		Steps        []jsonStep `json:"steps"`
		Overall      []string   `json:"overall"` // figures of the work as a whole
	}
	jsonStep struct {
		ID       string   `json:"id"`
		Do       string   `json:"do"`
		State    string   `json:"state"`
		Why      string   `json:"why"`
		Critical bool     `json:"decides"`
		Turn     int      `json:"turn,omitempty"`
		Guess    bool     `json:"estimate"`
		Figures  []string `json:"figures"`
	}
)

func timeJSON(out io.Writer, of jsonReport, look *order.Timing) error {
	j := jsonTiming{
		jsonReport: of, Now: look.Now.Format("2006-01-02T15:04"), Over: look.Over, Shortest: look.Shortest,
		Order: idList(look.Order), Start: idList(look.Start), CriticalPath: idList(look.Chain), Early: idList(look.Early), Steps: []jsonStep{},
	}
	if look.Slack.Value.Known() && look.Due.ID != "" {
		j.Holds = &look.Holds
	}
	for _, s := range look.Steps {
		j.Steps = append(j.Steps, jsonStep{
			ID: s.ID, Do: s.Record.Do.V, State: s.State.String(), Why: s.Why, Critical: s.Critical, Turn: s.Turn,
			Guess: s.Estimate.Guess, Figures: j.namesOf(s.Figures()),
		})
	}
	j.Overall = j.namesOf(look.Overall())
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
