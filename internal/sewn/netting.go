package sewn

import (
	"math"

	"hembook/internal/shape"
)

// A netting lays a net. Pieces cut on the fold are opened out; what one seam of
// one edge to one edge joins is laid as a storey, each piece beside the one it
// meets longest; then storey is laid to storey, the largest first.
type netting struct {
	s      *Surface
	net    *Net
	worn   []Wearer // by the number of a copy
	units  []*body
	unitOf map[CopyID]int
	groups [groups][]*body
}

// The gap between pieces: as a part of the side of a square as large as the layer, and at
// least as a part of the net, so that a number has room in it where the net is as wide as
// a page.
const (
	gapPart  = 0.06
	gapLeast = 0.044
	mostGaps = 4 // how often a net is laid at most until its gap is wide enough
)

// measure sets the gap.
func (t *netting) measure() {
	area := 0.0
	for id := range t.s.Copies {
		if t.s.Copies[id].Layer == t.net.Layer {
			area += t.s.areaOf(CopyID(id))
		}
	}
	t.net.Gap = gapPart * math.Sqrt(area)
}

// widen makes the gap wider where the net became so large that it is too narrow, and
// takes up all that was laid.
func (t *netting) widen() bool {
	least := float64(gapLeast * t.size())
	if t.net.Gap >= float64(0.98*least) {
		return false
	}
	t.net.Gap, t.units, t.groups = least, nil, [groups][]*body{}
	return true
}

// cutApart makes a body of each copy, of both halves of a piece cut on the fold.
func (t *netting) cutApart() {
	t.unitOf = map[CopyID]int{}
	for id := range t.s.Copies {
		c := &t.s.Copies[id]
		if c.Layer != t.net.Layer {
			continue
		}
		p := &t.s.Plan.Pieces[c.Piece]
		l := Laid{Copy: CopyID(id), over: c.Hand < 0}
		if k, ok := t.halfOf(CopyID(id)); ok {
			b := t.units[k]
			t.unitOf[l.Copy] = k
			l.Turn, l.Shift = t.opened(l.Copy)
			l.ring = t.ringOf(&l, p)
			b.laid, b.area = append(b.laid, l), b.area+t.s.areaOf(l.Copy)
			continue
		}
		l.ring = t.ringOf(&l, p)
		t.unitOf[l.Copy] = len(t.units)
		t.units = append(t.units, &body{laid: []Laid{l}, area: t.s.areaOf(l.Copy), fold: p.OnFold})
	}
}

// within is how far the straight stretches that a net is laid by may stray from
// an outline, mm.
const within = 2

func (t *netting) ringOf(l *Laid, p *Piece) netRing {
	ring, _ := p.Outline.Flatten(within)
	out := netRing{line: make(shape.Ring, len(ring))}
	for i := range ring {
		out.line[i] = l.At(ring[i])
	}
	out.measure()
	return out
}

// halfOf is the unit of the half that a copy is joined to at the fold.
func (t *netting) halfOf(id CopyID) (int, bool) {
	for _, side := range t.s.Copies[id].Sides {
		for _, j := range t.s.Sides[side].joins {
			if join := &t.s.Joins[j]; join.Kind == Fold {
				for _, sp := range [...]Span{join.A, join.B} {
					if k, ok := t.unitOf[t.s.Sides[sp.Side].Copy]; ok {
						return k, true
					}
				}
			}
		}
	}
	return 0, false
}

// opened is how a mirrored half lies against the half that lies as drawn: turned
// over about the fold.
func (t *netting) opened(id CopyID) (turn float64, shift shape.Point) {
	for _, side := range t.s.Copies[id].Sides {
		if !t.s.Sides[side].Fold {
			continue
		}
		line := t.s.drawn(t.s.whole(side))
		at, way := line[0], line[len(line)-1].Sub(line[0])
		turn = foldTurn(way)
		was := spun(shape.Point{X: -at.X, Y: at.Y}, turn)
		return turn, at.Sub(was)
	}
	return 0, shape.Point{}
}

// foldTurn is by how much what was turned over about an upright line is turned
// on, to have been turned over about a line that runs another way.
func foldTurn(way shape.Point) float64 {
	if math.Abs(way.X) <= touch {
		return 0
	}
	return 2*math.Atan2(way.Y, way.X) - math.Pi
}
