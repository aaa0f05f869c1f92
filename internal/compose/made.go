package compose

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/say"
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
	out = make([]madeThing, 0, len(b.Together.Numbered))
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

// howMade tells of each seam and hem how it was sewn, by which step, how long that took
// and on which days, each with a way to where it is told in full.
func howMade(d *Draft, b *notebook.BuildPage) {
	list := madeThings(b)
	if len(list) == 0 {
		return
	}
	m := making{Draft: d, page: b, steps: toStep(b), seen: map[string]*drawing.Drawing{}, told: map[int]int{}}
	m.measure(list)
	m.table = d.Table("", document.Words(say.Of("compose.seam-or-hem")), document.Words(say.Of("compose.section")), document.Words(say.Of("compose.how")),
		document.Figures(say.Of("compose.length")), document.Figures(say.Of("compose.took-2")), document.Words(say.Of("compose.of-planned-2")), document.Words(say.Of("compose.when")))
	for i := range list[:min(len(list), mostMade)] {
		m.row(&list[i])
	}
	m.table.End()
	if m.longest > 0 {
		d.Note(say.Of("compose.tape-the-time-planned-a-tick-every"))
	}
	FacesLegend(d)
	if more := len(list) - mostMade; more > 0 {
		d.Say(document.Inline{Words: say.Of("compose.and-more", strconv.Itoa(more)), Anchor: list[mostMade].anchor}, document.Say("."))
	}
}

// A making is the table of how a garment was made, being put together.
type making struct {
	*Draft
	page    *notebook.BuildPage
	table   *document.TableDraft
	steps   func(string) document.Inline
	seen    map[string]*drawing.Drawing // sections that stand in it
	told    map[int]int                 // by step: the number of the seam that tells its time
	longest time.Duration               // of what was planned or clocked
}

// row tells of one seam or hem.
func (d *making) row(m *madeThing) {
	t := d.table
	t.RowOf(document.As(document.Strong, strconv.Itoa(m.Number)), document.Say(" "), document.Inline{Words: m.Name, Anchor: m.anchor})
	t.Cell(d.smallSection(m, d.seen))
	t.Cell(append([]document.Inline{document.Lead(string(m.way.Address), m.kind.Title)}, d.sewnBelow(m)...)...)
	t.Figures(m.length)
	d.took(m)
	if m.step >= 0 {
		t.Cell(worked(d.page, d.page.Steps[m.step].ID)...)
	}
}

// sewnBelow says below the way of a seam whether it is sewn flat or in the round, and
// in which step.
func (d *making) sewnBelow(m *madeThing) []document.Inline {
	round, known := false, false
	if m.Finish {
		by, r := d.page.Together.FinishingOf(m.Name)
		round, known = r, by != nil
	} else if w := d.page.Together.SewingOf(m.Name); w != nil {
		round, known = w.Round, true
	}
	to := d.steps(m.StepID)
	switch {
	case to.Words == "":
		return nil
	case !known:
		return []document.Inline{document.As(document.Below, "in "), to}
	}
	return []document.Inline{document.As(document.Below, wayOfSewing(OnPage, round)+",\u00a0"), to}
}

// planned is what the step of a seam was planned to take; nil where nothing was.
func (d *making) planned(m *madeThing) *figure.Figure {
	if m.step < 0 || d.page.Timing == nil {
		return nil
	}
	if f := &d.page.Timing.Steps[m.step].Estimate.Figure; f.ID != "" && f.Value.Known() && f.Value.Number > 0 {
		return f
	}
	return nil
}

// times are what was planned for the step of a seam and what it took.
func (d *making) times(m *madeThing) (planned, clocked time.Duration) {
	if f := d.planned(m); f != nil {
		planned = time.Duration(f.Value.Number * float64(time.Minute))
	}
	if m.step >= 0 {
		if v := d.page.Steps[m.step].Spent.Value; v.Known() {
			clocked = time.Duration(v.Number * float64(time.Minute))
		}
	}
	return planned, clocked
}

// measure finds the longest time that the table has.
func (d *making) measure(list []madeThing) {
	for i := range list {
		planned, clocked := d.times(&list[i])
		d.longest = max(d.longest, planned, clocked)
	}
}

// took says how long the step of a seam took, and beside it what was planned. A time that
// several seams share is told once.
func (d *making) took(m *madeThing) {
	if m.step < 0 {
		d.table.Cell().Cell()
		return
	}
	if first, told := d.told[m.step]; told {
		d.table.Cell().Cell(document.As(document.Small, say.Of("compose.sewn-in-one-go-with-2", strconv.Itoa(first))))
		return
	}
	d.told[m.step] = m.Number
	s := &d.page.Steps[m.step]
	took := document.Of(&s.Spent)
	if d.page.Timing != nil && d.page.Timing.Steps[m.step].State != order.Done && !s.Spent.Value.Known() {
		took = document.As(document.Measured, say.Of("compose.not-yet"))
	}
	says := document.Inline{Voice: document.Small}
	if f := d.planned(m); f != nil {
		says.Words, _ = d.Two(f.Value)
	}
	if planned, clocked := d.times(m); d.longest > 0 {
		says.Draw = func() *drawing.Drawing { return draw.Tape(planned, clocked, d.longest) }
	}
	d.table.Cell(took).Cell(says)
}

// someOf names a few things, and says how many there are where they are many.
func someOf(names []string) string {
	const few = 2
	if len(names) <= few {
		return strings.Join(names, ", ")
	}
	return say.Of("compose.and-more-2", names[0], strconv.Itoa(len(names)-1))
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
