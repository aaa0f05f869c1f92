package sewn

import "slices"

// drop takes the part of a girth that lies along a side out of it.
func (g *Girth) drop(s *Surface, side SideID) {
	for k := range g.Chords {
		if ch := &g.Chords[k]; s.liesAlong(ch, side) && len(g.Chords) > 1 {
			g.Length -= ch.Length
			g.Chords = slices.Delete(g.Chords, k, k+1)
			return
		}
	}
}

func (g *Girth) dropAll(s *Surface, sides []SideID) {
	for _, side := range sides {
		g.drop(s, side)
	}
}

// liesAlong reports whether a chord lies along a side.
func (s *Surface) liesAlong(ch *Chord, side SideID) bool {
	return ch.Edge != "" && ch.Copy == s.Sides[side].Copy && ch.Edge == s.Sides[side].Edge
}

// oneStorey leaves out the longer of two girths that are joined along the
// level: a band and a body that both bear it are one line. Where a band goes along
// a part of a body, that part alone is one line with it. Of a girth that is
// joined to itself there one side is left.
func (s *Surface) oneStorey(list []Girth) []Girth {
	of := s.girthsOf(list)
	gone := make([]bool, len(list))
	for id := range s.Joins {
		j := &s.Joins[id]
		a, ok1 := of[j.A.Side]
		b, ok2 := of[j.B.Side]
		if !ok1 || !ok2 || gone[a] || gone[b] || j.A.Side == j.B.Side {
			continue
		}
		switch {
		case a == b:
			list[a].drop(s, max(j.A.Side, j.B.Side))
		case list[a].Behind != list[b].Behind: // a ply behind the other, not a storey
			gone[a], gone[b] = list[a].Behind, list[b].Behind
		default:
			s.storeys(list, gone, a, b, s.met(of, a, b))
		}
	}
	var out []Girth
	for i := range list {
		if !gone[i] {
			out = append(out, list[i])
		}
	}
	return out
}

// girthsOf says in which girth each side lies that lies at the level.
func (s *Surface) girthsOf(list []Girth) map[SideID]int {
	of := map[SideID]int{}
	for i := range list {
		for k := range list[i].Chords {
			ch := &list[i].Chords[k]
			for _, side := range s.Copies[ch.Copy].Sides {
				if s.liesAlong(ch, side) {
					of[side] = i
				}
			}
		}
	}
	return of
}

// met are the sides along which two girths are joined to each other, those of each.
func (s *Surface) met(of map[SideID]int, a, b int) (out [2][]SideID) {
	add := func(to int, side SideID) {
		if !slices.Contains(out[to], side) {
			out[to] = append(out[to], side)
		}
	}
	for i := range s.Joins {
		one, two := s.Joins[i].A.Side, s.Joins[i].B.Side
		if g, ok := of[one]; !ok || g != a {
			one, two = two, one
		}
		g, ok1 := of[one]
		h, ok2 := of[two]
		if ok1 && ok2 && g == a && h == b {
			add(0, one)
			add(1, two)
		}
	}
	return out
}

// storeys makes one line of two girths where they are joined along the level.
func (s *Surface) storeys(list []Girth, gone []bool, a, b int, met [2][]SideID) {
	all, whole := len(met[0]) == len(list[a].Chords), len(met[1]) == len(list[b].Chords)
	length := func(sides []SideID) (sum float64) {
		for _, side := range sides {
			sum += s.Sides[side].Closed
		}
		return sum
	}
	longer := length(met[0]) > length(met[1])+touch
	switch {
	case all && whole:
		gone[a], gone[b] = longer, !longer
	case all && !longer:
		list[b].put(s, met[1], &list[a])
		gone[a] = true
	case whole && longer:
		list[a].put(s, met[0], &list[b])
		gone[b] = true
	case all || whole:
		gone[a], gone[b] = all, whole
	case longer:
		list[a].dropAll(s, met[0])
	default:
		list[b].dropAll(s, met[1])
	}
}

// put puts another girth in the place of those parts of one that lie along sides.
func (g *Girth) put(s *Surface, sides []SideID, other *Girth) {
	along := func(ch Chord) bool {
		return slices.ContainsFunc(sides, func(side SideID) bool { return s.liesAlong(&ch, side) })
	}
	at := slices.IndexFunc(g.Chords, along)
	rest := slices.DeleteFunc(slices.Clone(g.Chords), along)
	g.Chords = slices.Insert(rest, at, other.Chords...)
	g.Length = 0
	for _, ch := range g.Chords {
		g.Length += ch.Length
	}
}
