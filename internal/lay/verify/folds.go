package verify

import (
	"math"

	"hembook/internal/lay"
)

// A rectangle is a part of the cloth as it lies, with what may be cut there.
type rectangle struct {
	x, y, xTo, yTo float64
	double         bool
	folds          [][2]point // its sides that are folds
}

// folded asks that the cloth is folded as that kind of fold is, and returns how wide it
// then lies.
func (c *checker) folded() float64 {
	f, w := c.plan.Folding, c.p.Cloth.Width
	near := func(a, b float64) bool { return math.Abs(a-b) <= c.tol }
	ok, lies := false, w
	switch f.Fold {
	case lay.Open:
		ok = f == lay.Folding{}
	case lay.Lengthwise:
		ok, lies = near(f.Near, w/2) && f.Far == 0 && f.Long == 0, w/2
	case lay.BothSelvedges:
		ok, lies = f.Near > 0 && f.Far > 0 && near(f.Near+f.Far, w/2) && f.Long == 0, w/2
	case lay.PartWidth:
		ok, lies = f.Near > 0 && f.Near < w/2 && f.Far == 0 && f.Long == 0, w-f.Near
	case lay.PartLength:
		ok = near(f.Near, w/2) && f.Far == 0 && f.Long > 0 && f.Long <= c.plan.Length+c.tol
	case lay.Crosswise:
		ok = f == lay.Folding{Fold: lay.Crosswise}
		if c.p.Cloth.OneWay {
			c.say("one-way cloth is folded crosswise")
		}
		if len(c.p.Cloth.Flaws) > 0 {
			c.say("cloth with flaws is folded crosswise")
		}
	}
	if !ok || c.p.Cloth.Outline != nil && f.Fold != lay.Open {
		c.say("the cloth cannot be folded so: %+v", f)
	}
	return lies
}

// length is how far the cloth reaches as it lies.
func (c *checker) length() float64 {
	if c.plan.Fold == lay.Crosswise {
		return c.plan.Length / 2
	}
	return c.plan.Length
}

// parts are the rectangles of one layer and of two.
func (c *checker) parts() []rectangle {
	f, w, l := c.plan.Folding, c.p.Cloth.Width, c.length()
	low := func(y, x, xTo float64) [2]point { return [2]point{{X: x, Y: y}, {X: xTo, Y: y}} }
	switch f.Fold {
	case lay.Lengthwise:
		return []rectangle{{0, 0, l, w / 2, true, [][2]point{low(0, 0, l)}}}
	case lay.Crosswise:
		return []rectangle{{0, 0, l, w, true, [][2]point{{{}, {Y: w}}}}}
	case lay.BothSelvedges:
		return []rectangle{{0, 0, l, f.Near, true, [][2]point{low(0, 0, l)}}, {0, f.Near, l, f.Near + f.Far, true, [][2]point{low(f.Near+f.Far, 0, l)}}}
	case lay.PartWidth:
		return []rectangle{{0, 0, l, f.Near, true, [][2]point{low(0, 0, l)}}, {0, f.Near, l, w - f.Near, false, nil}}
	case lay.PartLength:
		return []rectangle{{0, 0, f.Long, w / 2, true, [][2]point{low(0, 0, f.Long)}}, {f.Long, 0, l, w, false, nil}}
	}
	return []rectangle{{0, 0, l, w, false, nil}}
}

// inPart asks that an outline lies in one part of the cloth, a pair in two layers, and a
// half with its fold edge on a fold.
func (c *checker) inPart(i int, q *lay.Piece) {
	at := c.plan.Placements[i]
	if c.p.Cloth.Outline != nil {
		return
	}
	lo, hi := bounds(c.at[i])
	for _, r := range c.parts() {
		if max(r.x-lo.X, r.y-lo.Y, hi.X-r.xTo, hi.Y-r.yTo) > c.tol {
			continue
		}
		if at.Pair && !r.double {
			c.say("%s is laid as a pair in a single layer", c.name(i))
		}
		if at.Pair && !c.pairs(q, at) {
			c.say("%s is no pair with what the lower layer gives", c.name(i))
		}
		if q.OnFold && !at.Unfolded && !c.onFold(i, q, r) {
			c.say("%s does not lie with its fold edge on the fold", c.name(i))
		}
		return
	}
	c.say("%s does not lie within one part of the folded cloth", c.name(i))
}

// onFold tells whether a half lies with its fold edge on a fold.
func (c *checker) onFold(i int, q *lay.Piece, r rectangle) bool {
	n := len(q.Outline)
	a, b := c.at[i][q.FoldEdge], c.at[i][(q.FoldEdge+1)%n]
	for _, f := range r.folds {
		off := func(v point) float64 {
			if f[0].X == f[1].X {
				return math.Abs(v.X - f[0].X)
			}
			return math.Abs(v.Y - f[0].Y)
		}
		if most := c.tol + 1e-6*c.p.Cloth.Width; off(a) <= most && off(b) <= most {
			return true
		}
	}
	return false
}

// pairs tells whether the mirror image that the lower layer gives is what is wanted: of a
// piece that is no pair it must cover the same ground as the piece turned an allowed way.
func (c *checker) pairs(q *lay.Piece, at lay.Placement) bool {
	if q.Mirrored || c.p.Cloth.Reversible {
		return true
	}
	whole := q.Outline
	if q.OnFold {
		whole = doubled(q)
	}
	for _, turn := range []float64{0, 180} {
		if turn == 180 && c.p.Cloth.OneWay {
			continue
		}
		if sameGround(whole, turn, c.p.Cloth.Width*1e-6+c.tol) {
			return true
		}
	}
	return false
}

// sameGround tells whether an outline mirrored and turned is itself, moved.
func sameGround(pts []point, turn, near float64) bool {
	lo, hi := bounds(pts)
	sign := 1.0
	if turn == 180 {
		sign = -1
	}
	image := make([]point, len(pts))
	for k, v := range pts {
		v = point{X: v.X - (lo.X+hi.X)/2, Y: v.Y - (lo.Y+hi.Y)/2}
		image[k] = point{X: sign * v.X, Y: -sign * v.Y}
	}
	own := make([]point, len(pts))
	for k, v := range pts {
		own[k] = point{X: v.X - (lo.X+hi.X)/2, Y: v.Y - (lo.Y+hi.Y)/2}
	}
	for _, v := range image {
		if distanceTo(own, v) > near {
			return false
		}
	}
	return true
}

// distanceTo is how far a point lies from an outline.
func distanceTo(ring []point, v point) float64 {
	best := math.Inf(1)
	for k, a := range ring {
		b := ring[(k+1)%len(ring)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if l2 := dx*dx + dy*dy; l2 > 0 {
			t = min(1, max(0, ((v.X-a.X)*dx+(v.Y-a.Y)*dy)/l2))
		}
		best = min(best, math.Hypot(v.X-a.X-t*dx, v.Y-a.Y-t*dy))
	}
	return best
}

// ontoLayer is a flaw as it lies in each layer of the part that an outline lies in.
func (c *checker) ontoLayer(i int, ring []point) [][]point {
	f, w := c.plan.Folding, c.p.Cloth.Width
	moved := func(sign, by float64) []point {
		out := make([]point, len(ring))
		for k, v := range ring {
			out[k] = point{X: v.X, Y: sign*v.Y + by}
		}
		return out
	}
	fold := f.Fold
	if lo, _ := bounds(c.at[i]); fold == lay.PartLength && lo.X < f.Long-c.tol {
		fold = lay.Lengthwise
	}
	switch fold {
	case lay.Lengthwise, lay.PartWidth:
		return [][]point{moved(1, -f.Near), moved(-1, f.Near)}
	case lay.BothSelvedges:
		return [][]point{moved(1, -f.Near), moved(-1, f.Near), moved(-1, 2*(w-f.Far)-f.Near)}
	}
	return [][]point{ring}
}
