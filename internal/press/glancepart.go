package press

import (
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// glance is what one wants to know of a garment first, beside its picture: what
// it is made of, how it is cared for, what it comes to.
func (p *printer) glance(w *paper, b *notebook.BuildPage) {
	before := len(w.b)
	w.raw(`<dl class="few glance">`)
	open := len(w.b)
	p.madeOf(w, b.Content)
	p.caredFor(w, b.Care)
	tot := &b.Totals
	for _, f := range []*figure.Figure{&tot.Mass, &tot.Spent, &tot.Seams, &tot.Allowance, &tot.Area, &tot.Share} {
		w.few(f.Title, f)
	}
	if len(w.b) == open {
		w.b = w.b[:before]
		return
	}
	w.raw("</dl>\n")
}

// madeOf states the fibres, one line for all parts that are of the same.
func (p *printer) madeOf(w *paper, c *garment.Content) {
	if c == nil || len(c.Components)+len(c.Unknown) == 0 {
		return
	}
	w.raw(`<div class="long"><dt>made of</dt>`)
	for i := range c.Components {
		k := &c.Components[i]
		w.raw("<dd><details><summary>").say(strings.Join(k.Parts, ", ")).raw(": ")
		for n := range k.Fibres {
			if n > 0 {
				w.raw(", ")
			}
			w.measured(p.style.Number(k.Fibres[n].Label, 1) + " %").raw(" ").say(k.Fibres[n].Name)
			if other := elsewhere(&k.Fibres[n]); other != "" {
				w.raw(" (").say(other).raw(")")
			}
		}
		w.raw("</summary>")
		for n := range k.Fibres {
			w.working(&k.Fibres[n].Percent.Working)
		}
		if k.Why != "" {
			w.raw("<p>").say(k.Why).raw("</p>")
		}
		w.raw("</details></dd>")
	}
	for _, u := range c.Unknown {
		w.raw("<dd>").say(u.Part).raw(": <details><summary>not known</summary><p>because ").say(u.Why).raw("</p></details></dd>")
	}
	for _, a := range c.Animal {
		w.raw("<dd>").say(a).raw(", of animal origin</dd>")
	}
	w.raw("</div>")
}

// elsewhere is what a fibre is called on the other side of the ocean; "" where
// it has one name.
func elsewhere(f *garment.FibrePart) string {
	switch {
	case f.Other || f.Fibre.US == "" || f.Fibre.US == f.Fibre.Name:
		return ""
	case f.Name == f.Fibre.Name:
		return f.Fibre.US
	}
	return f.Fibre.Name
}

// caredFor says what the garment stands, line by line as on its label, each with
// the layers that decide it. A garment with a cloth of which nobody knows what
// it stands has no such lines: what the rest stands would mislead.
func (p *printer) caredFor(w *paper, c *garment.Care) {
	if c == nil || len(c.Axes)+len(c.Unknown) == 0 {
		return
	}
	w.raw(`<div class="long"><dt>cared for</dt>`)
	defer w.raw("</div>")
	for _, gap := range c.Unknown {
		if gap.Cloth {
			w.raw("<dd><details><summary>not known</summary><p>").say(gap.Name).raw(": ").say(gap.Why).raw("</p></details></dd>")
			return
		}
	}
	if c.Forbidden {
		w.raw("<dd>it can be neither washed nor cleaned</dd>")
	}
	for i := range c.Axes {
		a := &c.Axes[i]
		w.raw("<dd><details><summary>")
		for n, o := range a.Options {
			if n > 0 {
				w.raw(", ")
			}
			w.say(o.Words)
		}
		k := &a.Working
		w.raw("</summary><p>").say(k.Rule).raw("<br>").say(k.Sum()).raw("<br><cite>").say(string(k.Source)).raw("</cite></p></details></dd>")
	}
	for _, gap := range c.Unknown {
		w.raw("<dd>").say(gap.Name).raw(": <details><summary>not known</summary><p>because ").say(gap.Why).raw("</p></details></dd>")
	}
}
