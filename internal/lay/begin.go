package lay

import "math"

// seenAs is a way to lie that covers the same ground as a shape that is kept.
type seenAs struct {
	turn       float64
	mirrored   bool
	offX, offY float64
}

// A copyKey names one copy of a piece.
type copyKey struct{ piece, copy int }

// known are the plans to begin from as places on the model, where every item has one
// that this problem allows on the same bed; others are left out. A folded plan is opened
// out where an open lay is sought.
func (m *model) known(p *Problem, plans []*Plan) []map[copyKey]spot {
	var out []map[copyKey]spot
	for _, plan := range plans {
		if plan == nil || len(plan.Unplaced) > 0 {
			continue
		}
		if plan.Folded() && !m.bed.Folded() {
			plan = p.Opened(plan)
		}
		if plan.Folding != m.bed.Folding {
			continue
		}
		if at := m.spotsOf(p, plan); at != nil {
			out = append(out, at)
		}
	}
	return out
}

// spotsOf finds the place of every item in a plan; nil where one lies a way that is not
// allowed here.
func (m *model) spotsOf(p *Problem, plan *Plan) map[copyKey]spot {
	at := map[copyKey]*Placement{}
	for i := range plan.Placements {
		at[copyKey{plan.Placements[i].Piece, plan.Placements[i].Copy}] = &plan.Placements[i]
	}
	origin := p.Cloth.origin()
	out := map[copyKey]spot{}
	for i := range m.items {
		it := &m.items[i]
		key := copyKey{it.piece, it.copy}
		q := at[key]
		if q == nil || q.Pair != it.pair || q.Unfolded != (p.Pieces[it.piece].OnFold && !it.half) {
			return nil
		}
		s, ok := m.spotAt(it, q, origin)
		if !ok {
			return nil
		}
		out[key] = s
	}
	return out
}

// spotAt is the place of an item that lies as a placement says; false where it may not
// lie so.
func (m *model) spotAt(it *item, q *Placement, origin Point) (spot, bool) {
	x, y, turn := (q.X-origin.X)*m.scale, (q.Y-origin.Y)*m.scale, normalTurn(q.Turn)
	for _, k := range it.shapes {
		s := &m.shapes[k]
		offX, offY, ok := s.lies(turn, q.Mirrored)
		if !ok {
			continue
		}
		d, fits := s.domain(m.maxLength)
		if !fits {
			continue
		}
		at := spot{k, x - offX, y - offY}
		at.x, at.y = s.bring(&d, at.x, at.y)
		const slack = 1e-7 // the model's cloth is one to two wide
		if math.Abs(at.x-(x-offX)) <= slack && math.Abs(at.y-(y-offY)) <= slack {
			return at, true
		}
	}
	return spot{}, false
}

// lies tells whether a shape is an outline turned and mirrored so, and where its own
// origin then is from its place.
func (s *shape) lies(turn float64, mirrored bool) (offX, offY float64, ok bool) {
	if s.turn == turn && s.mirrored == mirrored {
		return s.offX, s.offY, true
	}
	for _, a := range s.alike {
		if a.turn == turn && a.mirrored == mirrored {
			return a.offX, a.offY, true
		}
	}
	return 0, 0, false
}

// origin is the corner of the box about the cloth.
func (c *Cloth) origin() Point {
	if c.Outline == nil {
		return Point{}
	}
	b := boxOf(c.Outline)
	return Point{b.minX, b.minY}
}

// rightWayUp lays a copy that is its own mirror image, and that nobody wants mirrored,
// with its other side up, so that it covers the same ground.
func (p *Problem) rightWayUp(at Placement) Placement {
	q := &p.Pieces[at.Piece]
	if q.Mirrored || p.Cloth.Reversible || !at.Mirrored {
		return at
	}
	b := boxOf(q.Outline)
	by := Point{0, -(b.minY + b.maxY)}
	if upDown, _ := mirrors(q.Outline); !upDown { // then its two ends are alike
		by = Point{-(b.minX + b.maxX), 0}
		at.Turn = normalTurn(at.Turn + 180)
	}
	by = turned([]Point{by}, at.Turn, false)[0]
	at.Mirrored = false
	at.X += by.X
	at.Y += by.Y
	return at
}
