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
	return s.onwardOver(id, at, open, nil)
}

// onwardOver is the same; over is told each join on the way.
func (s *Surface) onwardOver(id SideID, at float64, open func(JoinID) bool, over func(JoinID)) (Span, bool) {
	var room [8]stretch
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
		for _, t := range s.takenIn(room[:0], id, open) {
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
				if over != nil {
					over(t.join)
				}
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

// LinesOf are what some sides of a layer make on the boundary, end to end, zips and
// buttons shut: open lines, and those that come back to themselves.
func (s *Surface) LinesOf(layer string, in map[SideID]bool) (open, closed []Loop) {
	for _, loop := range s.Loops(layer, true) {
		for _, c := range chainsOf(loop, in) {
			line := Loop{Layer: layer, Spans: c.parts, Length: c.length}
			if c.closed {
				closed = append(closed, line)
			} else {
				open = append(open, line)
			}
		}
	}
	return open, closed
}

func (s *Surface) loops(layer string, open func(JoinID) bool) []Loop {
	w := walker{s: s, open: open}
	return w.loops(s.sidesIn(layer, nil))
}

// sidesIn lists the sides of a layer, or of some of its copies.
func (s *Surface) sidesIn(layer string, copies func(CopyID) bool) []SideID {
	out := make([]SideID, 0, len(s.Sides))
	for id := range s.Sides {
		if c := s.Sides[id].Copy; s.Copies[c].Layer == layer && (copies == nil || copies(c)) {
			out = append(out, SideID(id))
		}
	}
	return out
}

// A walker walks round the openings of a surface. Its room is used again.
type walker struct {
	s     *Surface
	open  func(JoinID) bool
	last  []int32 // of each side, 1 + the place in begun of the stretch walked last
	begun []begun
}

// begun is where on its side a stretch begins that was walked, and 1 + the place of
// the one walked before on that side.
type begun struct {
	spot   int64
	before int32
}

// loops lists the openings that the sides, which are of one layer, have part in.
func (w *walker) loops(sides []SideID) (out []Loop) {
	if w.last == nil {
		w.last, w.begun = make([]int32, len(w.s.Sides)), make([]begun, 0, len(sides))
	}
	clear(w.last)
	w.begun = w.begun[:0]
	for _, id := range sides {
		w.s.eachFree(id, w.open, func(begin Span) {
			if w.walked(begin) {
				return
			}
			loop := Loop{Layer: w.s.Copies[w.s.Sides[id].Copy].Layer, Spans: make([]Span, 0, 4)}
			for at, ok := begin, true; ok && !w.walked(at); at, ok = w.s.onward(at.Side, at.To, w.open) {
				w.begun = append(w.begun, begun{spot(at), w.last[at.Side]})
				w.last[at.Side] = int32(len(w.begun))
				loop.Spans = append(loop.Spans, at)
				loop.Length += at.Length()
			}
			out = append(out, loop)
		})
	}
	return out
}

func (w *walker) walked(sp Span) bool {
	for at := w.last[sp.Side]; at > 0; at = w.begun[at-1].before {
		if w.begun[at-1].spot == spot(sp) {
			return true
		}
	}
	return false
}

// spot tells the places along a side apart where a stretch may begin.
func spot(sp Span) int64 { return int64(sp.From / touch / 10) }

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
// loose: it is turned in with the end of its band. What buttons hold shut is: no
// button makes an edge neat.
func (s *Surface) Loose() []Span {
	var out []Span
	for id := range s.Sides {
		side := &s.Sides[id]
		if len(side.beside) > 0 || len(side.seams) > 0 && len(side.joins) == 0 || s.finished(SideID(id)) {
			continue
		}
		s.eachFree(SideID(id), s.onlyHeld, func(sp Span) {
			if !s.isLap(sp) {
				out = append(out, sp)
			}
		})
	}
	return out
}

// onlyHeld reports whether a join is none that is sewn, but shut by buttons and the like.
func (s *Surface) onlyHeld(id JoinID) bool {
	j := &s.Joins[id]
	return j.Kind == Closing && s.Plan.Closures[j.By].Apart
}

func (s *Surface) finished(id SideID) bool { return s.FinishOf(id) != "" }
