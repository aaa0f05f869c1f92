package compose

import (
	"fmt"
	"math"
	"slices"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// truing shows whether what must meet does meet, and draws the lines that run
// across a join with both pieces laid edge to edge.
func truing(d *Draft, b *notebook.BuildPage) {
	if len(b.Truing) == 0 {
		return
	}
	d.Note("What is sewn together is walked from end to end before anything is cut: notches that meet, lines that run on across a seam or a fold, sleeve heads, darts, the grain, and linings beside their shell.")
	d.Say(document.Say(outcome(b.Truing)))
	for _, part := range []struct {
		caption string
		kinds   []string
	}{
		{"Notches and the stretches between them", []string{"notches", "stretch"}},
		{"Lines across a join", []string{"line", "step"}},
		{"Sleeve heads, darts and grain", []string{"sleeve head", "dart legs", "grain"}},
		{"Lining beside shell", []string{"lining", "like"}},
	} {
		d.checks(part.caption, b.Truing, part.kinds)
	}
	d.joins(b.Truing)
}

// outcome says in a sentence how the checks went.
func outcome(list []garment.Check) string {
	held, bad := 0, 0
	for i := range list {
		if list[i].Judged {
			held++
			if !list[i].Good {
				bad++
			}
		}
	}
	switch {
	case held == 0:
		return "Nothing here has a limit to be held to."
	case bad == 0 && held == 1:
		return "The one check that has a limit holds."
	case bad == 0:
		return fmt.Sprintf("All %d checks that have a limit hold.", held)
	}
	return fmt.Sprintf("Not within their limits: %d of %d. What would mend each stands beside it.", bad, held)
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
			t = d.Table(caption, document.Words("what"), document.Words("which"), document.Figures("off"), document.Words("wanted"), document.Words("to mend it")).Long()
		}
		t.Row(draw.EdgeNames(c.What)).Words(c.Off.Title).Figures(&c.Off)
		limit := document.As(document.Measured, c.Limit)
		if c.Judged {
			t.Cell(limit, document.Verdict(c.Good, "true", "not true"))
		} else {
			t.Cell(limit)
		}
		t.Words(draw.EdgeNames(c.Mend))
	}
	if t != nil {
		t.End()
	}
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
			d.Add(document.Heading{Level: 3, Words: "Laid edge to edge"})
			d.Note("Lines that turn by less than a degree are not drawn. The dots go straight on.")
		}
		d.Add(document.Sketches{Of: some})
	}
}
