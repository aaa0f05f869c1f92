package garment

import (
	"slices"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// laced adds to a width what lacing leaves open where the level ends: drawn together as it
// is worn, the edges do not meet. A level that comes back to itself has no such place.
func (w *levelReckoner) laced(l *Level, gap record.Length, base string, t figure.Term, rule string) (figure.Term, string) {
	if !gap.Given() {
		return t, rule
	}
	if !slices.ContainsFunc(l.Girths, func(g sewn.Girth) bool { return !g.Closed }) {
		w.faults.Wrong(gap.At, say.Of("garment.leave-gap-out-or-leave-the-edges-open"), say.Of("garment.nothing-is-open-at-so-no-lacing", l.Name)).Without(gap.At)
		return t, rule
	}
	l.Gap = w.Figure(w.Join(base, ".gap"), say.Of("garment.gap-of-its-lacing"), l.Name, w.Length("gap", gap), mm, say.Of("garment.as-the-record-says-laced-as-it-is-worn"), figure.Recorded)
	return t.Plus(w.Of("gap", &l.Gap)), say.Of("garment.and-the-gap-of-its-lacing", rule)
}
