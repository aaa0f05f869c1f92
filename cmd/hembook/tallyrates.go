package main

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// gatherRates learns the maker's rates from every build whose record holds no
// errors, and says which are left out.
func (t *tally) gatherRates(room *record.Room, tailor *derive.Tailor) *order.Rates {
	rates := order.Rates{Style: room.Workroom.Style()}
	survey(room, tailor, func(bf record.BuildFile, g *derive.Garment, faults []fault.Fault) {
		if fault.HasErrors(faults) {
			fmt.Fprintln(t.errs, say.Of("hembook.is-left-out-something-is-wrong-in", bf.Slug))
			return
		}
		rates.Add(g.Order)
	})
	return &rates
}

// runRates prints how long each technique takes.
func (t *tally) runRates() error {
	room, _, err := t.opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	tailor, _ := derive.NewTailor(room)
	rates := t.gatherRates(room, tailor)
	slugs := rates.Techniques()
	for _, page := range room.Techniques {
		if !slices.Contains(slugs, page.Slug) {
			slugs = append(slugs, page.Slug)
		}
	}
	slices.Sort(slugs)
	d := newDraft(room.Workroom.Style())
	ratesBlocks(d, rates, slugs, t.working && !t.json)
	if t.json {
		return ratesJSON(t.out, d, rates, slugs)
	}
	tell(t.out, d, t.working)
	return nil
}

// ratesBlocks are the rates of all techniques in a table.
func ratesBlocks(d *document.Draft, rates *order.Rates, slugs []string, working bool) {
	if len(slugs) == 0 {
		d.Say(document.Say(say.Of("hembook.no-technique-has-a-page-yet-and")))
		return
	}
	t := d.Table("", document.Words("technique"), document.Words("timed"), document.Words("fastest"), document.Words("quick"),
		document.Words("usual"), document.Words("slow"), document.Words("slowest"))
	var figures []figure.Figure
	for _, name := range slugs {
		of := rates.Of(name)
		if len(of) == 0 {
			t.Row(name).Words("0", say.Of("hembook.not-known-yet"))
		}
		for _, r := range of {
			t.Row(name).Words(strconv.Itoa(r.Sum.N))
			list := r.Figures()
			if !r.Known {
				t.Words(say.Of("hembook.not-known-yet"))
			} else {
				for _, f := range list[1:] {
					t.Words(d.Value(f.Value))
				}
			}
			figures = append(figures, list...)
		}
	}
	t.End()
	d.Say(document.Say(say.Of("hembook.from-finished-steps-that-were-timed-and", strconv.Itoa(order.EnoughObservations))))
	if working {
		d.Add(document.Section{Blocks: []document.Block{facts(d, public(figures), true)}})
	}
}

type (
	jsonRates struct {
		jsonReport
		Rates []jsonRate `json:"rates"`
	}
	jsonRate struct {
		Technique string   `json:"technique"`
		Per       string   `json:"per,omitempty"` // the unit; not there where nothing was timed
		Count     int      `json:"count"`
		Known     bool     `json:"known"`
		Figures   []string `json:"figures"`
	}
)

func ratesJSON(out io.Writer, d *document.Draft, rates *order.Rates, slugs []string) error {
	all := jsonRates{jsonReport: jsonReport{JSONDocument: d.JSON()}, Rates: []jsonRate{}}
	for _, name := range slugs {
		of := rates.Of(name)
		if len(of) == 0 {
			all.Rates = append(all.Rates, jsonRate{Technique: name, Figures: []string{}})
		}
		for _, r := range of {
			all.Rates = append(all.Rates, jsonRate{name, r.Unit.Symbol(), r.Sum.N, r.Known, all.namesOf(r.Figures())})
		}
	}
	return document.PrintJSON(out, all)
}
