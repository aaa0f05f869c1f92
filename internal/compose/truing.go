package compose

import (
	"math"
	"slices"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// truing shows whether what must meet does meet, and draws the lines that run
// across a join with both pieces laid edge to edge.
func truing(d *Draft, b *notebook.BuildPage) {
	if len(b.Truing) == 0 {
		return
	}
	d.Note("Compared before cutting: notches, lines that cross a seam or a fold, sleeve heads, darts, the grain, and the lining with the shell.")
	d.Say(document.Say(garment.Outcome(b.Truing)))
	if slices.ContainsFunc(b.Truing, func(c garment.Check) bool { return c.Judged && !c.Good }) {
		d.Say(document.Say("How to correct each stands beside it."))
	}
	for _, part := range []struct {
		caption string
		kinds   []string
	}{
		{"Notches", []string{"notches", "stretch"}},
		{"Lines that cross a seam", []string{"line", "step"}},
		{"Sleeve heads, darts and grain", []string{"sleeve head", "dart legs", "grain"}},
		{"Lining and shell", []string{"lining", "like"}},
	} {
		d.checks(part.caption, b.Truing, part.kinds)
	}
	d.joins(b.Truing)
}

// mostJoins is how many drawings stand side by side before a page may end.
const mostJoins = 6

func (d *Draft) checks(caption string, list []garment.Check, kinds []string) {
	var t *document.TableDraft
	for i := range list {
		c := &list[i]
		if !slices.Contains(kinds, c.Kind) {
			continue
		}
		if t == nil {
			d.Add(document.Turn{})
			t = d.Table(caption, document.Words("where"), document.Words("what"), document.Figures("found"), document.Words("allowed"), document.Words("to correct it")).Long()
		}
		t.Row(draw.EdgeNames(c.What)).Words(c.Off.Title).Figures(found(c))
		limit := document.As(document.Measured, c.Limit)
		if c.Judged && !c.Good { // those that hold are told of once, above the table
			t.Cell(limit, document.Verdict(false, "", doesNotMeet))
		} else {
			t.Cell(limit)
		}
		t.Words(draw.EdgeNames(c.Mend))
	}
	if t != nil {
		t.End()
	}
}

// found is how far off a comparison is: where it does not meet, to a tenth, so
// that what is allowed is seen to be less.
func found(c *garment.Check) *figure.Figure {
	if !c.Judged || c.Good {
		return &c.Off
	}
	f := c.Off
	f.Value.Number, f.Value.Exact = math.Round(f.Value.Number*10)/10, true
	return &f
}

// leastTurn is the turn of a line, in degrees, from which on it is drawn: what
// turns less nobody sees, and the table tells it.
const leastTurn = 1

// joins draws the lines across joins that turn at all.
func (d *Draft) joins(list []garment.Check) {
	var all []document.Sketch
	for i := range list {
		if j := list[i].Join; j != nil && math.Abs(j.Turn) >= leastTurn {
			all = append(all, document.Sketch{Draw: func() *drawing.Drawing { return draw.Join(j) }, Caption: j.Seam + ", 1 : 2"})
		}
	}
	for some := range slices.Chunk(all, mostJoins) {
		d.Add(document.Turn{})
		if &some[0] == &all[0] {
			d.Add(document.Heading{Level: 3, Words: "Two pieces laid together at the seam"})
			d.Note("Dotted: the line straight on.")
		}
		d.Add(document.Sketches{Of: some})
	}
}
