package cutting

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/lay"
	"hembook/internal/shape"
)

// positions are the places of a plan's pieces as one chalks them, one for each placement.
func (p *Problem) positions(plan *lay.Plan) []Position {
	out := make([]Position, 0, len(plan.Placements))
	for _, at := range plan.Placements {
		piece := &p.Lay.Pieces[at.Piece]
		q := Position{
			Piece: piece.Name, Copy: at.Copy + 1, Pair: at.Pair, OnFold: piece.OnFold && !at.Unfolded, Opened: at.Unfolded,
			Alone: p.Lay.ZoneOf(plan, at).Double && !at.Pair && (!piece.OnFold || at.Unfolded),
			Turn:  at.Turn, Mirrored: at.Mirrored, Stage: p.stageNumber(piece.Stage), Grain: "along",
		}
		if g := p.Pieces[at.Piece]; g != nil {
			q.Grain = g.Grain
			q.Mirrored = q.Mirrored && g.Mirrored // of what is its own mirror image nobody sees it
		}
		if b, ok := p.blocks[at.Piece]; ok {
			q.Strip, q.Turn = b.cut, 0 // a rectangle on the grain has no top
		}
		ring := p.Lay.Placed(at)
		q.Outline = pointsOf(ring)
		q.End, q.EndTo, q.Side, q.SideTo = extent(ring)
		out = append(out, q)
	}
	return out
}

// StripCuts are the lines at 45° that cloth for bias strip is cut along, on the cloth; of
// another piece there are none. The first goes from the corner that the piece is chalked
// from, where the cloth is cut through and sewn into a tube.
func (q *Position) StripCuts() shape.Stripes {
	const half = math.Sqrt2 / 2
	return shape.Stripes{Way: shape.Point{X: half, Y: -half}, First: float64(half*q.End) - float64(half*q.Side), Every: q.Strip}
}

// bigShare is how large a piece is, of the largest of its stage, that is chalked among
// the big ones.
const bigShare = 0.25

// chalkedInOrder sorts pieces as one chalks them and numbers them: stage by stage; the
// big ones first, one row of them after the other from the cut end, each row from the
// selvedge; then what lies between, the larger before the smaller.
func chalkedInOrder(all []Position) []Position {
	slices.SortStableFunc(all, func(a, b Position) int { return a.Stage - b.Stage })
	for from := 0; from < len(all); {
		to := from
		for to < len(all) && all[to].Stage == all[from].Stage {
			to++
		}
		chalkStage(all[from:to])
		from = to
	}
	for i := range all {
		all[i].Number = i + 1
	}
	return all
}

func chalkStage(all []Position) {
	area := func(q *Position) float64 { return math.Abs(shape.Ring(q.Outline).Area()) } // whichever way round it is drawn
	largest := 0.0
	for i := range all {
		largest = max(largest, area(&all[i]))
	}
	big := func(q *Position) bool { return area(q) >= bigShare*largest }
	place := func(a, b *Position) int { return cmp.Or(cmp.Compare(a.End, b.End), cmp.Compare(a.Side, b.Side)) }
	slices.SortStableFunc(all, func(a, b Position) int {
		switch {
		case big(&a) && big(&b):
			return place(&a, &b)
		case big(&a):
			return -1
		case big(&b):
			return 1
		}
		return cmp.Or(cmp.Compare(math.Round(area(&b)), math.Round(area(&a))), place(&a, &b))
	})
	bigs := 0
	for bigs < len(all) && big(&all[bigs]) {
		bigs++
	}
	for from := 0; from < bigs; { // a row is what begins before the middle of its first
		to, middle := from, (all[from].End+all[from].EndTo)/2
		for to < bigs && all[to].End < middle {
			to++
		}
		slices.SortStableFunc(all[from:to], func(a, b Position) int { return cmp.Compare(a.Side, b.Side) })
		from = to
	}
}

// stageNumber counts the stages that anything is laid in, from 1.
func (p *Problem) stageNumber(stage int) int {
	seen := map[int]bool{}
	for i := range p.Lay.Pieces {
		if s := p.Lay.Pieces[i].Stage; s < stage {
			seen[s] = true
		}
	}
	return len(seen) + 1
}

func pointsOf(ring []lay.Point) []shape.Point {
	out := make([]shape.Point, len(ring))
	for i, q := range ring {
		out[i] = shape.Point{X: q.X, Y: q.Y}
	}
	return out
}

// extent is how far a ring reaches along the cloth and across it.
func extent(ring []lay.Point) (end, endTo, side, sideTo float64) {
	end, side = math.Inf(1), math.Inf(1)
	endTo, sideTo = math.Inf(-1), math.Inf(-1)
	for _, q := range ring {
		end, endTo = min(end, q.X), max(endTo, q.X)
		side, sideTo = min(side, q.Y), max(sideTo, q.Y)
	}
	return snap(end), snap(endTo), snap(side), snap(sideTo)
}

// snap rounds to a nanometre, so that the noise of adding up does not print.
func snap(v float64) float64 {
	v = math.Round(v*1e6) / 1e6
	if v == 0 {
		return 0 // never −0
	}
	return v
}
