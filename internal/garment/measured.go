package garment

import (
	"math"

	"hembook/internal/measure"
	"hembook/internal/record"
)

// lengths adds up the finished lengths along named edges.
func (w *work) lengths() {
	slugs := namesFor(len(w.b.Lengths))
	for i := range w.b.Lengths {
		r := &w.b.Lengths[i]
		l := &Length{Name: r.Name.V}
		base := w.join("length.", slugs.unique(r.Name.V))
		sum, why := 0.0, ""
		var edges []*PieceEdge
		for _, ref := range r.Along {
			use, ok := w.use(ref)
			if !ok {
				why = "an edge of it is not there"
				continue
			}
			w.figureIn(use.Edge.ref, &use.Edge.Sewn)
			if !use.Edge.Sewn.Value.Known() {
				why = "the length of " + use.Edge.ref + " is not known"
			}
			edges = append(edges, use.Edge)
		}
		for k, e := range edges {
			if k > 0 {
				w.s(" + ")
			}
			w.n(e.sewn)
			sum += e.sewn
		}
		w.s(" = ").mm(sum)
		v := inMM(sum)
		if why != "" {
			v = unknown(why)
		} else if len(edges) == 0 {
			v = unknown("no edge of it is named")
		}
		l.Finished = w.figure(w.join(base, ".finished"), "finished length", l.Name, v, "sum of the sewn lengths of its edges", derived)
		l.Measured, l.Off, l.Within = w.compared(base, l.Name, &l.Finished, record.Length{})
		w.g.Lengths = append(w.g.Lengths, l)
	}
}

// measured sets a level beside what was measured on the garment.
func (w *work) measured(l *Level, base string) {
	spec, _ := w.b.Levels.Get(l.Name)
	l.Measured, l.Off, l.Within = w.compared(base, l.Name, &l.Finished, spec.Tolerance)
}

func (w *work) compared(base, name string, finished *Figure, tolerance record.Length) (got, off Figure, within bool) {
	m, ok := w.b.Measured.Get(name)
	if !ok || !m.Given() {
		return Figure{}, Figure{}, false
	}
	tol := w.t.usual.within
	if tolerance.Given() {
		tol = setting{tolerance.V.MM(), tolerance.At, recorded}
	}
	w.lengthIn("measured", m)
	w.mm(m.V.MM())
	got = w.figure(w.join(base, ".measured"), "as measured", name, inMM(m.V.MM()), "as the record says", recorded)
	got.Value.Exact = true
	w.figureIn("measured", &got).figureIn("planned", finished)
	tol.input(&w.ink, "tolerance", measure.UnitMM)
	const rule = "measured − planned; it should be at most the tolerance either way"
	id := w.join(base, ".off")
	if !finished.Value.Known() {
		return got, w.figure(id, "off the plan by", name, unknown("what was planned is not known"), rule, practice), false
	}
	d := m.V.MM() - finished.Value.Number
	w.n(m.V.MM()).s(" − ").n(finished.Value.Number).s(" = ").mm(d)
	off = w.figure(id, "off the plan by", name, inMM(d), rule, practice)
	within = math.Abs(d) <= tol.v+1e-6
	if !within {
		word := "more"
		if d < 0 {
			word = "less"
		}
		w.faults.Warnf(m.At, "measure again, or change the plan", "%q measures %s, %s %s than the %s planned", name, mmText(m.V.MM()), text1(math.Abs(d)), word, text1(finished.Value.Number))
	}
	return got, off, within
}
