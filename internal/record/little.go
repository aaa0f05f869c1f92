package record

import (
	"math"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/words"
)

// worn are words for what covers a good part of a body (terms of the trade).
var worn = []string{"dress", "gown", "skirt", "trousers", "pants", "shorts", "breeches", "waistcoat", "vest", "coat", "jacket", "blazer",
	"cape", "cloak", "blouse", "shirt", "nightshirt", "nightgown", "tunic", "top", "slip", "petticoat", "apron", "pinafore", "overalls", "dungarees", "kilt"}

// leastLargest is what the largest piece of such a garment is seldom less than, mm
// (common practice, no source).
const leastLargest = 250

// nextUnit is the unit in which lengths are larger, that may have been meant.
var nextUnit = map[measure.Unit]measure.Unit{measure.UnitMM: measure.UnitCM, measure.UnitCM: measure.UnitIn}

// tellLittle warns where even the largest piece of a garment is far too small for a body:
// a record in centimetres that does not say so, in a workroom in millimetres. One
// without an order of work has not come so far, and may be a study of a few pieces.
func (r *Room) tellLittle(b *Build, faults *fault.Faults) {
	largest := b.largestPiece()
	unit := r.UnitOf(b)
	meant, known := nextUnit[unit]
	if !known || len(b.Work) == 0 || largest == 0 || largest >= leastLargest || !words.AnyOf(b.Garment.V, worn) || childSize(b) || b.NotUnit {
		return
	}
	b.NotUnit = true
	f := faults.LookAgain(b.unitsPlace(), say.Of("record.was-it-measured-in-say-so-as", meant.String()),
		say.Of("record.the-largest-piece-is-too-small-for", words.Tape(unit).Exact(largest), b.Garment.V))
	if b.Units.Given() {
		f.InsteadAt(b.Units.At, b.Units.V, meant.String())
	}
}

// childSize reports whether a garment is for a child or a baby, who are small.
func childSize(b *Build) bool {
	switch b.For.Who.V {
	case "", "woman", "man", "anyone":
		return false
	}
	return true
}

// unitsPlace is where a record says its units, or where it begins.
func (b *Build) unitsPlace() fault.Pos {
	switch {
	case b.Units.Given():
		return b.Units.At
	case len(b.words) > 0:
		return b.words[0].At
	}
	return b.Name.At
}

// largestPiece is the longest side of what is measured of any piece in the record's own
// lengths, in mm; 0 where none is, or one comes from a file or could not be read.
func (b *Build) largestPiece() float64 {
	largest := 0.0
	for i := range b.Pieces {
		p := &b.Pieces[i]
		switch {
		case p.Rectangle != nil && p.Rectangle.Along.V == 0:
			return 0 // it could not be read, which is told
		case p.Rectangle != nil:
			largest = max(largest, p.Rectangle.Across.V.MM(), p.Rectangle.Along.V.MM())
		case p.Trapezoid != nil:
			largest = max(largest, p.Trapezoid.Bottom.V.MM(), p.Trapezoid.Top.V.MM(), p.Trapezoid.Height.V.MM())
		case p.Ring != nil:
			largest = max(largest, p.Ring.Length.V.MM(), p.Ring.Waist.V.MM())
		case p.Outline != nil && p.Outline.File.Given():
			return 0
		case p.Outline != nil:
			largest = max(largest, p.Outline.extent())
		}
	}
	return largest
}

// extent is how wide or long the corners of an outline lie apart, the larger, in mm.
func (o *OutlineSpec) extent() float64 {
	low, high := o.From.V, o.From.V
	for i := range o.Edges {
		if to := o.Edges[i].To; to.Given() {
			low.X, low.Y = math.Min(low.X, to.V.X), math.Min(low.Y, to.V.Y)
			high.X, high.Y = math.Max(high.X, to.V.X), math.Max(high.Y, to.V.Y)
		}
	}
	return max(high.X-low.X, high.Y-low.Y)
}
