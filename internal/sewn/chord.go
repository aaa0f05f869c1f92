package sewn

import (
	"math"
)

// Across lists the parts of a level on one copy of a piece: the half as drawn of
// one cut on the fold.
func (s *Surface) Across(piece, level string) []Chord {
	for id := range s.Copies {
		if s.Copies[id].Name == piece {
			return s.chords(CopyID(id), level)
		}
	}
	return nil
}

// chords are a copy's parts of a level.
func (s *Surface) chords(id CopyID, level string) []Chord {
	c := &s.Copies[id]
	p := &s.Plan.Pieces[c.Piece]
	var out []Chord
	for i := range p.Edges {
		if p.Edges[i].Level != level {
			continue
		}
		for _, side := range c.Sides {
			if s.Sides[side].Edge == p.Edges[i].Name && !s.Sides[side].Fold {
				out = append(out, s.alongEdge(id, side))
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	for i := range p.Levels {
		switch {
		case p.Levels[i].Name != level:
		case p.Arc > 0:
			out = append(out, s.arc(id, p, p.Levels[i].Y)...)
		default:
			out = append(out, s.acrossAt(id, p, s.heightOf(id, &p.Levels[i]), p.Levels[i].Corners)...)
		}
	}
	return out
}

// alongEdge is a level that lies along an edge: all of it, from corner to
// corner.
func (s *Surface) alongEdge(id CopyID, side SideID) Chord {
	e := &s.Sides[side]
	ch := Chord{Copy: id, Edge: e.Edge, Length: e.Closed, Taken: e.Length - e.Closed}
	o := &s.Plan.Pieces[s.Copies[id].Piece].Outline
	ch.From, _, _ = o.PointOn(e.Edge, 0)
	ch.To, _, _ = o.PointOn(e.Edge, e.Length)
	ch.Y = (ch.From.Y + ch.To.Y) / 2
	before, after := s.step(side, -1), s.step(side, 1)
	ch.ends = [2][]Place{{{before, s.Sides[before].Closed}}, {{after, 0}}}
	if s.Copies[id].Hand < 0 {
		ch.ends[0], ch.ends[1] = ch.ends[1], ch.ends[0]
	}
	return ch
}

// acrossAt are the stretches of a level across a piece.
func (s *Surface) acrossAt(id CopyID, p *Piece, y float64, corners []string) []Chord {
	if len(corners) == 2 {
		if ch, ok := s.betweenCorners(id, corners); ok {
			return []Chord{s.closed(p, ch)}
		}
	}
	points := p.Outline.LevelPoints(y)
	var out []Chord
	for k := 0; k+1 < len(points); k += 2 {
		ch := Chord{Copy: id, Y: y}
		var corner [2]bool
		ch.From, ch.ends[0], corner[0] = s.endAt(id, p, points[k], y, corners)
		ch.To, ch.ends[1], corner[1] = s.endAt(id, p, points[k+1], y, corners)
		switch {
		case corner[0] && !corner[1]:
			ch.Y = ch.From.Y
			ch.To, ch.ends[1] = s.endBeside(id, p, points[k+1], ch.Y)
		case corner[1] && !corner[0]:
			ch.Y = ch.To.Y
			ch.From, ch.ends[0] = s.endBeside(id, p, points[k], ch.Y)
		}
		out = append(out, s.closed(p, ch))
	}
	return out
}

func (s *Surface) closedAt(id SideID, along float64) float64 {
	return s.shapes[s.Copies[s.Sides[id].Copy].Piece].sides[s.Sides[id].Index].closedAt(along)
}

// sideWith is the side of a copy that has a part of the outline, and how far
// along it a place on that part lies.
func (s *Surface) sideWith(id CopyID, p *Piece, part int, along float64) (SideID, float64) {
	sides := s.shapes[s.Copies[id].Piece].sides
	n := len(p.Outline.Edges)
	for k := range sides {
		if at := (part - sides[k].first + n) % n; at < sides[k].count {
			return s.Copies[id].Sides[k], sides[k].before[at] + along
		}
	}
	return s.Copies[id].Sides[0], along
}

// arc is a level of a panel of a ring about the origin: the arc through its
// middle at that height.
func (s *Surface) arc(id CopyID, p *Piece, y float64) []Chord {
	radius := math.Abs(y)
	ch := Chord{Copy: id, Y: y, Arc: p.Arc, Length: radius * p.Arc}
	n := 0
	for _, side := range s.Copies[id].Sides {
		e := &s.Sides[side]
		a, _, _ := p.Outline.PointOn(e.Edge, 0)
		b, _, _ := p.Outline.PointOn(e.Edge, e.Length)
		from, to := math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y)
		if math.Abs(from-to) < 1 || radius < min(from, to)-touch || radius > max(from, to)+touch || n > 1 {
			continue
		}
		ch.ends[n] = []Place{{side, s.along(side, s.closedAt(side, math.Abs(radius-from)))}}
		n++
	}
	if n < 2 {
		return nil
	}
	return []Chord{ch}
}
