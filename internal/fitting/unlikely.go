package fitting

import (
	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// What ease nobody drafts, as parts of the body: tighter even a knit is seldom, wider
// not even a circle skirt at the hip (common practice, no source).
const (
	tightest = -0.3
	widest   = 5
)

// unlikely warns of a size drafted for that no body has, and of ease that nobody can
// have meant. It reports whether it did.
func (w *trial) unlikely(l *Level, body record.Length) bool {
	if w.b.NotUnit {
		return true // told by itself
	}
	mm, ease := body.V.MM(), l.Ease.Value.Number
	who := trade.WhoIs(w.b.For.Who.V)
	if level, _ := trade.Plausible(l.Name, mm, who); level == trade.Wrong {
		for _, times := range [...]float64{10, 0.1, 25.4, 1 / 25.4} {
			if level, _ := trade.Plausible(l.Name, times*mm, who); level == trade.Fits {
				now := w.tape().Exact(times * mm)
				w.faults.Warnf(body.At, "did you mean "+now+"?", "a %s of %s cannot be a body's", l.Name, w.tape().Exact(mm)).InsteadAt(body.At, "", now)
				return true
			}
		}
	}
	if mm <= 0 || ease > tightest*mm && ease < widest*mm {
		return false
	}
	side := "widen them, or is a piece missing there, or cut too seldom?"
	if ease > 0 {
		side = "is the unit of the outlines right, or a piece cut too often?"
	}
	w.faults.Warnf(body.At, side, "%s: the pieces come to %s, you drafted for %s: that is %s of ease", words.Plain(l.Name), w.tape().About(l.Finished.Value.Number), w.tape().Exact(mm), w.tape().About(ease))
	return true
}
