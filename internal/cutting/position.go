package cutting

import (
	"math"

	"hembook/internal/lay"
	"hembook/internal/shape"
)

// positions are the places of a plan's pieces as one chalks them, in the
// order of laying.
func (p *Problem) positions(plan *lay.Plan) []Position {
	out := make([]Position, 0, len(plan.Placements))
	for i, at := range plan.Placements {
		piece := &p.Lay.Pieces[at.Piece]
		q := Position{
			Number: i + 1, Piece: piece.Name, Copy: at.Copy + 1, Pair: at.Pair, OnFold: piece.OnFold && !at.Unfolded,
			Alone: p.Lay.ZoneOf(plan, at).Double && !at.Pair && (!piece.OnFold || at.Unfolded),
			Turn:  at.Turn, Mirrored: at.Mirrored, Stage: p.stageNumber(piece.Stage), Grain: "along",
		}
		if g := p.Pieces[at.Piece]; g != nil {
			q.Grain = g.Grain
			q.Mirrored = q.Mirrored && g.Mirrored // of what is its own mirror image nobody sees it
		}
		ring := p.Lay.Placed(at)
		q.Outline = pointsOf(ring)
		q.End, q.EndTo, q.Side, q.SideTo = extent(ring)
		out = append(out, q)
	}
	return out
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
