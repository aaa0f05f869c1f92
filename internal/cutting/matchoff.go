package cutting

import (
	"math"
	"slices"

	"hembook/internal/lay"
	"hembook/internal/shape"
)

// measure works out how far everything that must meet is off in a plan.
func (p *Problem) measure(plan *lay.Plan) {
	for i := range p.Matches {
		one := &p.Matches[i]
		for _, met := range []*Met{&one.Along, &one.Across} {
			if met.Asked {
				met.Off, met.All = p.off(one, met, met == &one.Across, plan)
			}
		}
	}
}

// off is how far a match is off where it begins, and at most all along.
func (p *Problem) off(one *Match, met *Met, across bool, plan *lay.Plan) (first, most float64) {
	repeat := p.Lay.Cloth.RepeatAlong
	if across {
		repeat = p.Lay.Cloth.RepeatAcross
	}
	for k := range one.pairs {
		a, ok := p.seen(plan, &one.pairs[k][0], across)
		b, has := p.seen(plan, &one.pairs[k][1], across)
		switch {
		case !ok || !has:
			continue
		case met.OnLine:
			b = 0
		case met.Mirror:
			b = -b
		}
		d := math.Abs(math.Remainder(a-b, repeat))
		if k == 0 {
			first = d
		}
		most = max(most, d)
	}
	return first, most
}

// seen is how far beyond a leading line of the pattern a point lies, as its piece is worn.
func (p *Problem) seen(plan *lay.Plan, t *lay.TiedPoint, across bool) (float64, bool) {
	at := p.placement(plan, t.Piece, t.Copy)
	if at == nil {
		return 0, false
	}
	q := onTheCloth(at, t.At)
	v := q.X
	if across {
		v = q.Y - p.Lay.Cloth.Line
	}
	shown := p.Lay.Pieces[t.Piece].Shown
	if at.Mirrored {
		shown = -shown
	}
	if math.Abs(math.Remainder(at.Turn-shown, 360)) > 90 {
		v = -v
	}
	return v, true
}

// placement is where a copy lies in a plan; nil where it does not.
func (p *Problem) placement(plan *lay.Plan, piece, number int) *lay.Placement {
	for i := range plan.Placements {
		if at := &plan.Placements[i]; at.Piece == piece && (at.Copy == number || at.Pair && at.Copy+1 == number) {
			return at
		}
	}
	return nil
}

// onTheCloth is where a point of an outline comes to lie: x along the cloth, y across it.
func onTheCloth(at *lay.Placement, q lay.Point) shape.Point {
	if at.Mirrored {
		q.Y = -q.Y
	}
	sin, cos := math.Sincos(at.Turn * math.Pi / 180)
	return shape.Point{X: at.X + float64(q.X*cos) - float64(q.Y*sin), Y: at.Y + float64(q.X*sin) + float64(q.Y*cos)}
}

// MatchedAlong reports whether anything is matched in the repeat along the cloth: then a
// leading line runs along the cut end.
func (p *Problem) MatchedAlong() bool {
	return slices.ContainsFunc(p.Matches, func(m Match) bool { return m.Along.Asked && !m.Along.Never })
}
