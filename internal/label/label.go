// Package label works out what a garment's label and its packet must say: how it
// is cared for, what it is made of, under which heading it passes the customs, and
// what to be careful of, on a child's garment above all.
package label

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/words"
)

// A Labeller knows what holds for the labels of all builds of a workroom. It does
// not change, and many goroutines may use it at once.
type Labeller struct {
	room   *record.Room
	tailor *garment.Tailor
	warner *warner
}

// A Label is what was looked at for every garment, whoever asks.
type Label struct {
	Cautions []Caution     // what the record says to be careful of
	Children []ChildMatter // what was looked at because it is for a child
}

// A reading is one garment being looked at.
type reading struct {
	*figure.Pad
	t      *Labeller
	b      *record.Build
	g      *garment.Garment
	out    *Label
	faults fault.Faults
	child  witness // who a child's garment is for
}

// tape prints lengths in the record's unit.
func (w *reading) tape() words.Tape { return words.Tape(w.t.room.UnitOf(w.b)) }

// New prepares a workroom's labeller and checks what concerns no single build:
// the fibres of its cloths, and the cautions its techniques name.
func New(room *record.Room, tailor *garment.Tailor) (*Labeller, []fault.Fault) {
	t := &Labeller{room: room, tailor: tailor, warner: newWarner(room)}
	var faults fault.Faults
	t.check(&faults)
	return t, faults.Sorted()
}

func (t *Labeller) reading(g *garment.Garment) *reading {
	return &reading{Pad: figure.NewPad(t.room.Workroom.Style()), t: t, b: g.Build, g: g, out: &Label{}}
}

// Derive looks at what a garment's record calls for, and says what is wrong.
func (t *Labeller) Derive(g *garment.Garment) (*Label, []fault.Fault) {
	w := t.reading(g)
	w.children()
	w.cautions()
	return w.out, w.faults.Sorted()
}

// sum adds up figures of the build.
func (w *reading) sum(id, title string, unit measure.Unit, figures []*figure.Figure, empty, rule string) figure.Figure {
	return w.Total(id, title, w.b.Name.V, unit, figures, empty, rule)
}
