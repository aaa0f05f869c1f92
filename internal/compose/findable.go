package compose

import (
	"strings"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// A Findable is a part of a garment's pages that is looked for by itself: a seam, a
// step, a day of the journal.
type Findable struct {
	Anchor  string // where it stands
	Kind    string // in the words a reader sees: "seam", "journal"
	Title   string
	Names   []string // what it is also known as
	Text    string   // plain
	Answers []Answer
}

// An Answer is a figure that answers a question: "time" or another of those that
// can be asked.
type Answer struct{ To, Says string }

// Findables are the parts of a garment's pages that a search finds by themselves, in
// the order of the pages. What stands there is said in the words of the pages.
func Findables(d *Draft, b *notebook.BuildPage) []Findable {
	p := finding{Draft: d, page: b, anchors: stepAnchors(b.Steps)}
	p.pieces()
	p.sewn()
	p.notions()
	p.cautions()
	p.fittings()
	p.steps()
	p.days()
	return p.all
}

// Known are the figures of a garment that can be asked for.
func Known(d *Draft, b *notebook.BuildPage) []Answer {
	p := finding{Draft: d, page: b}
	var out []Answer
	add := func(to, says string) {
		if says != "" {
			out = append(out, Answer{to, says})
		}
	}
	add("time", p.spent(b))
	var sizes, eases, cloths []string
	for _, l := range chiefLevels(b.Levels) {
		sizes = append(sizes, named(strings.ToLower(l.Title), p.said(&l.Finished)))
		eases = append(eases, named(strings.ToLower(l.Title), p.said(&l.Ease)))
	}
	add("size", joined(sizes...))
	add("ease", joined(eases...))
	if len(b.Lengths) > 0 {
		add("length", named(b.Lengths[0].Name, p.said(&b.Lengths[0].Finished)))
	}
	for i := range b.Cloths {
		c := &b.Cloths[i]
		if says := p.said(&c.Needed); says != "" {
			cloths = append(cloths, says+" "+c.Cloth.Name)
		}
	}
	add("cloth", joined(cloths...))
	weight, lack := b.Totals.WeightBeside()
	add("weight", strings.TrimSpace(p.said(weight)+" "+lack))
	add("care", p.care())
	return out
}

// A finding gathers what of a garment is to be found.
type finding struct {
	*Draft
	page    *notebook.BuildPage
	anchors map[string]string // of steps
	all     []Findable
}

// said is a figure in words; "" where it is not known.
func (p *finding) said(f *figure.Figure) string {
	if f == nil || f.ID == "" || !f.Value.Known() {
		return ""
	}
	words, _ := p.Two(f.Value)
	return words
}

// named says a name before what is said of it.
func named(name, says string) string {
	if says == "" {
		return ""
	}
	return name + " " + says
}

// joined are the sayings that are there, commas between.
func joined(says ...string) string {
	var out []string
	for _, s := range says {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}

// spent says how long the garment took, and what was planned.
func (p *finding) spent(b *notebook.BuildPage) string {
	took := p.said(&b.Spent)
	if took == "" {
		return ""
	}
	if b.Timing == nil {
		return took
	}
	return joined(took, named("planned", p.said(&b.Timing.Planned)))
}

// care says what the garment stands, without what decides it.
func (p *finding) care() string {
	c := p.page.Care
	if c == nil || c.Hidden() {
		return ""
	}
	if c.Forbidden {
		return say.Of("compose.do-not-wash-or-dry-clean")
	}
	var says []string
	for _, l := range CareLines(PlainLabel{p.Style}, c) {
		says = append(says, l.Words)
	}
	return strings.Join(says, "; ")
}

func (p *finding) pieces() {
	for _, piece := range p.page.Pieces {
		p.all = append(p.all, Findable{Anchor: piece.Anchor, Kind: "piece", Title: piece.Name, Text: piece.CutWords()})
	}
}

// sewn are the seams, hems and edges with how they were sewn and how long it took.
func (p *finding) sewn() {
	for i, list := 0, madeThings(p.page); i < len(list); i++ {
		m := &list[i]
		kind := "seam"
		if m.Finish {
			kind = say.Of("compose.edge-finish")
		}
		one := Findable{Anchor: m.anchor, Kind: kind, Title: m.Name, Names: []string{m.kind.Title}}
		length := p.said(m.length)
		if length != "" {
			one.Answers = append(one.Answers, Answer{"length", length})
		}
		took, step, beside := "", "", ""
		if m.step >= 0 {
			s := &p.page.Steps[m.step]
			took, step = p.tookWords(m.step), PlainWords(s.Record.Do.V)
			if took != "" {
				if len(m.beside) > 0 {
					beside = say.Of("compose.with", someOf(m.beside))
				}
				one.Answers = append(one.Answers, Answer{"time", joined(took, beside)})
			}
		}
		set, says := p.settingOf(m)
		if set.Needle != "" {
			one.Answers = append(one.Answers, Answer{"needle", set.Needle})
		}
		if long := stitchWords(&set); long != "" {
			one.Answers = append(one.Answers, Answer{"stitch", long})
		}
		one.Text = sentences(joined(m.kind.Title, length), says, joined(step, took, beside), m.note)
		p.all = append(p.all, one)
	}
}

// settingOf is how the machine is set for a seam or finish, and that in words.
func (p *finding) settingOf(m *madeThing) (garment.Setting, string) {
	for i := range p.page.Machine {
		set := &p.page.Machine[i]
		for _, of := range set.For {
			if of.Name == m.Name && of.Beside == "" {
				return set.Setting, joined(settingWords(&set.Setting), set.Thread)
			}
		}
	}
	return garment.Setting{}, ""
}

// tookWords say how long a step took and what was planned.
func (p *finding) tookWords(step int) string {
	took := p.said(&p.page.Steps[step].Spent)
	if took == "" || p.page.Timing == nil {
		return took
	}
	return joined(took, named("planned", p.said(&p.page.Timing.Steps[step].Estimate.Figure)))
}

// sentences puts what is there into sentences.
func sentences(list ...string) string {
	var out strings.Builder
	for _, s := range list {
		if s = strings.TrimSpace(s); s == "" {
			continue
		}
		if out.Len() > 0 {
			out.WriteByte(' ')
		}
		out.WriteString(upperFirst(s))
		if !strings.ContainsAny(s[len(s)-1:], ".!?:") {
			out.WriteByte('.')
		}
	}
	return out.String()
}

func (p *finding) notions() {
	var list []string
	for i := range p.page.Notions {
		n := &p.page.Notions[i]
		list = append(list, joined(n.What, n.Material, p.said(&n.Count), p.said(&n.Length), PlainWords(n.Note)))
	}
	for _, t := range p.page.Threads {
		list = append(list, joined(t.Name, p.said(&t.Total)))
	}
	for i := range p.page.Machine {
		m := &p.page.Machine[i]
		names := make([]string, len(m.For))
		for k := range names {
			names[k] = m.For[k].Name
		}
		list = append(list, joined(settingWords(&m.Setting), m.Thread, strings.Join(names, ", ")))
	}
	if text := sentences(list...); text != "" {
		p.all = append(p.all, Findable{Anchor: "notions", Kind: "notions", Title: say.Of("compose.notions-thread-and-machine"), Text: text})
	}
}

func (p *finding) cautions() {
	var list []string
	for _, c := range p.page.Cautions {
		list = append(list, c.Title, c.Text)
	}
	if text := sentences(list...); text != "" {
		p.all = append(p.all, Findable{Anchor: "cautions", Kind: "cautions", Title: say.Of("compose.what-to-be-careful-of"), Text: text})
	}
}

func (p *finding) fittings() {
	for i := range p.page.Fittings {
		f := &p.page.Fittings[i]
		says := []string{f.From, PlainWords(f.Saw)}
		for k := range f.Changes {
			says = append(says, wordsIn(p.change(&f.Changes[k])))
		}
		p.all = append(p.all, Findable{
			Anchor: f.Anchor, Kind: "fitting", Title: fittingHead(f), Names: []string{say.Of("compose.what-was-changed")}, Text: sentences(says...),
		})
	}
}

// wordsIn are the words of a phrase.
func wordsIn(phrase document.Phrase) string {
	var out strings.Builder
	for _, in := range phrase {
		if in.Voice == document.Small && in.Words != "" {
			out.WriteByte(' ')
		}
		out.WriteString(in.Words)
	}
	return out.String()
}

func (p *finding) steps() {
	for i := range p.page.Steps {
		s := &p.page.Steps[i]
		took := p.tookWords(i)
		one := Findable{
			Anchor: p.anchors[s.ID], Kind: "step", Title: PlainWords(s.Record.Do.V),
			Text: sentences(joined(s.Technique.Name, took), PlainWords(s.Record.Note.V)),
		}
		if took != "" {
			one.Answers = []Answer{{"time", took}}
		}
		p.all = append(p.all, one)
	}
}

// days are the maker's notes and the days of the journal.
func (p *finding) days() {
	if p.page.Notes.Given() {
		p.all = append(p.all, Findable{Anchor: "notes", Kind: "notes", Title: say.Of("compose.notes"), Text: p.page.Notes.Plain()})
	}
	if p.page.Change.Given() {
		p.all = append(p.all, Findable{Anchor: "change", Kind: "notes", Title: say.Of("compose.what-i-would-change"), Text: p.page.Change.Plain()})
	}
	for i := range p.page.Journal {
		e := &p.page.Journal[i]
		long := ""
		if e.For > 0 {
			long = p.Style.Duration(e.For)
		}
		p.all = append(p.all, Findable{
			Anchor: e.Anchor, Kind: "journal", Title: e.When.Format("2 January 2006"),
			Text: sentences(joined(PlainWords(e.Did), long), e.Note.Plain()),
		})
	}
}
