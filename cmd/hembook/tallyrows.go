package main

import (
	"strconv"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
)

// printRows prints every row of stitching of a build.
func (t *tally) printRows(room *record.Room, tailor *derive.Tailor, bf record.BuildFile, g *derive.Garment) error {
	rows := tailor.Through(g.Garment)
	d := newDraft(room.Workroom.Style())
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	rowTable(d, g.Garment, rows)
	if t.json {
		out := struct {
			jsonReport
			Rows []jsonRow `json:"rows"`
		}{jsonReport: reportOf(bf, d)}
		out.Rows = out.rows(g.Garment, rows)
		return document.PrintJSON(t.out, out)
	}
	tell(t.out, d, t.working)
	printFaults(t.errs, g.Faults)
	return nil
}

// rowTable is the table of rows, each with the step that sews it.
func rowTable(d *document.Draft, g *garment.Garment, rows []garment.RowThrough) {
	tab := d.Table("", document.Words("sewn"), document.Words("row"), document.Words("stitch"), document.Figures("rows"), document.Figures("length"),
		document.Figures("plies"), document.Figures("thickness"), document.Words("step"))
	length := func(mm float64) string { return d.Style.Length(measure.MM(mm)) }
	for i := range rows {
		r := rows[i].Row
		stitch := r.Stitch
		if r.Temporary {
			stitch += say.Of("hembook.taken-out-again")
		}
		tab.Row(r.Called()).Words(r.Do(length), stitch, strconv.Itoa(r.Rows)).Figures(r.Length)
		for _, f := range []*figure.Figure{&rows[i].Plies, &rows[i].Thickness} {
			if f.Value.Known() {
				tab.Figures(f)
			} else {
				tab.Cell()
			}
		}
		tab.Words(stepID(g, r))
	}
	tab.End()
}

// stepID is the step that sews a row first.
func stepID(g *garment.Garment, r *garment.Row) string {
	for _, i := range r.Steps() {
		return g.Build.Work[i].StepID()
	}
	return ""
}

// A jsonRow is a row of stitching for other programs.
type jsonRow struct {
	Kind      string   `json:"kind"`
	Of        string   `json:"of"`
	Pass      int      `json:"pass,omitempty"` // of its seam or finish, from 1
	Do        string   `json:"do,omitempty"`
	Stitch    string   `json:"stitch,omitempty"` // by ISO 4915
	Rows      int      `json:"rows"`             // so many beside each other; 0 where its type is not known
	Hand      bool     `json:"by-hand,omitempty"`
	Temporary bool     `json:"taken-out,omitempty"`
	Counts    bool     `json:"in-length-sewn,omitempty"` // the length sewn has its line once, by this row
	Thread    string   `json:"thread,omitempty"`
	Length    string   `json:"length"`
	Plies     string   `json:"plies"`
	Thickness string   `json:"thickness"`
	Steps     []string `json:"steps"`
}

// rows are rows of stitching, each with the names of its figures.
func (r *jsonReport) rows(g *garment.Garment, list []garment.RowThrough) []jsonRow {
	out := []jsonRow{}
	for i := range list {
		row := list[i].Row
		one := jsonRow{
			Kind: string(row.Kind), Of: row.Of, Pass: row.Pass, Do: row.Do(nil), Stitch: row.Stitch, Rows: row.Rows, Hand: row.Hand, Temporary: row.Temporary,
			Counts: row.Lasting, Thread: row.Thread, Length: r.named(row.Length, false), Plies: r.named(&list[i].Plies, false), Thickness: r.named(&list[i].Thickness, false), Steps: []string{},
		}
		for _, k := range row.Steps() {
			one.Steps = append(one.Steps, g.Build.Work[k].StepID())
		}
		out = append(out, one)
	}
	return out
}

// A jsonSewing is how a seam is sewn in its step, for other programs.
type jsonSewing struct {
	Seam   string   `json:"seam"`
	Step   string   `json:"step"`
	How    string   `json:"how"`    // flat, or in the round
	Closes []string `json:"closes"` // seams and openings whose lines come back to themselves then
}

func sewingJSON(g *derive.Garment) []jsonSewing {
	out := []jsonSewing{}
	t := order.GoesTogether(g.Garment, g.Steps)
	if t == nil {
		return out
	}
	for _, w := range t.Sewing() {
		how := "flat"
		if w.Round {
			how = say.Of("hembook.in-the-round")
		}
		out = append(out, jsonSewing{w.Seam.Name, w.Step.ID, how, all(w.Closes)})
	}
	return out
}
