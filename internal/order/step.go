package order

import (
	"slices"
	"time"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// steps works out how far every step has come, its time spent, metres and rate
// (figure 21, for one build).
func (w *bookkeeper) steps() {
	room := make([]Step, len(w.b.Work))
	w.o.Steps = make([]*Step, len(room))
	slugs := words.NamesFor(len(room))
	entries := w.entries()
	for i := range w.b.Work {
		r, s := &w.b.Work[i], &room[i]
		w.o.Steps[i] = s
		s.Record, s.ID = r, r.StepID()
		s.base = w.Join("step.", slugs.Unique(s.ID))
		s.entries = entries[s.ID]
		s.spells = spellsOf(s.entries)
	}
	w.progress()
	for i, s := range w.o.Steps {
		w.spent(s)
		w.metres(s, s.base, i)
		w.rate(s, s.base)
	}
	w.groups()
}

// entries gathers the journal's entries by step.
func (w *bookkeeper) entries() map[string][]*record.Entry {
	out := make(map[string][]*record.Entry, len(w.b.Work))
	for i := range w.b.Journal {
		if e := &w.b.Journal[i]; e.Did.Given() && (e.For.Given() || e.Done.V) {
			out[e.Did.V] = append(out[e.Did.V], e)
		}
	}
	return out
}

func (w *bookkeeper) spent(s *Step) {
	var terms []figure.Term
	for _, e := range s.entries {
		if e.For.Given() {
			terms = append(terms, w.Written(e.When.V.Format(time.DateOnly), e.For.V.Minutes(), measure.UnitMin, e.For.At))
		}
	}
	s.Spent = w.Figure(w.Join(s.base, ".spent"), say.Of("order.time-spent"), s.ID, w.SumOr(say.Of("order.no-time-is-noted-for-it"), terms), measure.UnitMin, say.Of("order.of-the-times-noted-for-it"), figure.Derived)
}

// metres adds up the rows that a step sews, each line once: a row beside a seam is a line of
// its own.
func (w *bookkeeper) metres(s *Step, base string, i int) {
	rows := w.g.SewnIn(i)
	if len(rows) == 0 && !sewsLines(s.Record) {
		return
	}
	terms := make([]figure.Term, len(rows))
	for k, r := range rows {
		f := r.Length
		t := w.Of(r.Called(), f)
		if !f.Value.Known() {
			t = t.Unless(say.Of("order.the-length-of-is-not-known", f.Of))
		}
		if r.OwnLines() {
			t = t.By(float64(r.Rows))
		}
		terms[k] = t
	}
	s.Metres = w.Figure(w.Join(base, ".metres"), say.Of("order.length-sewn"), s.ID, w.SumOr(say.Of("order.nothing-it-sews-is-there"), terms), measure.UnitM, say.Of("order.of-the-seams-finishes-darts-and-pleats-2"), figure.Derived)
}

// sewsLines reports whether a step sews lines, which buttonholes are none of.
func sewsLines(r *record.Step) bool {
	return slices.ContainsFunc(r.Sews, func(name record.Text) bool { return name.V != record.SewsHoles })
}

// rate is minutes per metre, or per piece.
func (w *bookkeeper) rate(s *Step, base string) {
	if !s.Spent.Value.Known() {
		return
	}
	id, spent := w.Join(base, ".rate"), w.Of("spent", &s.Spent)
	unit, rule := measure.UnitMinPerM, say.Of("order.time-spent-by-metres-sewn")
	var by figure.Term
	switch {
	case s.Record.Pieces.Given() && s.Record.Pieces.V > 0:
		unit, rule = measure.UnitMinPerPiece, say.Of("order.time-spent-by-pieces")
		by = w.Written("pieces", float64(s.Record.Pieces.V), measure.UnitCount, s.Record.Pieces.At)
	case s.Metres.ID != "" && s.Metres.Value.Known() && s.Metres.Value.Number > 0:
		by = w.Of("metres", &s.Metres)
	}
	switch {
	case s.State == Begun && (s.Record.Pieces.Given() || s.Metres.ID != ""):
		s.Rate = w.Figure(id, "rate", s.ID, spent.Unless(say.Of("order.it-is-not-finished", s.Why)), unit, say.Of("order.time-spent-by-what-was-done-in"), figure.Derived)
	case by.Given():
		s.Rate = w.Figure(id, "rate", s.ID, spent.Over(by), unit, rule, figure.Derived)
	}
}

// A Step is an operation with what is known of its time.
type Step struct {
	Record *record.Step
	ID     string
	Spent  figure.Figure // clocked; not known where nothing is
	Metres figure.Figure // length of seam it sews; not set where none
	Rate   figure.Figure // minutes per metre, or per piece; not known while it is not finished, not set where nothing can be said
	State  StepState
	Why    string    // what its state is taken from, in words
	At     fault.Pos // where that is written, if in one place

	base    string          // what its IDs begin with: "step.hem"
	entries []*record.Entry // of the journal, with or without a time
	spells  []Spell         // when it was worked on
}

// A TimeGroup is the steps of one stage, or of one technique.
type TimeGroup struct {
	Name  string // of the stage, or the technique's slug
	Steps []*Step
	Spent figure.Figure // clocked; not known where nothing is
}
