package sewn

import "slices"

// A component is what hangs together of one layer by seams that turn nothing.
type component struct {
	Copies []CopyID
	Area   float64 // as drawn, mm²
	Behind bool    // it lies behind another
}

// components lists what hangs together, the first copy's first.
func (s *Surface) components() []component {
	l := newLinks(len(s.Copies))
	for i := range s.Joins {
		if j := &s.Joins[i]; j.Kind.surface() {
			l.link(int(s.Sides[j.A.Side].Copy), int(s.Sides[j.B.Side].Copy))
		}
	}
	place := make([]int, len(s.Copies)) // of each root among the components, from 1
	var out []component
	for id, n := range l.sizes() {
		if n > 0 {
			out = append(out, component{Copies: make([]CopyID, 0, n)})
			place[id] = len(out)
		}
	}
	for id := range s.Copies {
		k := place[l.root(id)] - 1
		out[k].Copies = append(out[k].Copies, CopyID(id))
		out[k].Area += s.areaOf(CopyID(id))
	}
	s.markBehind(out, l, place)
	return out
}

// Together reports whether a copy hangs together, by seams of its layer, with one of
// others.
func (s *Surface) Together(id CopyID, others map[CopyID]bool) bool {
	for _, c := range s.components() {
		if slices.Contains(c.Copies, id) {
			return slices.ContainsFunc(c.Copies, func(o CopyID) bool { return others[o] })
		}
	}
	return false
}

// Behind says of each copy whether it lies behind another part of its layer.
func (s *Surface) Behind() []bool {
	out := make([]bool, len(s.Copies))
	for _, c := range s.components() {
		for _, id := range c.Copies {
			out[id] = c.Behind
		}
	}
	return out
}

func (s *Surface) areaOf(id CopyID) float64 {
	a := s.Plan.Pieces[s.Copies[id].Piece].Outline.Area()
	return max(a, -a)
}

// markBehind says which components lie behind another of their layer: a smaller
// one that a turned seam joins to it, one whose pieces are named so, and one
// whose pieces are all like pieces of another and joined to nothing.
func (s *Surface) markBehind(list []component, l links, place []int) {
	of := func(id SideID) int { return place[l.root(int(s.Sides[id].Copy))] - 1 }
	for i := range s.Joins {
		j := &s.Joins[i]
		if j.Kind != Caught {
			continue
		}
		a, b := of(j.A.Side), of(j.B.Side)
		if a == b || s.layer(&list[a]) != s.layer(&list[b]) {
			continue
		}
		seam := &s.Plan.Seams[j.Seam]
		if s.pliedIn(seam, j.B.Side) {
			list[b].Behind = true
			continue
		}
		if less(s, &list[b], &list[a]) {
			a, b = b, a
		}
		if s.copiesOf(&list[a], &list[b]) {
			continue
		}
		list[a].Behind = list[a].Behind || seam.Turns || s.every(&list[a], func(p *Piece) bool { return p.Behind || p.Like != "" })
	}
	for i := range list {
		list[i].Behind = list[i].Behind || s.every(&list[i], func(p *Piece) bool { return p.Behind })
	}
}

// copiesOf reports whether all pieces of a component are some of those of another: they
// are its pieces once more, and lie where those do. Of two that have the same pieces one
// may lie behind the other, as the inside of a pocket does.
func (s *Surface) copiesOf(a, b *component) bool {
	within := func(one, two *component) bool {
		return !slices.ContainsFunc(one.Copies, func(id CopyID) bool {
			return !slices.ContainsFunc(two.Copies, func(o CopyID) bool { return s.Copies[o].Piece == s.Copies[id].Piece })
		})
	}
	return within(a, b) && !within(b, a)
}

// pliedIn reports whether a side is caught in a seam beside those that it joins.
func (s *Surface) pliedIn(seam *Seam, id SideID) bool {
	r := EdgeRef{Piece: s.Copies[s.Sides[id].Copy].Name, Edge: s.Sides[id].Edge}
	return slices.ContainsFunc(seam.Plies, func(p Ply) bool { return slices.Contains(p.Edges, r) })
}

func less(s *Surface, a, b *component) bool {
	if d := a.Area - b.Area; d > 1 || d < -1 {
		return d < 0
	}
	named := func(c *component) bool { return s.every(c, func(p *Piece) bool { return p.Behind || p.Like != "" }) }
	if x, y := named(a), named(b); x != y {
		return x
	}
	return a.Copies[0] > b.Copies[0]
}

func (s *Surface) layer(c *component) string { return s.Copies[c.Copies[0]].Layer }

func (s *Surface) every(c *component, is func(*Piece) bool) bool {
	return !slices.ContainsFunc(c.Copies, func(id CopyID) bool { return !is(&s.Plan.Pieces[s.Copies[id].Piece]) })
}

// plies asks about pieces that are like another of their layer and joined to
// nothing: whether they lie beside it or behind it nothing tells.
func (b *builder) plies() {
	for _, c := range b.s.components() {
		if c.Behind || !b.s.unjoined(&c) {
			continue
		}
		p := &b.s.Plan.Pieces[b.s.Copies[c.Copies[0]].Piece]
		if p.Like == "" || !b.s.every(&c, func(q *Piece) bool { return q.Name == p.Name }) {
			continue
		}
		for _, other := range b.s.Copies {
			if other.Layer == b.s.layer(&c) && b.s.Plan.Pieces[other.Piece].Name == p.Like {
				b.doubt(doubt{BesideOrBehind, p.Name, []string{p.Name, p.Like}})
				break
			}
		}
	}
}

// unjoined reports whether nothing but a fold joins a component's copies to
// anything.
func (s *Surface) unjoined(c *component) bool {
	for _, id := range c.Copies {
		for _, side := range s.Copies[id].Sides {
			closing := slices.ContainsFunc(s.Sides[side].joins, func(j JoinID) bool { return s.Joins[j].Kind == Closing })
			if len(s.Sides[side].seams) > 0 || closing {
				return false
			}
		}
	}
	return true
}

// closedBags notes what has no opening at all.
func (b *builder) closedBags() {
	open := map[CopyID]bool{}
	for _, layer := range b.layers {
		for _, loop := range b.s.Loops(layer, false) {
			for _, sp := range loop.Spans {
				open[b.s.Sides[sp.Side].Copy] = true
			}
		}
	}
	for _, c := range b.s.components() {
		if !slices.ContainsFunc(c.Copies, func(id CopyID) bool { return open[id] }) {
			var pieces []EdgeRef
			for _, id := range c.Copies {
				if r := (EdgeRef{Piece: b.s.Copies[id].Name}); !slices.Contains(pieces, r) {
					pieces = append(pieces, r)
				}
			}
			b.snag(Snag{Kind: NoWayIn, Seam: -1, Edges: pieces})
		}
	}
}
