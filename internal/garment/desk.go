package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/trade"
)

// A desk is where each reckoner of a garment writes: figures on the pad, what is wrong
// with the record, and lengths in the record's own unit.
type desk struct {
	*figure.Pad
	faults fault.Faults
	unit   measure.Unit
}

// An index finds the pieces of a garment by their names, the edges and seams that the
// garment put together speaks of, and what is cut and sewn to them.
type index struct {
	*desk
	named   map[string]*Piece
	notions []record.Notion
	uses    record.Dict[record.ClothUse] // by the part that a cloth plays
	shelf   *record.Room
	g       *Garment // as far as it is derived
	left    handing  // of what is there at both sides, which copies are the left ones; nil where no record names one
}

// A stitching gathers the rows of stitching of a garment, by which thread each is sewn and
// in which steps.
type stitching struct {
	*index
	stitches map[string]*trade.Stitch
	threads  record.Dict[record.ThreadUse]
	work     []record.Step
}

// A girthWalk goes round the garment put together, at its levels and layer by layer.
type girthWalk struct {
	*index
	girthsAt map[[2]string][]sewn.Girth // by level and layer
}

// A levelReckoner measures the levels that a record names or its pieces bear.
type levelReckoner struct {
	*girthWalk
	b            *record.Build     // its levels, and what it was drafted and measured by
	body         map[string]string // body measurement by any of its names
	measurements []string          // their names
	within       figure.Setting    // how far a written width may be from the sum
	outs         *letOuts
}

// A letOuts says how far the levels, seams and hems of a garment can be let out.
type letOuts struct {
	*girthWalk
	margin figure.Setting // the least that must stay of an allowance
}
