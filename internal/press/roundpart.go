package press

import (
	"strconv"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/record"
)

// fittings tells of the rounds of fitting: what was seen, what was changed and
// what that did; then the pieces with the lines of all rounds.
func (p *printer) fittings(w *paper, b *notebook.BuildPage) {
	for i := range b.Fittings {
		f := &b.Fittings[i]
		w.mayTurn().raw(`<article class="round"><h3>Round `).int(f.Round).raw("</h3>")
		w.raw(`<p class="cut">`).say(notebook.DayWords(f.On))
		if f.From != "" {
			w.raw(", ").say(f.From)
		}
		w.raw("</p><p>").say(f.Saw).raw("</p>")
		if len(f.Changes) > 0 {
			w.raw("<ul>")
			for k := range f.Changes {
				p.change(w, &f.Changes[k])
			}
			w.raw("</ul>")
		}
		if f.Picture != nil {
			p.photo(w, *f.Picture, columnSizes)
		}
		p.effects(w, b.Rounds, f.Round)
		w.raw("</article>\n")
	}
	p.overlays(w, b)
}

// change says one change in words.
func (p *printer) change(w *paper, c *record.Change) {
	w.raw("<li>")
	if ref, ok := c.Part(); ok {
		w.raw("<b>").say(ref.Piece).raw("</b> ")
		if c.Does() {
			w.say(garment.ChangeWords(c, p.style))
		} else {
			w.say(ref.Edge)
		}
		if c.Alone.V {
			w.raw(", this piece alone")
		}
		if c.Note.Given() {
			w.raw(": ")
		}
	}
	w.say(c.Note.V)
	if c.Agreed.Given() {
		w.raw(" <small>agreed by ").say(c.Agreed.V).raw("</small>")
	}
	w.raw("</li>")
}

// effects lists what a round did, and each of its changes where there are
// several.
func (p *printer) effects(w *paper, rounds []notebook.Round, number int) {
	for _, r := range rounds {
		if r.Number != number || len(r.Changes) == 0 {
			continue
		}
		t := w.table("What round "+strconv.Itoa(number)+" did", words("change"), words("to"), fig("before"), fig("after"), fig("changed by"))
		if len(r.Changes) > 1 {
			for i := range r.Changes {
				c := &r.Changes[i]
				p.effectRows(t, c.Piece+" "+c.Words, c.Effects)
			}
		}
		p.effectRows(t, "the whole round", r.Effects)
		t.end()
		if r.Drawn {
			w.raw(`<p class="note">The outlines of the record were drawn anew with this round; the line before it is worked back from them.</p>`)
		}
	}
}

func (p *printer) effectRows(t *table, name string, list []garment.Effect) {
	if len(list) == 0 {
		t.row(name).words("nothing that is measured").words("").words("").words("")
		return
	}
	for i := range list {
		e := &list[i]
		if i == 0 {
			t.row(name)
		} else { // a row without a name says nothing to who cannot see the one above
			t.head(func(w *paper) { w.raw("<small>the same</small>") })
		}
		t.words(e.Of)
		for _, v := range []figure.Value{e.Before, e.After} {
			t.html(func(w *paper) { w.measured(p.value(v)) })
		}
		t.fig(&e.By)
	}
}

func (p *printer) value(v figure.Value) string {
	if !v.Known() {
		return "not known"
	}
	return p.style.Quantity(v.Quantity)
}

// overlays draws every piece that a round altered with the lines of all rounds.
func (p *printer) overlays(w *paper, b *notebook.BuildPage) {
	first := true
	for _, states := range b.States {
		piece := states[len(states)-1].Piece
		if first {
			w.mayTurn().raw("<h3>Line over line</h3>\n<p class=\"note\">The sewing lines of the draft and of each round, each with a dash of its own; pieces that are like another follow it.</p>\n<div class=\"lines\">")
			first = false
		}
		scale := scaleOf(piece)
		w.raw(`<figure class="tissue" tabindex="0">`)
		w.drawn(draw.Rounds(states, draw.PieceStyle{Scale: scale, Measure: p.style, Numbers: p.numbers}))
		w.raw("<figcaption>").say(piece.Name).raw(", 1 : ").say(strconv.FormatFloat(scale, 'f', -1, 64)).raw("</figcaption></figure>\n")
	}
	if !first {
		w.raw("</div>\n")
	}
}

// asOf says after which round of fitting the figures of a page stand.
func asOf(b *notebook.BuildPage) string {
	if b.Round == 0 || len(b.Rounds) == 0 {
		return ""
	}
	var drawn []string
	for _, r := range b.Rounds {
		if r.Drawn {
			drawn = append(drawn, strconv.Itoa(r.Number))
		}
	}
	s := "Pieces and figures are as of round " + strconv.Itoa(b.Round) + " of the fittings"
	if len(drawn) > 0 && len(drawn) < len(b.Rounds) {
		s += "; the record's own outlines show round " + strings.Join(drawn, ", ")
	}
	return s + "."
}
