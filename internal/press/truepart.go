package press

import (
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

func (p *printer) checks(w *paper, caption string, list []garment.Check, kinds []string) {
	var t *table
	for i := range list {
		c := &list[i]
		for _, kind := range kinds {
			if c.Kind != kind {
				continue
			}
			if t == nil {
				t = w.table(caption, words("what"), words("which"), fig("off"), words("wanted"), words("to mend it"))
			}
			t.row(c.What).words(c.Off.Title)
			t.html(func(w *paper) {
				w.figure(&c.Off)
				if c.Judged {
					w.raw(verdict(c.Good, "true", "not true"))
				}
			})
			t.words(c.Limit).words(c.Mend)
		}
	}
	if t != nil {
		t.end()
	}
}

// joins draws the lines across joins.
func (p *printer) joins(w *paper, list []garment.Check) {
	any := false
	for i := range list {
		j := list[i].Join
		if j == nil {
			continue
		}
		if !any {
			w.raw("<h3>Laid edge to edge</h3>\n" + `<div class="lines">`)
			any = true
		}
		w.raw(`<figure class="tissue" tabindex="0">`)
		w.b = draw.Join(w.b, j)
		w.raw("<figcaption>").say(j.Seam).raw(", 1 : 2</figcaption></figure>\n")
	}
	if any {
		w.raw("</div>\n")
	}
}
