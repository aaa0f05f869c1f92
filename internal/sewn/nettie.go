package sewn

import "slices"

// A tie is a join between two units.
type tie struct {
	join JoinID
	to   [2]int
	size float64
}

// ties lists the joins between units: of one edge to one edge, or the others.
func (t *netting) ties(single bool) []tie {
	var out []tie
	for i := range t.s.Joins {
		j := &t.s.Joins[i]
		if j.Kind == Fold || j.Kind == Caught || t.isSingle(j) != single {
			continue
		}
		a, ok := t.unitOf[t.s.Sides[j.A.Side].Copy]
		b, ok2 := t.unitOf[t.s.Sides[j.B.Side].Copy]
		if !ok || !ok2 || a == b {
			continue
		}
		l := tie{JoinID(i), [2]int{a, b}, j.A.Length()}
		if j.Kind == Closing { // the net is open where the garment opens
			l.size = 0
		}
		out = append(out, l)
	}
	return out
}

// isSingle reports whether a join is of one edge to one edge, not of a line.
func (t *netting) isSingle(j *Join) bool {
	if j.Seam >= 0 {
		if s := &t.s.Plan.Seams[j.Seam]; s.Run || len(s.Sides[0]) > 1 || len(s.Sides[1]) > 1 {
			return false
		}
	}
	return t.meetsOnly(j.A.Side, j.B.Side) && t.meetsOnly(j.B.Side, j.A.Side)
}

// meetsOnly reports whether all that is joined to a side is another side.
func (t *netting) meetsOnly(id, other SideID) bool {
	return !slices.ContainsFunc(t.s.Sides[id].joins, func(k JoinID) bool {
		j := &t.s.Joins[k]
		return !(j.A.Side == id && j.B.Side == other || j.B.Side == id && j.A.Side == other)
	})
}

// together lays the whole net.
func (t *netting) together() {
	behind := map[CopyID]bool{}
	loose := map[CopyID]bool{}
	comps := t.s.components()
	for i := range comps {
		for _, id := range comps[i].Copies {
			behind[id], loose[id] = comps[i].Behind, t.s.unjoined(&comps[i])
		}
	}
	storeys := t.storeys()
	group := func(st *storey) Group {
		switch id := st.laid[0].Copy; {
		case loose[id] && len(storeys) > 1 && t.s.Plan.Pieces[t.s.Copies[id].Piece].Onto:
			return Onto
		case loose[id] && len(storeys) > 1:
			return Apart
		case behind[id]:
			return Back
		}
		return Body
	}
	shown := Body // where nothing but what lies behind is left, it is what there is to see
	if !slices.ContainsFunc(storeys, func(st *storey) bool { return group(st) == Body }) {
		shown = Back
		if !slices.ContainsFunc(storeys, func(st *storey) bool { return group(st) == Back }) {
			shown = group(storeys[0])
		}
	}
	var body []*storey
	for _, st := range storeys {
		if g := group(st); g != shown {
			t.groups[g] = append(t.groups[g], &st.body)
		} else {
			body = append(body, st)
		}
	}
	t.stack(body)
	t.aside()
}
