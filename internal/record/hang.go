package record

import (
	"hembook/internal/fault"
	"hembook/internal/say"
)

// A Hang is how far a hem dropped while it hung. Its stations go once round
// the hem: along the edges in the order they are named, each as often as it is
// cut, from where it begins in its outline.
type Hang struct {
	At       fault.Pos     `yaml:"-"`
	Of       List[EdgeRef] `yaml:"of" must:"yes" about:"the hem: piece.edge, or several in order round it" eg:"skirt.hem"`
	On       Date          `yaml:"day" was:"on" about:"the day it was measured"`
	After    Duration      `yaml:"after" about:"how long it had hung" eg:"24 h"`
	Drops    List[Length]  `yaml:"drops" must:"yes" min:"-200" max:"500" about:"how far it dropped, place by place once round the hem; less than nothing where it rose" eg:"[0, 2, 5, 6, 3, 0, 2, 6]"`
	First    Length        `yaml:"first" min:"0" about:"how far along the hem the first place is (else where it begins)"`
	Stations List[Length]  `yaml:"places" was:"stations" min:"0" about:"how far along the hem each place is, where they are not evenly spaced"`
	Note     Text          `yaml:"note" about:"a remark"`
}

// checkHang looks whether a hem that hung is there and its stations agree.
func (c *buildCheck) checkHang() {
	for i := range c.b.Hang {
		h := &c.b.Hang[i]
		for _, e := range h.Of {
			c.wholeEdge(e)
			c.notOnLine(e)
		}
		if len(h.Stations) > 0 && len(h.Drops) > 0 && len(h.Stations) != len(h.Drops) {
			c.faults.Wrong(h.Stations[0].At, say.Of("record.write-one-drop-for-each-place-or"),
				say.Of("record.places-but-drops", len(h.Stations), len(h.Drops)))
		}
		if h.First.Given() && len(h.Stations) > 0 {
			c.faults.Wrong(h.First.At, say.Of("record.keep-one-of-them"), say.Of("record.places-says-where-each-of-them-is"))
		}
		if h.On.Given() && c.b.Begun.Given() && h.On.V.before(c.b.Begun.V) {
			c.faults.Wrong(h.On.At, say.Of("record.is-the-year-right"), say.Of("record.comes-before-the-garment-was-begun-on", h.On.V, c.b.Begun.V))
		}
	}
}
