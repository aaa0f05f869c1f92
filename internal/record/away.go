package record

import (
	"time"

	"hembook/internal/say"
)

// away looks at what was done on a garment while it was in the mail, or with the one who
// tried it on: nothing that needs it can have been.
func (c *buildCheck) away() {
	for i := range c.b.Fittings {
		f := &c.b.Fittings[i]
		switch {
		case !f.Posted.Given() && f.Back.Given():
			c.faults.LookAgain(f.Back.At, say.Of("record.add-posted-and-the-day"), say.Of("record.it-came-back-on-and-nothing-says", f.Back.V))
		case f.Back.Given() && f.Back.V.before(f.Posted.V):
			c.faults.Wrong(f.Back.At, say.Of("record.is-one-of-the-two-days-right"), say.Of("record.it-came-back-on-before-it-was", f.Back.V, f.Posted.V))
		case f.Posted.Given() && f.On.Given() && f.On.V.before(f.Posted.V):
			c.faults.LookAgain(f.Posted.At, say.Of("record.is-one-of-the-two-days-right"), say.Of("record.it-was-posted-on-after-the-fitting", f.Posted.V, f.On.V))
		case f.Posted.Given():
			c.sewnAway(f)
		}
	}
}

// sewnAway names the entries of the journal that sew or handle pieces after the day it was
// posted and before the day it came back. Where it is still away, there is no such day yet.
func (c *buildCheck) sewnAway(f *Fitting) {
	for i := range c.b.Journal {
		e := &c.b.Journal[i]
		day := madeOn(e.When.V)
		if !f.Posted.V.before(day) || f.Back.Given() && !day.before(f.Back.V) {
			continue
		}
		if s := c.b.stepNamed(e.Did.V); s != nil && (len(s.Sews) > 0 || s.Pieces.Given()) {
			back := say.Of("record.is-not-back")
			if f.Back.Given() {
				back = say.Of("record.came-back-on", f.Back.V.String())
			}
			c.faults.LookAgain(e.When.At, say.Of("record.correct-this-day-or-posted-and-back"), say.Of("record.on-it-was-posted-on-and", s.Do.V, day, f.Posted.V, back))
		}
	}
}

// madeOn is the day of a moment.
func madeOn(t time.Time) Day { return Day{t.Year(), t.Month(), t.Day()} }

// stepNamed is the step of that name as one word; nil where there is none.
func (b *Build) stepNamed(id string) *Step {
	for i := range b.Work {
		if id != "" && b.Work[i].StepID() == id {
			return &b.Work[i]
		}
	}
	return nil
}
