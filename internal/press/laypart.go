package press

import (
	"strconv"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// lays shows how each cloth is laid: the drawing, the figures, and a table of
// the distances to chalk from for those who do not see the drawing.
func (p *printer) lays(w *paper, b *notebook.BuildPage) {
	for i := range b.Lays {
		l := &b.Lays[i]
		w.mayTurn().raw("<h3>").say(l.Part).raw(" <small>").say(l.Cloth).raw("</small></h3>\n")
		if l.Why != "" {
			w.raw("<p>Not laid: ").say(l.Why).raw(".</p>\n")
			continue
		}
		if len(l.Drawing) > 0 {
			w.raw(`<figure class="tissue" tabindex="0">`)
			w.b = append(w.b, l.Drawing...)
			w.raw("</figure>\n")
		}
		figures := make([]*figure.Figure, 0, len(l.Figures)+1)
		for k := range l.Figures {
			figures = append(figures, &l.Figures[k])
		}
		if l.OnHand.ID != "" {
			figures = append(figures, &l.OnHand)
		}
		w.figures(figures)
		p.chalked(w, l)
		if len(l.Left) > 0 {
			t := w.table("What is left of "+l.Part, words("remnant"), fig("area"))
			for k := range l.Left {
				t.row(l.Left[k].Name).fig(&l.Left[k].Area)
			}
			t.end()
		}
	}
}

// chalked lists where each piece lies.
func (p *printer) chalked(w *paper, l *notebook.LayPlan) {
	if len(l.Chalked) == 0 {
		return
	}
	t := w.table("Where to chalk "+l.Part, words("piece"), words("copy"), words("how"), fig("from the left selvedge"), fig("to"), fig("from the cut end"), fig("to")).long()
	for i := range l.Chalked {
		q := &l.Chalked[i]
		t.row(strconv.Itoa(q.Number) + ". " + q.Piece).words(draw.WhichCopies(q)).words(draw.TurnWords(q))
		for _, mm := range []float64{q.Side, q.SideTo, q.End, q.EndTo} {
			t.html(func(w *paper) { w.measured(p.style.Length(measure.MM(mm).Round(measure.Millimetre))) })
		}
	}
	t.end()
}

// hangs shows how far hems dropped before they were levelled.
func (p *printer) hangs(w *paper, b *notebook.BuildPage) {
	for _, h := range b.Hangs {
		w.mayTurn().raw(`<h3 id="`).say(h.Anchor).raw(`">How the hem hung: `).say(h.Name).raw("</h3>\n")
		w.raw(`<figure class="tissue" tabindex="0">`)
		w.drawn(draw.Hem(h, p.style))
		w.raw("</figure>\n")
		w.figures([]*figure.Figure{&h.Around, &h.Longest, &h.Least, &h.Spread, &h.Bias})
		t := w.table("Drops of "+h.Name, words("station"), fig("from the start"), fig("drop"), fig("to cut off")).long()
		for i := range h.Stations {
			s := &h.Stations[i]
			t.row(strconv.Itoa(i + 1)).fig(&s.Along).fig(&s.Drop).fig(&s.Cut)
		}
		t.end()
	}
}
