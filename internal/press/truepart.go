package press

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// truing shows whether what must meet does meet, and draws the lines that run
// across a join with both pieces laid edge to edge.
func (p *printer) truing(w *paper, b *notebook.BuildPage) {
	if len(b.Truing) == 0 {
		return
	}
	w.raw(`<p class="note">What is sewn together is walked from end to end before anything is cut: notches that meet, lines that run on across a seam or a fold, sleeve heads, darts, the grain, and linings beside their shell.</p>` + "\n")
	w.raw("<p>").say(outcome(b.Truing)).raw("</p>\n")
	for _, part := range []struct {
		caption string
		kinds   []string
	}{
		{"Notches and the stretches between them", []string{"notches", "stretch"}},
		{"Lines across a join", []string{"line", "step"}},
		{"Sleeve heads, darts and grain", []string{"sleeve head", "dart legs", "grain"}},
		{"Lining beside shell", []string{"lining", "like"}},
	} {
		p.checks(w, part.caption, b.Truing, part.kinds)
	}
	p.joins(w, b.Truing)
}

// outcome says in a sentence how the checks went.
func outcome(list []garment.Check) string {
	judged, bad := 0, 0
	for i := range list {
		if list[i].Judged {
			judged++
			if !list[i].Good {
				bad++
			}
		}
	}
	switch {
	case judged == 0:
		return "Nothing here has a limit to be held to."
	case bad == 0 && judged == 1:
		return "The one check that has a limit holds."
	case bad == 0:
		return fmt.Sprintf("All %d checks that have a limit hold.", judged)
	}
	return fmt.Sprintf("Not within their limits: %d of %d. What would mend each stands beside it.", bad, judged)
}

// mostRows bounds the rows of one table of checks, so that a page may end
// between two of them; mostJoins likewise the drawings set side by side.
const mostRows, mostJoins = 24, 6

func (p *printer) checks(w *paper, caption string, list []garment.Check, kinds []string) {
	var t *table
	rows := 0
	for i := range list {
		c := &list[i]
		if !slices.Contains(kinds, c.Kind) {
			continue
		}
		if t != nil && rows == mostRows {
			t.end()
			t, rows, caption = nil, 0, strings.TrimSuffix(caption, ", continued")+", continued"
		}
		if t == nil {
			w.mayTurn()
			t = w.table(caption, words("what"), words("which"), fig("off"), words("wanted"), words("to mend it"))
		}
		rows++
		t.row(draw.EdgeNames(c.What)).words(c.Off.Title)
		t.fig(&c.Off)
		t.html(func(w *paper) {
			w.measured(c.Limit)
			if c.Judged {
				w.raw(verdict(c.Good, "true", "not true"))
			}
		})
		t.words(draw.EdgeNames(c.Mend))
	}
	if t != nil {
		t.end()
	}
}

// leastTurn is the turn of a line, in degrees, from which on it is drawn: what
// turns less nobody sees, and the table tells it.
const leastTurn = 1

// joins draws the lines across joins that turn at all.
func (p *printer) joins(w *paper, list []garment.Check) {
	n := 0
	for i := range list {
		j := list[i].Join
		if j == nil || math.Abs(j.Turn) < leastTurn {
			continue
		}
		switch {
		case n == 0:
			w.mayTurn().raw("<h3>Laid edge to edge</h3>\n" + `<p class="note">Lines that turn by less than a degree are not drawn. The dots go straight on.</p><div class="lines">`)
		case n%mostJoins == 0:
			w.raw("</div>\n").mayTurn().raw(`<div class="lines">`)
		}
		n++
		w.raw(`<figure class="tissue" tabindex="0">`)
		w.drawn(draw.Join(j))
		w.raw("<figcaption>").say(j.Seam).raw(", 1 : 2</figcaption></figure>\n")
	}
	if n > 0 {
		w.raw("</div>\n")
	}
}
