package garment

import (
	"math"
	"math/cmplx"

	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// How far a piece may lie off the grain, off a line square to it and off the bias before
// it is told, degrees; how nearly an edge is square to the centre for both to lean because
// the piece is turned, degrees; and up to how far a grain line of a pattern file is
// doubted, degrees: one that leans more was drawn so on purpose (common practice, no
// source).
const (
	grainWithin = 3.0
	squareNear  = 2.0
	grainDrawn  = 15.0
)

// offGrain warns of a piece that is turned on its grain, as a slip of the drawing turns
// it. One whose record says how it lies is meant so.
func (w *doubter) offGrain(p *Piece) {
	said := p.form.grain
	o := p.Record.Outline
	drawn := said.Given() && o != nil && said.At == o.File.At
	if p.OnFold || p.Ring != nil || p.Record.Border != nil || said.Given() && !drawn {
		return
	}
	lean, by := p.leanOfAxis(), say.Of("garment.its-middle-line")
	if lean <= grainWithin {
		var edge string
		if lean, edge = p.leanOfCentre(); lean <= grainWithin {
			return
		}
		by = p.Name + "." + edge
	}
	if drawn {
		if lean <= grainDrawn {
			w.faults.LookAgain(p.Record.At, say.Of("garment.draw-the-grain-line-along-it-or"), say.Of("garment.the-grain-line-of-lies-off", p.Name, degrees(lean), by))
		}
		return
	}
	w.faults.LookAgain(p.Record.At, say.Of("garment.turn-it-upright-or-say-how-it"), say.Of("garment.lies-off-the-grain-by", p.Name, degrees(lean), by))
}

// offLines is how far a direction lies off the grain, the line square to it and the bias.
func offLines(angle float64) float64 {
	off := math.Mod(math.Abs(angle)*180/math.Pi, 45)
	return min(off, 45-off)
}

// leanOfAxis is how far off the grain a piece that is its own mirror image lies: of
// several lines about which it is, the one that lies straightest; 0 where about none.
func (p *Piece) leanOfAxis() float64 {
	best, found := math.Inf(1), false
	for sum := range p.Outline.Edges {
		if angle, ok := mirrorAxis(p.Outline, sum); ok {
			best, found = min(best, offLines(angle)), true
		}
	}
	if !found {
		return 0
	}
	return best
}

// axisNear is how near to 1 the part of an outline's edges that mirror each other must
// be: a thousandth is some millimetres of a sleeve.
const axisNear = 1 - 1e-6

// mirrorAxis is the direction of the line about which each edge i of an outline is the
// mirror image of edge sum - i run backwards.
func mirrorAxis(o shape.Outline, sum int) (angle float64, ok bool) {
	n := len(o.Edges)
	var turned complex128 // by the mirroring: twice the angle of the axis
	most := 0.0
	add := func(one, two complex128) bool {
		turned += one * two
		most += cmplx.Abs(one) * cmplx.Abs(two)
		return math.Abs(cmplx.Abs(one)-cmplx.Abs(two)) <= marksWithin
	}
	for i := range n {
		k := (sum - i + n) % n
		e, f := &o.Edges[i], &o.Edges[k]
		if e.Curved != f.Curved || !add(way(o.Start(i), e.To), way(f.To, o.Start(k))) {
			return 0, false
		}
		if e.Curved && !add(way(o.Start(i), e.C1), way(f.To, f.C2)) {
			return 0, false
		}
	}
	if !(cmplx.Abs(turned) >= axisNear*most) || most == 0 {
		return 0, false
	}
	return cmplx.Phase(turned) / 2, true
}

func way(from, to shape.Point) complex128 {
	d := to.Sub(from)
	return complex(d.X, d.Y)
}

// leanOfCentre is how far a straight centre lies off the grain that has an edge square
// to it, so that both lean alike; 0 where none does.
func (p *Piece) leanOfCentre() (lean float64, edge string) {
	o := p.Outline
	for i := range o.Edges {
		if o.Edges[i].Curved || !words.AnyOf(p.form.notes[i].name, []string{"centre", "center"}) {
			continue
		}
		along := cmplx.Phase(way(o.Start(i), o.Edges[i].To))
		for _, k := range [...]int{i + 1, i - 1 + len(o.Edges)} {
			k %= len(o.Edges)
			square := math.Abs(math.Mod(math.Abs(cmplx.Phase(way(o.Start(k), o.Edges[k].To))-along), math.Pi)*180/math.Pi - 90)
			if off := offLines(along); square <= squareNear && off > lean {
				lean, edge = off, p.form.notes[i].name
			}
		}
	}
	return lean, edge
}
