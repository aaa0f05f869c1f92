package fitting

import (
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// What ease nobody drafts, as parts of the body: tighter even a knit is seldom, wider
// not even a circle skirt at the hip (common practice, no source).
const (
	tightest = -0.3
	widest   = 5
)

// unlikely warns of ease that nobody can have meant. It reports whether it did.
func (w *trial) unlikely(l *Level, body record.Length) bool {
	if w.b.NotUnit {
		return true // told by itself
	}
	mm, ease := body.V.MM(), l.Ease.Value.Number
	if mm <= 0 || ease > tightest*mm && ease < widest*mm {
		return false
	}
	side := say.Of("fitting.widen-them-or-is-a-piece-missing")
	if ease > 0 {
		side = say.Of("fitting.is-the-unit-of-the-outlines-right")
	}
	w.faults.LookAgain(body.At, side, say.Of("fitting.the-pieces-come-to-you-drafted-for", words.Plain(l.Name), w.tape().About(l.Finished.Value.Number), w.tape().Exact(mm), w.tape().About(ease)))
	return true
}
