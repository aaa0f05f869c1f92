package fitting

import "hembook/internal/record"

// A Judgement is what is said of the ease at a level.
type Judgement uint8

// The judgements.
const (
	NotJudged Judgement = iota // there is no ease, or none is asked for
	Enough                     // at least as much as is asked for
	Tight                      // less than is asked for
	Gives                      // less than is asked of woven cloth, and its cloth gives
	DrawnIn                    // narrower than the body, drawn in there
	Stretches                  // narrower than the body, and its cloth stretches so far
	TooNarrow                  // narrower than the body by more than its cloth stretches
	Untold                     // narrower than the body, and nobody says how far its cloth stretches
)

// judge says how the ease at a level is to be taken: in a cloth that gives by how far it
// stretches, and not by what woven cloth wants.
func (w *trial) judge(l *Level, body record.Length) Judgement {
	switch {
	case !l.Ease.Value.Known() || l.Least.ID == "":
		return NotJudged
	case l.Ease.Value.Number >= l.Least.Value.Number-1e-6 && l.Ease.Value.Number >= 0:
		return Enough
	case l.Most.ID != "" && l.Most.Value.Known() && l.Most.Value.Number < body.V.MM()-1e-6:
		return TooNarrow
	case !l.Enough && l.Ease.Value.Number < l.Least.Value.Number-1e-6:
		return Tight
	case !l.Enough:
		return TooNarrow
	case l.Ease.Value.Number >= 0:
		return Gives
	case l.Drawn:
		return DrawnIn
	case w.reaches(l, body):
		return Stretches
	}
	return Untold
}
