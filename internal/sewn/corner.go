package sewn

import (
	"math"
	"slices"

	"hembook/internal/shape"
)

// atCorner is how near a level may come to a corner of a piece before it belongs to
// the corner, mm (common practice, no source).
const atCorner = 2

// heightOf is the height of a level: that of a corner it belongs to.
func (s *Surface) heightOf(id CopyID, l *Level) float64 {
	for _, side := range s.Copies[id].Sides {
		if len(l.Corners) > 0 && s.Sides[side].Edge == l.Corners[0] {
			return s.corner(side).Y
		}
	}
	return l.Y
}

// corner is where a side begins as drawn.
func (s *Surface) corner(id SideID) shape.Point {
	c := s.Sides[id].Copy
	return s.Plan.Pieces[s.Copies[c].Piece].Outline.Start(s.shapes[s.Copies[c].Piece].sides[s.Sides[id].Index].first)
}

// Corners names the edges that begin at the corners of an outline that a level
// belongs to, as it is drawn: those within 2 mm in which, or next to which, the
// level line ends; a corner at a fold is none.
func Corners(o shape.Outline, y float64) []string {
	var out []string
	sides := o.Sides()
	n := len(o.Edges)
	for _, at := range o.LevelPoints(y) {
		for k, side := range sides {
			part := (at.Edge - side.First + n) % n
			if part >= side.Count {
				continue
			}
			before, next := sides[(k+len(sides)-1)%len(sides)], sides[(k+1)%len(sides)]
			begin, end := math.Abs(o.Start(side.First).Y-y), math.Abs(o.Start(next.First).Y-y)
			switch {
			case side.Fold:
			case begin <= atCorner && begin <= end && !before.Fold:
				out = append(out, side.Name)
			case end <= atCorner && !next.Fold:
				out = append(out, next.Name)
			}
		}
	}
	return out
}

// betweenCorners is a level that belongs to a corner at both its ends.
func (s *Surface) betweenCorners(id CopyID, corners []string) (Chord, bool) {
	ch := Chord{Copy: id}
	n := 0
	for _, side := range s.Copies[id].Sides {
		if n < 2 && slices.Contains(corners, s.Sides[side].Edge) {
			before := s.step(side, -int(s.Copies[id].Hand))
			ch.ends[n] = s.cornerPlaces(before, side)
			if n == 0 {
				ch.From = s.corner(side)
			} else {
				ch.To = s.corner(side)
			}
			n++
		}
	}
	if ch.From.X > ch.To.X {
		ch.From, ch.To, ch.ends[0], ch.ends[1] = ch.To, ch.From, ch.ends[1], ch.ends[0]
	}
	ch.Y = (ch.From.Y + ch.To.Y) / 2
	return ch, n == 2
}

// endAt is where a level ends on a copy: the point, the places along its sides
// (two at a corner), and whether it is one of the corners that it belongs to. A
// corner that a fitting has brought near it is where it goes on from, but it is
// measured where it runs.
func (s *Surface) endAt(id CopyID, p *Piece, at shape.LevelPoint, y float64, corners []string) (shape.Point, []Place, bool) {
	side, along := s.sideWith(id, p, at.Edge, at.Along)
	e := &s.Sides[side]
	start, _, _ := p.Outline.PointOn(e.Edge, 0)
	end, _, _ := p.Outline.PointOn(e.Edge, e.Length)
	nearStart, nearEnd := math.Abs(start.Y-y) <= atCorner, math.Abs(end.Y-y) <= atCorner
	if nearStart && nearEnd {
		nearStart, nearEnd = along <= e.Length/2, along > e.Length/2
	}
	hand := int(s.Copies[id].Hand)
	before, after := s.step(side, -hand), s.step(side, hand)
	switch {
	case nearStart && slices.Contains(corners, e.Edge):
		return start, s.cornerPlaces(before, side), true
	case nearEnd && slices.Contains(corners, s.Sides[after].Edge):
		return end, s.cornerPlaces(side, after), true
	}
	here := shape.Point{X: at.X, Y: y}
	switch {
	case e.Fold: // a fold ends at no seam
	case nearStart && !s.Sides[before].Fold:
		return here, s.cornerPlaces(before, side), false
	case nearEnd && !s.Sides[after].Fold:
		return here, s.cornerPlaces(side, after), false
	}
	return here, []Place{{side, s.along(side, s.closedAt(side, along))}}, false
}

// endBeside is where a level that was moved to the corner at its other end ends
// now: the nearest crossing on the edge that it ended on.
func (s *Surface) endBeside(id CopyID, p *Piece, was shape.LevelPoint, y float64) (shape.Point, []Place) {
	best := was
	least := math.Inf(1)
	for _, at := range p.Outline.LevelPoints(y) {
		if off := math.Abs(at.X - was.X); at.Edge == was.Edge && off < least {
			best, least = at, off
		}
	}
	side, along := s.sideWith(id, p, best.Edge, best.Along)
	return shape.Point{X: best.X, Y: y}, []Place{{side, s.along(side, s.closedAt(side, along))}}
}

// cornerPlaces are the places of the corner between two sides, as drawn one
// after the other.
func (s *Surface) cornerPlaces(before, after SideID) []Place {
	return []Place{{before, s.along(before, s.Sides[before].Closed)}, {after, s.along(after, 0)}}
}
