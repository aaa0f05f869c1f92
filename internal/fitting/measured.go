package fitting

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// lengths adds up the finished lengths along named edges.
func (w *trial) lengths() {
	slugs := words.NamesFor(len(w.b.Lengths))
	for i := range w.b.Lengths {
		r := &w.b.Lengths[i]
		l := &Length{Name: r.Name.V}
		base := w.Join("length.", slugs.Unique(r.Name.V))
		why := ""
		var terms []figure.Term
		for _, ref := range r.Along {
			list := w.g.EdgesOf(ref)
			if len(list) == 0 {
				why = say.Of("fitting.an-edge-of-it-is-not-there")
			}
			for _, use := range list {
				terms = append(terms, use.Edge.SewnOn(w.Pad))
			}
		}
		t := w.SumOr(say.Of("fitting.no-edge-of-it-is-named"), terms).Unless(why)
		l.Finished = w.Figure(w.Join(base, ".finished"), say.Of("fitting.finished-length"), l.Name, t, mm, say.Of("fitting.sum-of-the-sewn-lengths-of-its"), figure.Derived)
		l.Measured, l.Off, l.Within = w.compared(base, l.Name, &l.Finished, record.Length{})
		w.out.Lengths = append(w.out.Lengths, l)
	}
}

// measured sets a level beside what was measured on the garment.
func (w *trial) measured(l *Level, base string) {
	spec, _ := record.AtLevel(w.b.Levels, l.Name)
	l.Measured, l.Off, l.Within = w.compared(base, l.Name, &l.Finished, spec.Tolerance)
}

func (w *trial) compared(base, name string, finished *figure.Figure, tolerance record.Length) (got, off figure.Figure, within bool) {
	m, ok := record.AtLevel(w.b.Measured, name)
	if !ok || !m.Given() {
		return figure.Figure{}, figure.Figure{}, false
	}
	tol := w.t.within
	if tolerance.Given() {
		tol = figure.Setting{V: tolerance.V.MM(), At: tolerance.At, Source: figure.Recorded}
	}
	got = w.Figure(w.Join(base, ".measured"), "measured", name, w.Length("measured", m), mm, say.Of("fitting.as-the-record-says"), figure.Recorded)
	got.Value.Exact = true
	planned := w.Of("planned", finished)
	if !planned.Known() {
		planned = planned.Unless(say.Of("fitting.what-was-planned-is-not-known"))
	}
	t := w.Of("measured", &got).Minus(planned)
	w.Note(tol.Term(w.Pad, "tolerance", mm))
	off = w.Figure(w.Join(base, ".off"), "difference", name, t, mm, say.Of("fitting.measured-planned-it-should-be-at-most"), figure.Practice)
	if !off.Value.Known() {
		return got, off, false
	}
	d := off.Value.Number
	within = math.Abs(d) <= tol.V+1e-6
	if !within {
		word := "larger"
		if d < 0 {
			word = "smaller"
		}
		w.faults.LookAgain(m.At, say.Of("fitting.measure-again-or-note-it-for-the"), say.Of("fitting.came-out-than-planned", name, w.tape().About(math.Abs(d)), word, w.tape().Number(m.V.MM()), w.tape().Number(finished.Value.Number)))
	}
	return got, off, within
}
