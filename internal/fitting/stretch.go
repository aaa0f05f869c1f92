package fitting

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// stretched works out how far a level that is narrower than the body is stretched on it,
// and how much wider it then stays.
func (w *trial) stretched(l *Level, base string) {
	if l.Most.ID == "" || !(l.Ease.Value.Known() && l.Ease.Value.Number < 0) {
		return
	}
	over := w.Of("body", &l.Drafted).Minus(w.Of("finished", &l.Finished))
	l.Worn = w.Figure(w.Join(base, ".worn"), say.Of("fitting.stretched-when-worn"), l.Name, over.Over(w.Of("finished", &l.Finished)), measure.UnitPercent,
		say.Of("fitting.body-finished-by-finished"), figure.Derived)
	back, ok := w.recovery(l)
	if !ok {
		return
	}
	l.Stays = w.Figure(w.Join(base, ".stays"), say.Of("fitting.wider-after-it-was-worn"), l.Name,
		over.Times(w.Number(1).Minus(w.Written("recovery", float64(back.V), measure.UnitPercent, back.At))), mm,
		say.Of("fitting.body-finished-times-what-does-not-go"), figure.Derived)
}

// recovery is the least of what the cloths at a level say that goes back of a stretch;
// false where one of them says nothing.
func (w *trial) recovery(l *Level) (least record.Percent, ok bool) {
	for _, p := range l.Pieces() {
		c := w.g.ClothOf(p)
		if c == nil || !c.Recovery.Given() {
			return least, false
		}
		if !least.Given() || c.Recovery.V < least.V {
			least = c.Recovery
		}
	}
	return least, least.Given()
}

// reaches reports whether a level is narrower than the body and its cloth stretches so
// far: then it is doubted no more.
func (w *trial) reaches(l *Level, body record.Length) bool {
	return l.Worn.ID != "" && l.Most.Value.Known() && l.Most.Value.Number >= body.V.MM()-1e-6
}

// tooFar tells of a level that is narrower than the body by more than its cloth
// stretches, or whose cloth does not stretch at all where it is meant to be narrower.
func (w *trial) tooFar(l *Level, body record.Length, least leastEase) bool {
	if !(l.Ease.Value.Number < 0) {
		return false
	}
	tape := w.tape()
	switch most := l.Most.Value; {
	case l.Most.ID != "" && most.Known() && most.Number < body.V.MM()-1e-6:
		w.faults.LookAgain(body.At, say.Of("fitting.widen-the-pieces-or-take-a-cloth"), say.Of("fitting.stretches-to-at-most-the-body-is", l.Name, tape.About(l.Finished.Value.Number), tape.About(most.Number), tape.Exact(body.V.MM())))
	case l.Most.ID == "" && !least.soft && least.known && least.V < 0 && !w.gives(l.Level):
		w.faults.LookAgain(least.At, say.Of("fitting.say-stretch-in-the-file-of-its"),
			say.Of("fitting.of-ease-and-its-cloth-does-not", l.Name, tape.About(l.Ease.Value.Number)))
	default:
		return false
	}
	l.Enough = false
	return true
}

// farAsked is how many times as much less than no ease as its cloth allows is asked for where
// a digit is likely to be wrong: own choice, no source.
const farAsked = 1.5

// askedTooFar asks about less than no ease from which the cloth could never stretch back to the
// body, whatever the pieces are.
func (w *trial) askedTooFar(l *Level, body record.Length, least leastEase) {
	if !l.Enough || !least.known || least.soft || least.V >= 0 || l.Most.ID == "" || !l.Most.Value.Known() || !l.Finished.Value.Known() {
		return
	}
	size, gives := body.V.MM(), l.Most.Value.Number/l.Finished.Value.Number
	from := size/gives - size
	if !(from < 0 && least.V < farAsked*from) {
		return
	}
	w.faults.LookAgain(least.At, say.Of("fitting.a-digit-too-many-ask-for-at", w.tape().About(from)), say.Of("fitting.of-ease-is-asked-for-and-a", l.Name, w.tape().Exact(least.V), w.tape().Exact(size)))
}
