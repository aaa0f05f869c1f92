package record

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// Ring is a closed line of points as it is drawn, mm.
func Ring(corners []Val[XY]) shape.Ring {
	out := make(shape.Ring, len(corners))
	for i := range corners {
		out[i] = shape.Point{X: corners[i].V.X, Y: corners[i].V.Y}
	}
	return out
}

// Rings are a remnant's outline and the holes in it, mm, y along the selvedge.
func (r *Remnant) Rings() (outline shape.Ring, holes []shape.Ring) {
	for i := range r.Holes {
		holes = append(holes, Ring(r.Holes[i].Outline))
	}
	return Ring(r.Outline), holes
}

// Areas are what lies within a remnant's outline and what its holes take of that, mm².
func (r *Remnant) Areas() (within, holes float64) {
	outline, rings := r.Rings()
	for _, ring := range rings {
		holes += math.Abs(ring.Area())
	}
	return math.Abs(outline.Area()), holes
}

// onOutline is how far off an outline a corner may be and still lie on it, mm.
const onOutline = 0.05

// holeWithin tells of a hole with a corner beyond the outline of its remnant: what is missing
// at the edge of one is told by its outline.
func (r *Remnant) holeWithin(hole *Hole, tape words.Tape, faults *fault.Faults) {
	outline := Ring(r.Outline)
	if len(outline) < 3 {
		return
	}
	for i := range hole.Outline {
		q := &hole.Outline[i]
		if p := (shape.Point{X: q.V.X, Y: q.V.Y}); !outline.Contains(p) && outline.Off(p) > onOutline {
			least, most := outline.Bounds()
			faults.Wrong(q.At, say.Of("record.it-goes-from-to-across-and-along", tape.Number(least.X), tape.Exact(most.X), tape.Number(least.Y), tape.Exact(most.Y)),
				say.Of("record.this-corner-of-a-hole-lies-outside", say.Quoted(r.Name.V)))
			return
		}
	}
}
