package sewn

import "slices"

// An Opening is one way into the garment or out of it: a loop of what is outside,
// with zips and buttons closed.
type Opening struct {
	Loop
	Shut []JoinID // what zips and buttons join at it, that it goes over
	Lap  float64  // what lies under itself where it is closed, in mm; that, the ends beside it and what lies over it are not in the loop
}

// A Slit is what one zip, or one row of buttons, closes, or what the end of a seam
// leaves open.
type Slit struct {
	By    int // into Plan.Closures; −1 where nothing closes it
	Joins []JoinID
	Open  []Span // its two edges, where nothing closes it
	Seam  int    // the seam that ends at it then
	Layer string
	// Length along it, in mm.
	Length float64
}

// Openings lists the openings of a layer, without those of what lies behind and of
// pieces that no seam names.
func (s *Surface) Openings(layer string) []Opening {
	aside := map[CopyID]bool{}
	for _, c := range s.components() {
		if c.Behind || s.unjoined(&c) {
			for _, id := range c.Copies {
				aside[id] = true
			}
		}
	}
	var out []Opening
	for _, loop := range s.Loops(layer, true) {
		if !aside[s.Sides[loop.Spans[0].Side].Copy] {
			o := s.Lapped(s.WithoutSlits(loop))
			o.Shut = s.shutAt(&loop)
			out = append(out, o)
		}
	}
	return out
}

// shutAt are the joins of closures that a loop goes over.
func (s *Surface) shutAt(loop *Loop) (out []JoinID) {
	for _, sp := range loop.Spans {
		s.onwardOver(sp.Side, sp.To, nil, func(id JoinID) {
			if s.Joins[id].Kind == Closing {
				out = append(out, id)
			}
		})
	}
	return out
}

// Lapped is a loop as an opening: where a band is longer than what it is sewn to,
// for a closure, one end of it lies over the other and both are closed.
func (s *Surface) Lapped(loop Loop) Opening {
	out := Opening{Loop: loop}
	k := slices.IndexFunc(loop.Spans, s.isLap)
	if k < 0 {
		return out
	}
	lap := loop.Spans[k]
	ends := []SideID{s.step(lap.Side, 1), s.step(lap.Side, -1)}
	rest := slices.DeleteFunc(slices.Clone(loop.Spans), func(sp Span) bool {
		return sp == lap || slices.Contains(ends, sp.Side)
	})
	if len(rest) == 0 { // nothing but the lap and its ends is open
		return out
	}
	out.Spans, out.Lap, out.Length = rest, lap.Length(), -lap.Length()
	for _, sp := range out.Spans {
		out.Length += sp.Length()
	}
	return out
}

// isLap reports whether a free stretch is what a closure overlaps: what is left of
// a side that a seam with an overlap joins.
func (s *Surface) isLap(sp Span) bool {
	if sp.Length() >= s.Sides[sp.Side].Closed-touch {
		return false
	}
	return slices.ContainsFunc(s.Sides[sp.Side].joins, func(id JoinID) bool {
		j := &s.Joins[id]
		return j.Kind == Sewn && s.Plan.Seams[j.Seam].Overlap > touch
	})
}

// Slits lists what zips and buttons close, in the order of the closures.
func (s *Surface) Slits() []Slit {
	var out []Slit
	for id := range s.Joins {
		j := &s.Joins[id]
		if j.Kind != Closing {
			continue
		}
		k := slices.IndexFunc(out, func(o Slit) bool { return o.By == j.By })
		if k < 0 {
			k, out = len(out), append(out, Slit{By: j.By, Layer: s.Copies[s.Sides[j.A.Side].Copy].Layer})
		}
		out[k].Joins = append(out[k].Joins, JoinID(id))
		out[k].Length += j.A.Length()
	}
	slices.SortStableFunc(out, func(a, b Slit) int { return a.By - b.By })
	return append(out, s.leftOpen()...)
}

// leftOpen lists the slits that seams end at: the parts of two edges that a seam joins
// the rest of, as a placket in a sleeve's seam and a vent at a hem.
func (s *Surface) leftOpen() []Slit {
	var out []Slit
	for id := range s.Joins {
		for _, pair := range s.openBeside(JoinID(id)) {
			spans := []Span{s.whole(pair[0]), s.whole(pair[1])}
			out = append(out, Slit{By: -1, Open: spans, Seam: s.Joins[id].Seam, Layer: s.Copies[s.Sides[pair[0]].Copy].Layer, Length: min(spans[0].Length(), spans[1].Length())})
		}
	}
	return out
}

// openBeside are the parts of its two edges that a seam leaves open, at either end of it.
func (s *Surface) openBeside(id JoinID) (out [][2]SideID) {
	j := &s.Joins[id]
	if j.Kind != Sewn {
		return nil
	}
	for _, by := range [...]int{1, -1} {
		a, b := s.step(j.A.Side, by), s.step(j.B.Side, -by)
		if a != b && s.partBeside(a, j.A.Side) && s.partBeside(b, j.B.Side) {
			out = append(out, [2]SideID{a, b})
		}
	}
	return out
}

// partBeside reports whether a side is a part, joined to nothing, of the edge that
// another is a part of.
func (s *Surface) partBeside(free, sewn SideID) bool {
	part := s.known(free).Part
	return part != "" && part == s.known(sewn).Part && len(s.Sides[free].joins) == 0
}

// WithoutSlits is a loop without the edges of slits that nothing closes, where more
// than they are open.
func (s *Surface) WithoutSlits(loop Loop) Loop {
	var aside []Span
	for _, slit := range s.leftOpen() {
		aside = append(aside, slit.Open...)
	}
	rest := slices.DeleteFunc(slices.Clone(loop.Spans), func(sp Span) bool {
		return slices.ContainsFunc(aside, func(o Span) bool { return o.Side == sp.Side })
	})
	if len(rest) == 0 || len(rest) == len(loop.Spans) {
		return loop
	}
	loop.Spans, loop.Length = rest, 0
	for _, sp := range rest {
		loop.Length += sp.Length()
	}
	return loop
}

// Apart lists the pieces that no seam names an edge of, by name: pockets, ties, and
// what was forgotten.
func (s *Surface) Apart() []string {
	var out []string
	for _, c := range s.components() {
		if name := s.Copies[c.Copies[0]].Name; s.unjoined(&c) && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}
