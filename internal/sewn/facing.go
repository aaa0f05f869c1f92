package sewn

import (
	"math"

	"hembook/internal/shape"
)

// Facing is where the two sides of a join lie at a part of each, 0 at the beginning of
// its first side and 1 at the end: points of the outlines as they are drawn, those of a
// mirrored copy as of the one that is not. Equal parts are sewn to each other.
func (s *Surface) Facing(id JoinID, a, b float64) (one, two shape.Point) {
	j := &s.Joins[id]
	return s.pointAt(j.A.Side, j.A.From+float64(a*j.A.Length())), s.pointAt(j.B.Side, j.B.To-float64(b*j.B.Length()))
}

// pointAt is the point of an outline at a place along a side.
func (s *Surface) pointAt(id SideID, at float64) shape.Point {
	side := &s.Sides[id]
	piece := s.Copies[side.Copy].Piece
	drawn := s.shapes[piece].sides[side.Index].drawnAt(s.along(id, at))
	return s.Plan.Pieces[piece].Outline.PointsOn(side.Edge, []float64{drawn})[0]
}

// notchReach is how far apart two notches of a seam may lie and be each other's, mm: what
// may be eased in between them.
const notchReach = 15

// Notched is at which part of each side of a join a notch lies that has its like on the
// other; of several the pair that lies nearest to each other.
func (s *Surface) Notched(id JoinID) (a, b float64, ok bool) {
	j, least := &s.Joins[id], float64(notchReach)
	for _, x := range s.notchesOf(j.A.Side) {
		for _, y := range s.notchesOf(j.B.Side) {
			one, two := x-j.A.From, j.B.To-y
			if one < 0 || one > j.A.Length() || two < 0 || two > j.B.Length() {
				continue
			}
			if d := math.Abs(one - two); d < least {
				least, a, b, ok = d, one/j.A.Length(), two/j.B.Length(), true
			}
		}
	}
	return a, b, ok
}

// notchesOf are the places of the notches of a side, against the clock.
func (s *Surface) notchesOf(id SideID) []float64 {
	side := &s.Sides[id]
	ps := &s.shapes[s.Copies[side.Copy].Piece].sides[side.Index]
	var out []float64
	for _, n := range ps.note.Notches {
		out = append(out, s.along(id, ps.closedAt(n.Along)))
	}
	return out
}

// Darted reports whether a dart or pleat opens on a side within a join.
func (s *Surface) Darted(id JoinID) bool {
	for _, sp := range []Span{s.Joins[id].A, s.Joins[id].B} {
		ps := &s.shapes[s.Copies[s.Sides[sp.Side].Copy].Piece].sides[s.Sides[sp.Side].Index]
		for _, m := range ps.mouths {
			if at := s.along(sp.Side, ps.closedAt(m.from)); m.to > m.from && at > sp.From+touch && at < sp.To-touch {
				return true
			}
		}
	}
	return false
}
