package compose

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/label"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
)

// Glance is what one wants to know of a garment first, beside its picture: how large
// it is, what it took, what it is made of and how it is cared for.
func Glance(d *Draft, b *notebook.BuildPage) {
	all, said := document.Facts{Glance: true}, document.Facts{}
	wide := func(term string, says []document.Phrase) {
		if len(says) > 0 {
			said.Items = append(said.Items, document.Fact{Term: term, Says: says, Wide: true})
		}
	}
	fact := func(term string, f *figure.Figure, beside ...document.Inline) {
		if one, ok := d.Fact(term, f); ok {
			one.Says[0] = d.Phrase(append([]document.Inline{document.Of(f)}, beside...)...)
			all.Items = append(all.Items, one)
		}
	}
	for _, l := range chiefLevels(b.Levels) {
		fact(strings.ToLower(l.Title), &l.Finished, d.small(say.Of("compose.ease"), &l.Ease))
	}
	if len(b.Lengths) > 0 {
		fact(b.Lengths[0].Name, &b.Lengths[0].Finished)
	}
	if len(b.Cloths) > 0 && len(b.Pieces) > 0 {
		fact(say.Of("compose.cloth-to-buy"), &b.Cloths[0].Needed, clothOf(b))
	}
	planned := document.Inline{}
	if b.Timing != nil {
		planned = d.small(say.Of("compose.planned"), &b.Timing.Planned)
	}
	if b.Hours.ID != "" { // nothing is noted yet
		fact(b.Hours.Title, &b.Hours)
	} else {
		fact(b.Spent.Title, &b.Spent, planned)
	}
	if f := chiefHem(b.Finishes); f != nil {
		fact(f.Name, &f.Total, append([]document.Inline{d.hemWay(b, f), d.deep(&f.Width)}, d.hemTime(b, f)...)...)
	}
	if len(b.Pieces) > 0 {
		fact(b.Totals.Seams.Title, &b.Totals.Seams, smallWords(chiefWay(b.Seams)))
	}
	weight, lack := b.Totals.WeightBeside()
	if lack == "" && len(b.Notions) > 0 {
		lack = say.Of("compose.with-its", someOf(notionNames(b.Notions)))
	}
	fact(b.Totals.Mass.Title, weight, smallWords(lack))
	if n := len(b.Fittings); n > 0 {
		all.Items = append(all.Items, document.Fact{Term: plural(n, "fitting"), Says: []document.Phrase{
			d.Phrase(document.Inline{Words: few(n), Page: string(b.Leaf("fit", 1).Address), Anchor: "fittings"}, smallWords(d.fitted(b)))}})
	}
	if words := shortDay(b.Begun); words != "" {
		all.Items = append(all.Items, document.Fact{Term: say.Of("compose.begun"), Says: []document.Phrase{d.Phrase(document.Inline{Words: words}, d.ended(b))}})
	}
	wide(say.Of("compose.fibres"), d.madeOf(b.Content))
	wide(say.Of("compose.care"), d.caredFor(b.Care))
	d.Add(all)
	if len(said.Items) > 0 {
		d.Add(said)
	}
}

// smallWords are words below a figure; nothing where there are none.
func smallWords(words string) document.Inline {
	if words == "" {
		return document.Inline{}
	}
	return document.As(document.Small, words)
}

// clothOf names the cloth that most is bought of, and leads to it.
func clothOf(b *notebook.BuildPage) document.Inline {
	c := &b.Cloths[0]
	return document.Inline{Voice: document.Small, Words: c.Cloth.Name, Page: string(c.Cloth.Address)}
}

// chiefWay names the type of seam that more than half of the length of all seams is sewn by.
func chiefWay(list []*garment.Seam) string {
	all, most, by := 0.0, "", map[string]float64{}
	for _, s := range list {
		if !s.Total.Value.Known() {
			return ""
		}
		all += s.Total.Value.Number
		by[s.Type.Title] += s.Total.Value.Number
		if most == "" || by[s.Type.Title] > by[most] {
			most = s.Type.Title
		}
	}
	if len(list) == 0 || by[most] <= all/2 {
		return ""
	}
	return say.Of("compose.most-of-it", strings.ToLower(most))
}

// notionNames are what is put on or into a garment, each once.
func notionNames(list []notebook.Notion) (names []string) {
	for i := range list {
		if name := list[i].What; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// fitted says what the fittings made of the chief levels; of one that several of them
// altered nothing, since no figure says what they did together.
func (d *Draft) fitted(b *notebook.BuildPage) string {
	var says []string
	for _, l := range chiefLevels(b.Levels) {
		var by []*figure.Figure
		for i := range b.Rounds {
			for k := range b.Rounds[i].Effects {
				if e := &b.Rounds[i].Effects[k]; strings.HasSuffix(e.By.ID, "."+l.Finished.ID) {
					by = append(by, &e.By)
				}
			}
		}
		if len(by) == 1 && by[0].Value.Known() && math.Abs(by[0].Value.Number) >= 1 {
			change, _ := d.Two(by[0].Value)
			if by[0].Value.Number > 0 {
				change = "+" + change
			}
			says = append(says, strings.ToLower(l.Title)+"\u00a0"+unbroken(change))
		}
	}
	return strings.Join(says, ", ")
}

// shortDay is a day with its month shortened; "" where none is given.
func shortDay(day record.Day) string {
	if day.Words() == "" {
		return ""
	}
	return day.Time().Format("2\u00a0Jan 2006")
}

// ended says when a garment was sent, or else when it must be finished.
func (d *Draft) ended(b *notebook.BuildPage) document.Inline {
	if words := shortDay(b.Sent); words != "" {
		return document.As(document.Small, say.Of("compose.sent", words))
	}
	if words := shortDay(b.Due); words != "" {
		return document.As(document.Small, say.Of("compose.due", words))
	}
	return document.Inline{}
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

// hemWay says how a hem was sewn, and leads to all that is told of it.
func (d *Draft) hemWay(b *notebook.BuildPage, f *garment.Finish) document.Inline {
	return document.Inline{Voice: document.Small, Words: strings.ToLower(f.Type.Title), Page: string(b.Leaf("seams", 1).Address), Anchor: f.Anchor}
}

// hemTime says beside it how long that took.
func (d *Draft) hemTime(b *notebook.BuildPage, f *garment.Finish) []document.Inline {
	for _, m := range madeThings(b) {
		if m.Finish && m.Name == f.Name && m.step >= 0 {
			p := finding{Draft: d, page: b}
			if took := p.said(&b.Steps[m.step].Spent); took != "" {
				return []document.Inline{document.As(document.Small, say.Of("compose.took", unbroken(took)))}
			}
			return []document.Inline{document.As(document.Small, say.Of("compose.not-sewn-yet"))}
		}
	}
	return nil
}

// small is a figure's value said beside another, where it is known.
func (d *Draft) small(before string, f *figure.Figure) document.Inline {
	if f.ID == "" || !f.Value.Known() {
		return document.Inline{}
	}
	words, _ := d.Two(f.Value)
	return document.As(document.Small, before+words)
}

// deep says how deep a hem is, where that is known.
func (d *Draft) deep(f *figure.Figure) document.Inline {
	if f.ID == "" || !f.Value.Known() || f.Value.Number == 0 {
		return document.Inline{}
	}
	words, _ := d.Two(f.Value)
	return document.As(document.Small, say.Of("compose.deep", words))
}

// opening is a phrase of words that open what else is to be said.
func (d *Draft) opening(before, words string, o document.Behind) document.Phrase {
	return d.Phrase(document.Say(before), document.Inline{Words: words, Behind: &o})
}

// line is a line of the label; what is not known says why when it is opened.
func (d *Draft) line(l *LabelLine, o document.Behind) document.Phrase {
	if l.Unknown != "" {
		return d.opening(l.Term+": ", say.Of("compose.not-known-yet"), document.Behind{Say: []string{say.Of("compose.because", l.Unknown)}})
	}
	return d.opening("", l.Words, o)
}

// madeOf states the fibres, each line with how its shares were found.
func (d *Draft) madeOf(c *label.Content) (says []document.Phrase) {
	if c == nil {
		return nil
	}
	for _, l := range FibreLines(PlainLabel{d.Style}, c) {
		o := document.Behind{Workings: l.Workings}
		if l.By != "" {
			o.Say = []string{l.By}
		}
		if l.Unknown == "" {
			l.Words = l.Term + ": " + l.Words
		}
		says = append(says, d.line(&l, o))
	}
	for _, a := range c.Animal {
		says = append(says, d.Phrase(document.Say(say.Of("compose.of-animal-origin", a))))
	}
	return says
}

// caredFor says what the garment stands, each line with the layers that decide it.
func (d *Draft) caredFor(c *label.Care) (says []document.Phrase) {
	if c == nil {
		return nil
	}
	lines := CareLines(PlainLabel{d.Style}, c)
	if c.Hidden() {
		l := &lines[0]
		return append(says, d.opening("", say.Of("compose.not-known-yet"), document.Behind{Say: []string{l.Term + ": " + l.Unknown}}))
	}
	if c.Forbidden {
		says = append(says, d.Phrase(document.Say(say.Of("compose.do-not-wash-or-dry-clean"))))
	}
	for i := range lines {
		var o document.Behind
		for _, k := range lines[i].Workings {
			o = document.Behind{Say: []string{k.Rule, k.Sum()}, Source: k.Source.Shown()}
		}
		says = append(says, d.line(&lines[i], o))
	}
	return says
}
