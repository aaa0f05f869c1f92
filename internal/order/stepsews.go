package order

import "hembook/internal/sewn"

// A StepSewing is a step that is the first to sew something.
type StepSewing struct {
	Step int // in the turn of the steps, from 1
	ID   string
}

// StepsThatSew lists the steps that are the first to sew something, in their
// turn.
func (t *Together) StepsThatSew() []StepSewing {
	var out []StepSewing
	for _, n := range t.Numbered { // numbered in the steps' turn
		if n.Step > 0 && (len(out) == 0 || out[len(out)-1].Step != n.Step) {
			out = append(out, StepSewing{n.Step, n.StepID})
		}
	}
	return out
}

// StepOfSeam is the step that sews a seam of the surface's plan first; 0 where
// none does.
func (t *Together) StepOfSeam(seam int) int { return t.stepOf(t.NumberOfSeam(seam)) }

// StepOfFinish is the step that sews a finish first; 0 where none does.
func (t *Together) StepOfFinish(name string) int { return t.stepOf(t.NumberOfFinish(name)) }

func (t *Together) stepOf(number int) int {
	if number == 0 {
		return 0
	}
	return t.Numbered[number-1].Step
}

// SewsItAlone reports whether the step that sews a seam or finish sews nothing
// beside it, nor sets a zip or buttons into it: only then is its rate that of the
// seam.
func (t *Together) SewsItAlone(k Numbered) bool {
	for _, o := range t.Numbered {
		if o.Number != k.Number && o.StepID == k.StepID {
			return false
		}
	}
	for i := range t.Sewn.Joins {
		j := &t.Sewn.Joins[i]
		if !k.Finish && j.Kind == sewn.Closing && t.NumberOfSeam(j.Seam) == k.Number {
			return false
		}
	}
	return true
}
