package record

import "hembook/internal/fault"

// Remeasured is what a finished garment measured at a later day: a hip that was taken in,
// a hem that grew.
type Remeasured struct {
	At       fault.Pos    `yaml:"-"`
	On       Date         `yaml:"day" must:"yes" about:"the day it was measured again"`
	Because  Spoken       `yaml:"because" about:"what was done to it, or became of it" eg:"taken in at the side seams"`
	Measured Dict[Length] `yaml:"measured" must:"yes" about:"what it measures now, by the name of the level or length"`
}

// LaterAt is the newest later reading of a level, and its length; nil where there is none.
func (b *Build) LaterAt(level string) (newest *Remeasured, is Length) {
	for i := range b.Later {
		one := &b.Later[i]
		if l, ok := AtLevel(one.Measured, level); ok && l.Given() && (newest == nil || !one.On.V.before(newest.On.V)) {
			newest, is = one, l
		}
	}
	return newest, is
}

// checkLater looks whether later readings are later.
func (c *buildCheck) checkLater() {
	for i := range c.b.Later {
		day := c.b.Later[i].On
		for _, was := range []Date{c.b.Begun, c.b.Sent} {
			if day.Given() && was.Given() && day.V.before(was.V) {
				c.faults.Errorf(day.At, "what it measured at first stands under measured:", "%s is not later: the garment was begun or sent on %s", day.V, was.V)
				break
			}
		}
	}
}
