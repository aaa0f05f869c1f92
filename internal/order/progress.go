package order

import (
	"cmp"
	"slices"
	"time"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A StepState says how far a step has come.
type StepState uint8

// The states of a step.
const (
	ToDo   StepState = iota // not begun
	Begun                   // begun and laid aside
	InHand                  // its clock is running
	Done                    // over, but for what passes afterwards without labour
)

// String names a state in words.
func (s StepState) String() string {
	return [...]string{say.Of("order.to-do"), say.Of("order.under-way"), say.Of("order.under-way"), "done"}[min(s, Done)]
}

// A Spell is a time during which a step was worked on, or may be.
type Spell struct{ From, To time.Time }

// spellsOf lists when entries say that work went on.
func spellsOf(entries []*record.Entry) []Spell {
	if len(entries) == 0 {
		return nil
	}
	out := make([]Spell, 0, len(entries))
	for _, e := range entries {
		if e.When.Given() && e.For.V > 0 {
			out = append(out, Spell{e.When.V, e.When.V.Add(e.For.V)})
		}
	}
	return out
}

// wholeDay reports whether an entry says the day alone: midnight is written
// the same way, and is no hour for sewing.
func wholeDay(t time.Time) bool {
	h, m, s := t.Clock()
	return h == 0 && m == 0 && s == 0
}

// progress finds out how far every step has come. A record seldom says it
// outright, so what it does say is weighed: a step is over when its build is,
// when the journal says so, when something that needs it was worked on after
// it, or when as much time went into it as was planned.
func (w *bookkeeper) progress() {
	steps := w.o.Steps
	byID := make(map[string]int, len(steps))
	for i, s := range steps {
		byID[s.ID] = i
	}
	followed := w.followed(byID)
	for i, s := range steps {
		w.weigh(s, followed[i])
	}
	w.waits(byID)
}

// last is when a step was last worked on; the zero time where it never was.
func (s *Step) last() time.Time {
	var last time.Time
	for _, e := range s.entries {
		if e.When.V.After(last) {
			last = e.When.V
		}
	}
	return last
}

// followed gives for every step the step that needs it, near or far, and was
// worked on last; nil where none was.
func (w *bookkeeper) followed(byID map[string]int) []*Step {
	out := make([]*Step, len(w.o.Steps))
	var mark func(of *record.Step, by *Step)
	mark = func(of *record.Step, by *Step) {
		for _, a := range of.After {
			if k, ok := byID[a.V]; ok && out[k] == nil {
				out[k] = by
				mark(w.o.Steps[k].Record, by)
			}
		}
	}
	worked := make([]*Step, 0, len(w.o.Steps))
	for _, s := range w.o.Steps {
		if len(s.entries) > 0 {
			worked = append(worked, s)
		}
	}
	slices.SortStableFunc(worked, func(a, b *Step) int { return -cmp.Compare(a.last().Unix(), b.last().Unix()) })
	for _, s := range worked {
		mark(s.Record, s)
	}
	return out
}

// weigh says how far one step has come by what is written of it.
func (w *bookkeeper) weigh(s *Step, followed *Step) {
	spent := time.Duration(0)
	for _, e := range s.entries {
		spent += e.For.V
		if e.Done.V {
			s.State, s.Why, s.At = Done, say.Of("order.the-journal-says-that-it-is-done"), e.Done.At
			return
		}
	}
	takes, state := s.Record.Takes, w.b.State
	switch {
	case state.V == "packed" || state.V == "sent":
		s.State, s.Why, s.At = Done, w.Join("the garment is ", state.V), state.At
	case len(s.entries) == 0:
		s.State, s.Why = ToDo, say.Of("order.no-time-is-noted-for-it")
	case followed != nil && followed != s && !followed.last().Before(s.last()):
		s.State, s.Why, s.At = Done, w.Join(followed.ID, ", which needs it, was worked on after it"), followed.entries[len(followed.entries)-1].At
	case !takes.Given():
		s.State, s.Why = Done, say.Of("order.time-is-noted-for-it-and-none")
	case spent >= takes.V:
		s.State, s.Why, s.At = Done, say.Of("order.it-took-as-long-as-planned-or"), takes.At
	default:
		s.State, s.Why, s.At = Begun, say.Of("order.not-sure-it-is-done-less-time-2"), takes.At
	}
}

// waitsOnly reports whether a step asks for nobody's hands: it only lets time
// pass.
func (s *Step) waitsOnly() bool {
	r := s.Record
	if r.Takes.Given() {
		return r.Takes.V == 0
	}
	return r.Wait.Given() && len(r.Sews) == 0 && !r.Pieces.Given()
}

// waits finds the steps that only let time pass and whose needs are all done:
// their time runs by itself.
func (w *bookkeeper) waits(byID map[string]int) {
	for changed := true; changed; {
		changed = false
		for _, s := range w.o.Steps {
			if s.State == ToDo && s.waitsOnly() && len(s.Record.After) > 0 && w.allDone(s, byID) {
				s.State, s.Why, changed = Done, say.Of("order.it-only-lets-time-pass-and-what"), true
			}
		}
	}
}

func (w *bookkeeper) allDone(s *Step, byID map[string]int) bool {
	for _, a := range s.Record.After {
		if k, ok := byID[a.V]; !ok || w.o.Steps[k].State != Done {
			return false
		}
	}
	return true
}

// groups adds up the time spent by stage and by technique.
func (w *bookkeeper) groups() {
	g := w.o
	g.Stages = w.group("stage.", say.Of("order.time-spent-by-stage"), func(r *record.Step) record.Text { return r.Stage })
	g.Ways = w.group("technique.", say.Of("order.time-spent-by-technique"), func(r *record.Step) record.Text { return r.Technique })
}

func (w *bookkeeper) group(prefix, title string, of func(*record.Step) record.Text) []*TimeGroup {
	var out []*TimeGroup
	for _, s := range w.o.Steps {
		name := of(s.Record)
		if !name.Given() {
			continue
		}
		k := 0
		for k < len(out) && out[k].Name != name.V {
			k++
		}
		if k == len(out) {
			out = append(out, &TimeGroup{Name: name.V})
		}
		out[k].Steps = append(out[k].Steps, s)
	}
	slugs := words.NamesFor(len(out))
	for _, t := range out {
		w.groupSpent(t, w.Join(prefix, slugs.Unique(t.Name), ".spent"), title)
	}
	return out
}

func (w *bookkeeper) groupSpent(t *TimeGroup, id, title string) {
	var terms []figure.Term
	for _, s := range t.Steps {
		if s.Spent.Value.Known() {
			terms = append(terms, w.Of(s.ID, &s.Spent))
		}
	}
	t.Spent = w.Figure(id, title, t.Name, w.SumOr(say.Of("order.no-time-is-noted-for-its-steps"), terms), measure.UnitMin, say.Of("order.of-the-time-spent-on-its-steps"), figure.Derived)
}
