package cutting

import (
	"fmt"
	"math"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// tolerance is how far a plan may be off, in mm: a micrometre.
const tolerance = 0.001

// slack is by how much, as a share of the cloth's width, the engine's length
// may differ from where the last piece ends, and its first piece lie from the
// cut end: it lays outlines that are simplified outwards.
const slack = 0.003

// checked says why a plan cannot be trusted; nil where it can. It is
// pulled to the cut end, its length becomes that at which its last piece ends;
// the lay the other way and
// remnants are taken out of it where they are not sound.
func checked(p *lay.Problem, plan *lay.Plan) error {
	if err := soundly(p, plan); err != nil {
		return fmt.Errorf("the plan does not hold: %w", err)
	}
	if plan.Other != nil && soundly(p, plan.Other) != nil {
		plan.Other = nil
	}
	plan.Remnants = soundRemnants(p, plan)
	return nil
}

// soundly has the independent checker look at a plan, after what the checker
// takes for granted.
func soundly(p *lay.Problem, plan *lay.Plan) error {
	if none := len(plan.Placements) == 0; !finite(plan.Length, plan.Width, plan.Bound.Length) || !none && plan.Length <= 0 || none && len(plan.Unplaced) == 0 {
		return fmt.Errorf("its length is none")
	}
	near, far := math.Inf(1), 0.0
	for _, at := range plan.Placements {
		if at.Piece < 0 || at.Piece >= len(p.Pieces) || at.Copy < 0 {
			return fmt.Errorf("it places a piece that nobody asked for")
		}
		if !finite(at.X, at.Y, at.Turn) {
			return fmt.Errorf("a place is not a number")
		}
		for _, q := range p.Placed(at) {
			near, far = math.Min(near, q.X), math.Max(far, q.X)
		}
	}
	if p.Cloth.Outline == nil && math.Abs(plan.Width-plan.Across(p.Cloth.Width)) > tolerance {
		return fmt.Errorf("it is for cloth of another width")
	}
	if p.Cloth.Outline == nil && len(plan.Placements) > 0 {
		if most := slack * p.Cloth.Width; math.Abs(plan.Length/plan.Layers()-far) > most {
			return fmt.Errorf("it is %s long, but its last piece ends at %s", mm(plan.Length), mm(far*plan.Layers()))
		} else if near > tolerance && near <= most && len(p.Cloth.Flaws) == 0 && len(p.Ties) == 0 && plan.Fold != lay.Crosswise {
			pull(plan, near)
			far -= near
		}
		plan.Length = far * plan.Layers()
	}
	if faults := verify.Check(p, plan, tolerance); len(faults) > 0 {
		return fmt.Errorf("%s", faults[0])
	}
	return nil
}

// pull moves everything on a plain strip to the cut end.
func pull(plan *lay.Plan, by float64) {
	for i := range plan.Placements {
		plan.Placements[i].X -= by
	}
	for i := range plan.Stages {
		plan.Stages[i] -= by
	}
	plan.Long = max(0, plan.Long-by)
	for _, r := range plan.Remnants {
		for k := range r {
			r[k].X = max(0, r[k].X-by)
		}
	}
}

// soundRemnants keeps the remnants that lie on the cloth and clear of every
// piece.
func soundRemnants(p *lay.Problem, plan *lay.Plan) [][]lay.Point {
	var out [][]lay.Point
	placed := make([][]lay.Point, len(plan.Placements))
	for i, at := range plan.Placements {
		placed[i] = p.Placed(at)
	}
	for _, r := range plan.Remnants {
		if len(r) < 3 {
			continue
		}
		ok := true
		for _, q := range r {
			ok = ok && finite(q.X, q.Y)
			if p.Cloth.Outline == nil {
				ok = ok && q.X >= -tolerance && q.X <= plan.Length/plan.Layers()+tolerance && q.Y >= -tolerance && q.Y <= plan.Width+tolerance
			}
		}
		for i := 0; ok && i < len(placed); i++ {
			ok = beside(placed[i], r) || verify.Penetration(placed[i], r) <= tolerance
		}
		if ok {
			out = append(out, r)
		}
	}
	return out
}

// beside reports whether the upright boxes about two rings lie apart.
func beside(a, b []lay.Point) bool {
	aEnd, aEndTo, aSide, aSideTo := extent(a)
	bEnd, bEndTo, bSide, bSideTo := extent(b)
	return aEndTo <= bEnd || bEndTo <= aEnd || aSideTo <= bSide || bSideTo <= aSide
}

func finite(list ...float64) bool {
	for _, v := range list {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
