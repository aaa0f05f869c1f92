package cutting

import (
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// Stripes are the lines by which the pattern of the cloth comes again, as it lies in a
// plan: x along it, y across it from the inner edge of the selvedge or from the fold. Those
// along the cloth begin where its file says that a leading line runs, else at the selvedge
// or the fold; those across it at the cut end. Of folded cloth they are those of the upper
// layer.
func (l *Lay) Stripes() []shape.Stripes {
	if l.Problem == nil || l.Plan == nil {
		return nil
	}
	out := l.openStripes()
	for i := range out {
		s := &out[i]
		switch {
		case s.Way.Y != 0 && l.Problem.Lay.Cloth.Lined && l.Plan.Fold != lay.PartLength:
			s.First -= l.Plan.Near // where the fold lies
		case s.Way.X != 0 && l.Plan.Fold == lay.Crosswise:
			s.First -= l.Plan.Length / 2
		}
	}
	return out
}

// openStripes are those of the cloth opened out.
func (l *Lay) openStripes() []shape.Stripes {
	c := &l.Problem.Lay.Cloth
	var out []shape.Stripes
	if c.RepeatAcross > 0 {
		out = append(out, shape.Stripes{Way: shape.Point{Y: 1}, First: c.Line, Every: c.RepeatAcross})
	}
	if c.RepeatAlong > 0 {
		out = append(out, shape.Stripes{Way: shape.Point{X: 1}, Every: c.RepeatAlong})
	}
	return out
}

// A Striping is where the stripes or checks of a garment's cloths come to lie on its
// pieces, by the plans of their lays.
type Striping struct {
	pieces map[string][]shape.Stripes
	copies map[sewn.CopyID][]shape.Stripes
}

// OnPiece are the stripes on the first copy of a piece, in the coordinates it is drawn in;
// none where the cloth it is cut from first has no repeat, or no lay.
func (s *Striping) OnPiece(name string) []shape.Stripes {
	if s == nil {
		return nil
	}
	return s.pieces[name]
}

// OnCopy are the stripes on a copy of the garment put together, in the coordinates its
// piece is drawn in.
func (s *Striping) OnCopy(id sewn.CopyID) []shape.Stripes {
	if s == nil {
		return nil
	}
	return s.copies[id]
}

// Striping is nil where no cloth with a repeat is laid.
func (c *Cutting) Striping() *Striping {
	s := &Striping{map[string][]shape.Stripes{}, map[sewn.CopyID][]shape.Stripes{}}
	told := map[string]bool{} // pieces that an earlier lay has
	found := false
	for _, l := range c.Lays {
		stripes := l.Stripes()
		if l.Problem == nil {
			continue
		}
		found = found || len(stripes) > 0
		for i, p := range l.Problem.Pieces {
			if p != nil && !told[p.Name] {
				told[p.Name] = true
				if len(stripes) > 0 {
					s.pieces[p.Name] = l.drawn(i)
				}
			}
		}
		if len(stripes) > 0 {
			l.drawnCopies(c.Garment.Garment, s.copies)
		}
	}
	if !found {
		return nil
	}
	return s
}

// drawn are the stripes on the first copy of a piece as it is drawn.
func (l *Lay) drawn(piece int) []shape.Stripes {
	return l.stripesBy(func(q shape.Point) lay.TiedPoint {
		return lay.TiedPoint{Piece: piece, At: lay.Point{X: q.Y, Y: q.X}}
	})
}

// drawnCopies adds the stripes of all copies of the garment that this lay gives.
func (l *Lay) drawnCopies(g *garment.Garment, to map[sewn.CopyID][]shape.Stripes) {
	if g.Sewn == nil {
		return
	}
	m := newMatcher(l.Problem, g, l.Cloth)
	for id := range g.Sewn.Copies {
		if spot := m.spotter(sewn.CopyID(id)); spot != nil {
			to[sewn.CopyID(id)] = l.stripesBy(spot)
		}
	}
}

// stripesBy are the stripes in the coordinates that spot takes its points in; nil where
// what it tells of is not laid.
func (l *Lay) stripesBy(spot func(shape.Point) lay.TiedPoint) []shape.Stripes {
	first := spot(shape.Point{})
	plan, stripes := l.Plan, l.Stripes()
	if plan.Folded() && plan.Fold != lay.Lengthwise { // each zone would have stripes of its own
		plan, stripes = l.Problem.Lay.Opened(plan), l.openStripes()
	}
	at := l.Problem.placement(plan, first.Piece, first.Copy)
	if at == nil {
		return nil
	}
	lower := at.Pair && at.Copy != first.Copy
	var out []shape.Stripes
	for _, s := range stripes {
		if lower && s.Way.Y != 0 {
			s.First = -s.First // seen through the cloth from above the fold
		}
		out = append(out, s.Back(func(q shape.Point) shape.Point { return onTheCloth(at, spot(q).At) }))
	}
	return out
}
