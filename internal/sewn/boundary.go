package sewn

import "slices"

// A Loop is an opening: a closed line of stretches that nothing is joined to,
// in the order in which they are walked, the surface on the left.
type Loop struct {
	Layer  string
	Spans  []Span
	Length float64
}

// eachFree gives the stretches of a side that nothing of the surface is joined
// to, in order.
func (s *Surface) eachFree(id SideID, open func(JoinID) bool, yield func(Span)) {
	side := &s.Sides[id]
	at := 0.0
	var room [8]stretch
	for _, t := range s.takenIn(room[:0], id, open) {
		if t.From > at+touch {
			yield(Span{id, at, t.From})
		}
		at = max(at, t.To)
	}
	if side.Closed > at+touch {
		yield(Span{id, at, side.Closed})
	}
}

// A stretch is a part of a side that a join takes.
type stretch struct {
	Span
	join JoinID
}

// taken lists the parts of a side that joins take, in order. open says of a join
// that it is to be looked at as not there.
func (s *Surface) taken(id SideID, open func(JoinID) bool) []stretch {
	return s.takenIn(nil, id, open)
}

// takenIn lists the same in the room of a list that is not needed any more.
func (s *Surface) takenIn(out []stretch, id SideID, open func(JoinID) bool) []stretch {
	for _, j := range s.Sides[id].joins {
		if open != nil && open(j) {
			continue
		}
		join := &s.Joins[j]
		if join.A.Side == id {
			out = append(out, stretch{join.A, j})
		}
		if join.B.Side == id {
			out = append(out, stretch{join.B, j})
		}
	}
	for i := 1; i < len(out); i++ {
		for k := i; k > 0 && out[k].From < out[k-1].From; k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

// onward finds the free stretch that follows a place on the boundary: round the
// corner, through every join that ends there.
func (s *Surface) onward(id SideID, at float64, open func(JoinID) bool) (Span, bool) {
	for range 4 * (len(s.Sides) + len(s.Joins) + 4) {
		side := &s.Sides[id]
		if at >= side.Closed-touch {
			id, at = s.next(id), 0
			if s.Sides[id].Closed <= touch {
				continue
			}
		}
		crossed := false
		free := Span{id, at, s.Sides[id].Closed}
		for _, t := range s.taken(id, open) {
			if t.From > at+touch {
				free.To = t.From
				return free, true
			}
			if t.From >= at-touch && t.To > at+touch {
				j := &s.Joins[t.join]
				other := j.A
				if j.A == t.Span {
					other = j.B
				}
				id, at, crossed = other.Side, other.To, true
				break
			}
		}
		if !crossed {
			return free, true
		}
	}
	return Span{}, false
}

// Loops lists the openings of a layer. closed takes zips and buttons as closed.
func (s *Surface) Loops(layer string, closed bool) []Loop {
	return s.loops(layer, func(j JoinID) bool { return s.Joins[j].Kind == Closing && !closed })
}

func (s *Surface) loops(layer string, open func(JoinID) bool) []Loop {
	type spot struct {
		side SideID
		at   int64
	}
	key := func(sp Span) spot { return spot{sp.Side, int64(sp.From / touch / 10)} }
	seen := map[spot]bool{}
	var out []Loop
	for id := range s.Sides {
		if s.Copies[s.Sides[id].Copy].Layer != layer {
			continue
		}
		s.eachFree(SideID(id), open, func(begin Span) {
			if seen[key(begin)] {
				return
			}
			loop := Loop{Layer: layer}
			for at, ok := begin, true; ok && !seen[key(at)]; at, ok = s.onward(at.Side, at.To, open) {
				seen[key(at)] = true
				loop.Spans = append(loop.Spans, at)
				loop.Length += at.Length()
			}
			out = append(out, loop)
		})
	}
	return out
}

// Layers lists the layers there are, by name.
func (s *Surface) Layers() []string {
	var out []string
	for i := range s.Copies {
		if !slices.Contains(out, s.Copies[i].Layer) {
			out = append(out, s.Copies[i].Layer)
		}
	}
	slices.Sort(out)
	return out
}

// Loose lists the stretches that are neither joined nor finished, nor caught in
// a seam with another layer or with what lies behind. What a closure laps is not
// loose: it is turned in with the end of its band.
func (s *Surface) Loose() []Span {
	var out []Span
	for id := range s.Sides {
		side := &s.Sides[id]
		if len(side.beside) > 0 || len(side.seams) > 0 && len(side.joins) == 0 || s.finished(SideID(id)) {
			continue
		}
		s.eachFree(SideID(id), nil, func(sp Span) {
			if !s.isLap(sp) {
				out = append(out, sp)
			}
		})
	}
	return out
}

func (s *Surface) finished(id SideID) bool { return s.FinishOf(id) != "" }
