package compose

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/trade"
)

// A madeThing is a seam, hem or edge with all that belongs to it: how it is sewn,
// by which step and on which days.
type madeThing struct {
	order.Numbered
	anchor   string
	kind     trade.SeamType
	measures trade.Params
	way      notebook.Link // no address where no page tells of it
	length   *figure.Figure
	step     int      // its place among the steps, from 0; −1 where none sews it
	beside   []string // what else its step sews
	note     string   // what the maker wrote beside it, plain
}

// madeThings are the seams, hems and edges of a garment in the order they are sewn in.
func madeThings(b *notebook.BuildPage) (out []madeThing) {
	if b.Together == nil {
		return nil
	}
	for _, n := range b.Together.Numbered {
		m := madeThing{Numbered: n, step: -1}
		if n.Finish {
			i := slices.IndexFunc(b.Finishes, func(f *garment.Finish) bool { return f.Name == n.Name })
			if i < 0 {
				continue
			}
			f := b.Finishes[i]
			m.anchor, m.kind, m.measures, m.length, m.way = f.Anchor, f.Type, f.Params, &f.Total, b.FinishWays[i]
			m.note = PlainWords(f.Record.Note.V)
		} else {
			i := slices.IndexFunc(b.Seams, func(s *garment.Seam) bool { return s.Name == n.Name })
			if i < 0 {
				continue
			}
			s := b.Seams[i]
			m.anchor, m.kind, m.measures, m.length, m.way = s.Anchor, s.Type, s.Params, &s.Total, b.SeamWays[i]
			m.note = PlainWords(s.Record.Note.V)
			if s.Times == 1 {
				m.length = &s.Length
			}
		}
		if m.step = slices.IndexFunc(b.Steps, func(s notebook.Step) bool { return s.ID == n.StepID }); m.step >= 0 {
			for _, other := range b.Steps[m.step].Record.Sews {
				if other.V != n.Name {
					m.beside = append(m.beside, other.V)
				}
			}
		}
		out = append(out, m)
	}
	return out
}

// mostMade is how many seams and hems stand on the garment's own page; the rest stand
// on the page of its seams.
const mostMade = 22

// mostDrawn is how many there are at most for each to have its section beside it: with
// more of them the page would be heavy, and the page of the seams draws them.
const mostDrawn = 10

// howMade tells of each seam and hem how it was sewn, by which step, how long that took
// and on which days, each with a way to where it is told in full.
func howMade(d *Draft, b *notebook.BuildPage) {
	list := madeThings(b)
	if len(list) == 0 {
		return
	}
	steps, seen := toStep(b), map[string]*drawing.Drawing{}
	t := d.Table("", document.Words("seam or hem"), document.Words("section"), document.Words("how"),
		document.Figures("length"), document.Figures("took"), document.Words("when"))
	for i := range list[:min(len(list), mostMade)] {
		m := &list[i]
		t.RowOf(document.As(document.Strong, strconv.Itoa(m.Number)), document.Say(" "), document.Inline{Words: m.Name, Anchor: m.anchor})
		if len(list) > mostDrawn {
			t.Cell()
		} else {
			t.Cell(d.smallSection(m, seen))
		}
		t.Cell(append([]document.Inline{document.Lead(string(m.way.Address), m.kind.Title)}, d.sewnBelow(b, m, steps)...)...)
		t.Figures(m.length)
		d.tookOf(t, b, m)
		if m.step >= 0 {
			t.Cell(worked(b, b.Steps[m.step].ID)...)
		}
	}
	t.End()
	if len(list) <= mostDrawn {
		FacesLegend(d)
	}
	if more := len(list) - mostMade; more > 0 {
		d.Say(document.Inline{Words: "And " + strconv.Itoa(more) + " more", Anchor: list[mostMade].anchor}, document.Say("."))
	}
}

// sewnBelow says below the way of a seam whether it is sewn flat or in the round, and
// in which step.
func (d *Draft) sewnBelow(b *notebook.BuildPage, m *madeThing, steps func(string) document.Inline) []document.Inline {
	round, known := false, false
	if m.Finish {
		by, r := b.Together.FinishingOf(m.Name)
		round, known = r, by != nil
	} else if w := b.Together.SewingOf(m.Name); w != nil {
		round, known = w.Round, true
	}
	to := steps(m.StepID)
	switch {
	case to.Words == "":
		return nil
	case !known:
		return []document.Inline{document.As(document.Below, "in "), to}
	}
	return []document.Inline{document.As(document.Below, wayOfSewing(OnPage, round)+",\u00a0"), to}
}

// tookOf says how long the step of a seam took, and below it what was planned and what
// else it sewed in that time.
func (d *Draft) tookOf(t *document.TableDraft, b *notebook.BuildPage, m *madeThing) {
	if m.step < 0 {
		t.Cell()
		return
	}
	s := &b.Steps[m.step]
	var more []string
	took := document.Of(&s.Spent)
	if b.Timing != nil {
		at := b.Timing.Steps[m.step]
		if at.State != order.Done && !s.Spent.Value.Known() {
			took = document.As(document.Measured, "not yet")
		}
		if f := &at.Estimate.Figure; f.Value.Known() && f.ID != "" && f.Value.Number > 0 {
			words, _ := d.Two(f.Value)
			more = append(more, "planned "+words)
		}
	}
	if len(m.beside) > 0 {
		more = append(more, "with "+someOf(m.beside))
	}
	t.Cell(took, document.As(document.Below, strings.Join(more, ", ")))
}

// someOf names a few things, and says how many there are where they are many.
func someOf(names []string) string {
	const few = 2
	if len(names) <= few {
		return strings.Join(names, ", ")
	}
	return names[0] + " and " + strconv.Itoa(len(names)-1) + " more"
}

// worked are the days on which a step was worked on, each leading to its place in the
// journal; the year is said where they lie in several.
func worked(b *notebook.BuildPage, step string) (out []document.Inline) {
	form, last := dayForm(b), ""
	for i := range b.Journal {
		e := &b.Journal[i]
		if e.Step != step || step == "" {
			continue
		}
		words := e.When.Format(form)
		if words == last {
			continue
		}
		if last != "" {
			out = append(out, document.Say(", "))
		}
		out, last = append(out, document.Inline{Words: words, Anchor: e.Anchor}), words
	}
	return out
}

// dayForm is how days of a garment's work are written: with the year where they lie in
// several.
func dayForm(b *notebook.BuildPage) string {
	other := func(e notebook.Entry) bool { return e.When.Year() != b.Journal[0].When.Year() }
	if len(b.Journal) > 0 && slices.ContainsFunc(b.Journal, other) {
		return "2\u00a0Jan\u00a02006"
	}
	return "2\u00a0Jan"
}

// smallSection draws how a seam is sewn beside its name; a way that stands on the page
// already is led to there.
func (d *Draft) smallSection(m *madeThing, seen map[string]*drawing.Drawing) document.Inline {
	way := garment.Way{Type: m.kind, Measures: m.measures}
	key := sectionKey(&way)
	if first, known := seen[key]; known {
		if first == nil {
			return document.Inline{}
		}
		return document.Inline{Draw: func() *drawing.Drawing { return drawing.Repeat(first) }}
	}
	first := WaySmall(&way)
	if first == nil {
		seen[key] = nil
		return document.Inline{}
	}
	first.Shared("way-" + strconv.Itoa(len(seen)+1))
	seen[key] = first
	return document.Inline{Draw: func() *drawing.Drawing { return first }}
}
