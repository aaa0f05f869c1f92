package cutting

import (
	"errors"
	"math"

	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// ringOf is the cut outline of a piece as the engine wants it: half of it
// where it is cut on fold, with the number of its edge on the fold; −1 where
// there is none.
func ringOf(p *garment.Piece) (shape.Ring, int, error) {
	if len(p.CutWhole) < 3 {
		why := p.Height.Value.Why
		if why == "" {
			why = say.Of("cutting.it-has-no-cut-outline")
		}
		return nil, -1, errors.New(why)
	}
	if p.Ring != nil && p.Ring.PanelAngle > 2*math.Pi-1e-6 {
		return discOf(p.CutWhole), -1, nil
	}
	if p.OnFold {
		if half := halfOf(p); half != nil {
			return half, len(half) - 1, nil
		}
	}
	return p.CutWhole, -1, nil
}

// discOf is the outer circle of a ring slit along its side: the slit has no
// width, so the hole of the waist counts as part of the piece.
func discOf(ring shape.Ring) shape.Ring {
	least, most := math.Inf(1), 0.0
	far := func(q shape.Point) float64 { return math.Sqrt(float64(q.X*q.X) + float64(q.Y*q.Y)) }
	for _, q := range ring {
		least, most = min(least, far(q)), max(most, far(q))
	}
	var out shape.Ring
	for _, q := range ring {
		if far(q) > (least+most)/2 && (len(out) == 0 || apart(q, out[len(out)-1]) > 1e-3) {
			out = append(out, q)
		}
	}
	if n := len(out); n > 1 && apart(out[0], out[n-1]) <= 1e-3 {
		out = out[:n-1]
	}
	return out
}

func apart(a, b shape.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// halfOf is the cut outline of the half drawn, from one end of the fold round
// to the other, so that its last edge lies on the fold; nil where it meets the
// fold more than once.
func halfOf(p *garment.Piece) shape.Ring {
	fold := p.Outline.FoldEdge()
	if fold < 0 {
		return nil
	}
	a, b := p.Outline.Start(fold), p.Outline.Edges[fold].To
	way := b.Sub(a)
	length := math.Sqrt(float64(way.X*way.X) + float64(way.Y*way.Y))
	if !(length > 0) {
		return nil
	}
	near := func(q shape.Point) bool {
		d := q.Sub(a)
		return math.Abs(float64(way.X*d.Y)-float64(way.Y*d.X))/length <= 1e-4
	}
	ring := p.Cut.Ring
	n, begin := len(ring), -1
	for i := range ring {
		if near(ring[i]) && !near(ring[(i+1)%n]) {
			if begin >= 0 {
				return nil
			}
			begin = i
		}
	}
	if begin < 0 {
		return nil
	}
	var half shape.Ring
	for k := range n {
		q := ring[(begin+k)%n]
		half = append(half, q)
		if k > 0 && near(q) {
			break
		}
	}
	if len(half) < 3 {
		return nil
	}
	return half
}
