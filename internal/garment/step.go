package garment

import (
	"time"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// steps works out how far every step has come, its time spent, metres and rate
// (figure 21, for one build).
func (w *work) steps() {
	room := make([]Step, len(w.b.Work))
	w.g.Steps = make([]*Step, len(room))
	slugs := namesFor(len(room))
	entries := w.entries()
	for i := range w.b.Work {
		r, s := &w.b.Work[i], &room[i]
		w.g.Steps[i] = s
		s.Record, s.ID = r, r.StepID()
		s.base = w.join("step.", slugs.unique(s.ID))
		s.entries = entries[s.ID]
		s.stretches = stretchesOf(s.entries)
	}
	w.progress()
	for _, s := range w.g.Steps {
		w.spent(s)
		w.metres(s, s.base)
		w.rate(s, s.base)
	}
	w.groups()
}

// entries gathers the journal's entries by step.
func (w *work) entries() map[string][]*record.Entry {
	out := make(map[string][]*record.Entry, len(w.b.Work))
	for i := range w.b.Journal {
		if e := &w.b.Journal[i]; e.Did.Given() && (e.For.Given() || e.Done.V) {
			out[e.Did.V] = append(out[e.Did.V], e)
		}
	}
	return out
}

func (w *work) spent(s *Step) {
	id := w.join(s.base, ".spent")
	const rule = "Σ of the times clocked for it"
	var room [8]*record.Entry
	entries := room[:0]
	for _, e := range s.entries {
		if !e.For.Given() {
			continue
		}
		entries = append(entries, e)
		w.note(Input{Name: e.When.V.Format(time.DateOnly), Value: w.n(e.For.V.Minutes()).s(" min").end(), At: e.For.At})
	}
	if len(entries) == 0 {
		s.Spent = w.figure(id, "time spent", s.ID, unknown("nothing is clocked for it"), rule, derived)
		return
	}
	sum := 0.0
	for i, e := range entries {
		if i > 0 {
			w.s(" + ")
		}
		m := e.For.V.Minutes()
		w.n(m)
		sum += m
	}
	w.s(" = ").n(sum).s(" min")
	s.Spent = w.figure(id, "time spent", s.ID, valueIn(sum, measure.UnitMin), rule, derived)
}

// metres adds up the seams and finishes a step sews.
func (w *work) metres(s *Step, base string) {
	if len(s.Record.Sews) == 0 {
		return
	}
	var room [8]*Figure
	found := w.sewnBy(s, room[:0])
	sum, why := 0.0, ""
	for _, f := range found {
		w.figureIn(f.Of, f)
		if !f.Value.Known() {
			why = "the length of " + f.Of + " is not known"
		}
	}
	for i, f := range found {
		if i > 0 {
			w.s(" + ")
		}
		w.n(f.Value.Number)
		sum += f.Value.Number
	}
	v := valueIn(sum, measure.UnitM)
	w.s(" = ").n(sum).s(" m")
	if why == "" && len(found) == 0 {
		why = "nothing it sews is there"
	}
	if why != "" {
		v = unknown(why)
	}
	s.Metres = w.figure(w.join(base, ".metres"), "length sewn", s.ID, v, "Σ of the seams and finishes it sews", derived)
}

// sewnBy adds the totals of the seams and finishes a step sews.
func (w *work) sewnBy(s *Step, found []*Figure) []*Figure {
	for _, name := range s.Record.Sews {
		for _, seam := range w.g.Seams {
			if seam.Name == name.V {
				found = append(found, &seam.Total)
			}
		}
		for _, f := range w.g.Finishes {
			if f.Name == name.V {
				found = append(found, &f.Total)
			}
		}
	}
	return found
}

// rate is minutes per metre, or per piece.
func (w *work) rate(s *Step, base string) {
	if !s.Spent.Value.Known() {
		return
	}
	id, spent := w.join(base, ".rate"), s.Spent.Value.Number
	if s.State == Begun && (s.Record.Pieces.Given() || s.Metres.ID != "") {
		s.Rate = w.figure(id, "rate", s.ID, unknown("it is not finished: "+s.Why), "time spent ÷ what was done in it", derived)
		return
	}
	switch {
	case s.Record.Pieces.Given() && s.Record.Pieces.V > 0:
		n := float64(s.Record.Pieces.V)
		w.figureIn("spent", &s.Spent).note(Input{Name: "pieces", Value: w.n(n).end(), At: s.Record.Pieces.At})
		w.n(spent).s(" min ÷ ").n(n).s(" = ").n(spent / n).s(" min/piece")
		s.Rate = w.figure(id, "rate", s.ID, valueIn(spent/n, measure.UnitMinPerPiece), "time spent ÷ pieces", derived)
	case s.Metres.ID != "" && s.Metres.Value.Known() && s.Metres.Value.Number > 0:
		m := s.Metres.Value.Number
		w.figureIn("spent", &s.Spent).figureIn("metres", &s.Metres)
		w.n(spent).s(" min ÷ ").n(m).s(" m = ").n(spent / m).s(" min/m")
		s.Rate = w.figure(id, "rate", s.ID, valueIn(spent/m, measure.UnitMinPerM), "time spent ÷ metres sewn", derived)
	}
}
