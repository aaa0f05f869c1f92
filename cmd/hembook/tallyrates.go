package main

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
)

// gatherRates learns the maker's rates from every build whose record holds no
// errors, and says which are left out.
func (t *tally) gatherRates(room *record.Room, tailor *derive.Tailor) *order.Rates {
	rates := order.Rates{Style: room.Workroom.Style()}
	survey(room, tailor, func(bf record.BuildFile, g *derive.Garment, faults []record.Fault) {
		if record.HasErrors(faults) {
			fmt.Fprintf(t.errs, "%s is left out of the rates: its record holds errors\n", bf.Slug)
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
	if t.json {
		return ratesJSON(t.out, rates, slugs)
	}
	ratesText(t.out, rates, slugs, t.working, room.Workroom.Style())
	return nil
}

func ratesText(out io.Writer, rates *order.Rates, slugs []string, working bool, style measure.Style) {
	if len(slugs) == 0 {
		fmt.Fprintln(out, "no technique has a page yet, and no step names one")
		return
	}
	rows := [][]string{{"technique", "timed", "least", "lower quartile", "median", "upper quartile", "most"}}
	var figures []figure.Figure
	for _, name := range slugs {
		of := rates.Of(name)
		if len(of) == 0 {
			rows = append(rows, []string{name, "0", "not known yet"})
		}
		for _, r := range of {
			row := []string{name, strconv.Itoa(r.Sum.N)}
			for _, f := range r.Figures()[1:] {
				if !r.Known {
					row = append(row, "not known yet")
					break
				}
				row = append(row, valueText(style, f.Value))
			}
			rows = append(rows, row)
			figures = append(figures, r.Figures()...)
		}
	}
	printColumns(out, rows)
	fmt.Fprintf(out, "\nof finished steps that were clocked and say what they sew, or how many pieces; it takes %d\n", order.EnoughObservations)
	if working {
		fmt.Fprintln(out)
		for _, f := range figures {
			figureText(out, shown{f, false}, true, style)
		}
	}
}

type jsonRate struct {
	Technique string       `json:"technique"`
	Per       string       `json:"per,omitempty"` // the unit; not there where nothing was timed
	Count     int          `json:"count"`
	Known     bool         `json:"known"`
	Figures   []jsonFigure `json:"figures"`
}

func ratesJSON(out io.Writer, rates *order.Rates, slugs []string) error {
	list := []jsonRate{}
	for _, name := range slugs {
		of := rates.Of(name)
		if len(of) == 0 {
			list = append(list, jsonRate{Technique: name, Figures: []jsonFigure{}})
		}
		for _, r := range of {
			list = append(list, jsonRate{name, r.Unit.Symbol(), r.Sum.N, r.Known, figuresJSON(r.Figures())})
		}
	}
	return printJSON(out, list)
}
