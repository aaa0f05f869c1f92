package compose

import (
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/notebook"
)

// Glance is what one wants to know of a garment first, beside its picture: how large
// it is, what it took, what it is made of and how it is cared for.
func Glance(d *Draft, b *notebook.BuildPage) {
	all := document.Facts{Glance: true}
	wide := func(term string, says []document.Phrase) {
		if len(says) > 0 {
			all.Items = append(all.Items, document.Fact{Term: term, Says: says, Wide: true})
		}
	}
	fact := func(term string, f *figure.Figure, beside ...document.Inline) {
		if one, ok := d.Fact(term, f); ok {
			one.Says[0] = d.Phrase(append([]document.Inline{document.Of(f)}, beside...)...)
			all.Items = append(all.Items, one)
		}
	}
	for _, l := range chiefLevels(b.Levels) {
		fact(strings.ToLower(l.Title), &l.Finished, d.small("ease ", &l.Ease))
	}
	if len(b.Lengths) > 0 {
		fact(b.Lengths[0].Name, &b.Lengths[0].Finished)
	}
	if len(b.Cloths) > 0 {
		fact("cloth to buy", &b.Cloths[0].Needed, document.As(document.Small, b.Cloths[0].Part))
	}
	planned := document.Inline{}
	if b.Timing != nil {
		planned = d.small("planned ", &b.Timing.Planned)
	}
	fact(b.Spent.Title, &b.Spent, planned)
	if f := chiefHem(b.Finishes); f != nil {
		fact(f.Name, &f.Total, document.As(document.Small, strings.ToLower(f.Type.Title)))
	}
	fact(b.Totals.Seams.Title, &b.Totals.Seams)
	fact(b.Totals.Mass.Title, &b.Totals.Mass)
	if n := len(b.Fittings); n > 0 {
		all.Items = append(all.Items, document.Fact{Term: plural(n, "fitting"), Says: []document.Phrase{
			d.Phrase(document.Inline{Words: few(n), Page: string(b.Leaf("fit", 1).Address), Anchor: "fittings"})}})
	}
	wide("Fibres", d.madeOf(b.Content))
	wide("Care", d.caredFor(b.Care))
	d.Add(all)
}

// chiefLevels are the two levels that a garment is known by: those with ease on a
// body, else the first that are known.
func chiefLevels(list []*fitting.Level) (out []*fitting.Level) {
	for _, eased := range []bool{true, false} {
		for _, l := range list {
			if l.Finished.Value.Known() && l.Finished.ID != "" && (l.Ease.ID != "" && l.Ease.Value.Known()) == eased && len(out) < 2 {
				out = append(out, l)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return out
}

// chiefHem is the longest of a garment's hems; nil where it has none.
func chiefHem(list []*garment.Finish) (hem *garment.Finish) {
	for _, f := range list {
		if strings.Contains(f.Name, "hem") && f.Total.Value.Known() && (hem == nil || f.Total.Value.Number > hem.Total.Value.Number) {
			hem = f
		}
	}
	return hem
}

// small is a figure's value said beside another, where it is known.
func (d *Draft) small(before string, f *figure.Figure) document.Inline {
	if f.ID == "" || !f.Value.Known() {
		return document.Inline{}
	}
	words, _ := d.Two(f.Value)
	return document.As(document.Small, before+words)
}

// opening is a phrase of words that open what else is to be said.
func (d *Draft) opening(before, words string, o document.Opening) document.Phrase {
	return d.Phrase(document.Say(before), document.Inline{Words: words, Opening: &o})
}

// gap says that something of a name is not known, and why.
func (d *Draft) gap(name, why string) document.Phrase {
	return d.opening(name+": ", "not known yet", document.Opening{Say: []string{"because " + why}})
}

// madeOf states the fibres, one line for all parts that are of the same.
func (d *Draft) madeOf(c *label.Content) (says []document.Phrase) {
	if c == nil {
		return nil
	}
	for i := range c.Components {
		k := &c.Components[i]
		var o document.Opening
		var fibres []string
		for n := range k.Fibres {
			f := &k.Fibres[n]
			words := d.Style.Number(f.Label, 1) + "\u00a0% " + f.Name
			if other := elsewhere(f); other != "" {
				words += " (" + other + ")"
			}
			fibres = append(fibres, words)
			o.Workings = append(o.Workings, &f.Percent.Working)
		}
		if k.Why != "" {
			o.Say = []string{k.Why}
		}
		says = append(says, d.opening("", strings.Join(k.Parts, ", ")+": "+strings.Join(fibres, ", "), o))
	}
	for _, u := range c.Unknown {
		says = append(says, d.gap(u.Part, u.Why))
	}
	for _, a := range c.Animal {
		says = append(says, d.Phrase(document.Say(a+", of animal origin")))
	}
	return says
}

// elsewhere is what a fibre is called on the other side of the ocean; "" where
// it has one name.
func elsewhere(f *label.FibrePart) string {
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
func (d *Draft) caredFor(c *label.Care) (says []document.Phrase) {
	if c == nil || len(c.Axes)+len(c.Unknown) == 0 {
		return nil
	}
	for _, gap := range c.Unknown {
		if gap.Cloth {
			return append(says, d.opening("", "not known yet", document.Opening{Say: []string{gap.Name + ": " + gap.Why}}))
		}
	}
	if c.Forbidden {
		says = append(says, d.Phrase(document.Say("do not wash or dry clean")))
	}
	for i := range c.Axes {
		a := &c.Axes[i]
		var words []string
		for _, o := range a.Options {
			words = append(words, o.Words)
		}
		k := &a.Working
		says = append(says, d.opening("", strings.Join(words, ", "), document.Opening{Say: []string{k.Rule, k.Sum()}, Source: k.Source.Shown()}))
	}
	for _, gap := range c.Unknown {
		says = append(says, d.gap(gap.Name, gap.Why))
	}
	return says
}
