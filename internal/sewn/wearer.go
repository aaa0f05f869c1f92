package sewn

import "math"

// Wearers says of every copy on which side of the body it is worn. A piece may be called
// left or right; one that is called front or back says by where its middle and its side
// lies which way it runs; what is sewn to one side alone is worn there too.
func (s *Surface) Wearers() []Wearer { return s.WearersWith(nil) }

// WearersWith is Wearers where of some pieces, by their names, it is said which copies are
// the left ones: 1 those that lie as drawn, −1 their mirror images.
func (s *Surface) WearersWith(left map[string]int8) []Wearer {
	out := make([]Wearer, len(s.Copies))
	for id := range s.Copies {
		c := &s.Copies[id]
		switch hand, said := left[c.Name]; {
		case s.Plan.Pieces[c.Piece].Worn != NoSide:
			out[id] = s.Plan.Pieces[c.Piece].Worn
		case said && c.cut == hand:
			out[id] = LeftSide
		case said:
			out[id] = RightSide
		default:
			out[id] = s.facesSay(CopyID(id))
		}
	}
	for range s.Copies { // each round knows one more at least
		more := false
		for id := range s.Copies {
			if out[id] == NoSide && s.oneOfPair(CopyID(id)) {
				out[id] = s.besideSay(CopyID(id), out)
				more = more || out[id] != NoSide
			}
		}
		if !more {
			break
		}
	}
	return out
}

// oneOfPair reports whether there is another copy of its kind.
func (s *Surface) oneOfPair(id CopyID) bool {
	p := &s.Plan.Pieces[s.Copies[id].Piece]
	return p.OnFold || p.Count > 1
}

// facesSay is the side of a piece that is called front or back. Seen from
// outside with its right side up, what a front has to the right of its middle is
// the wearer's left.
func (s *Surface) facesSay(id CopyID) Wearer {
	c := &s.Copies[id]
	face := sideWords(c.Name)
	if face == "" || !s.oneOfPair(id) {
		return NoSide
	}
	toMiddle, toSide := 0.0, 0.0 // how far to the right the middle and the side lie, weighed by length
	middle, side := 0.0, 0.0
	for _, at := range c.Sides {
		for _, j := range s.Sides[at].joins {
			join := &s.Joins[j]
			here, there := join.A, join.B
			if here.Side != at {
				here, there = there, here
			}
			other := &s.Copies[s.Sides[there.Side].Copy]
			x := s.rightOf(here) * here.Length()
			switch {
			case other.Piece == c.Piece && other.Hand != c.Hand && s.Sides[there.Side].Edge == s.Sides[at].Edge:
				toMiddle, middle = toMiddle+x, middle+here.Length()
			case other.Piece != c.Piece && sideWords(other.Name) != "" && sideWords(other.Name) != face:
				toSide, side = toSide+x, side+here.Length()
			}
		}
	}
	right := 0.0
	switch {
	case middle > 0:
		right = -toMiddle / middle
	case side > 0:
		right = toSide / side
	}
	switch {
	case math.Abs(right) <= touch:
		return NoSide
	case (right > 0) == (face == "front"):
		return LeftSide
	}
	return RightSide
}

// rightOf is how far to the right of the middle of its piece a stretch lies, seen
// from outside.
func (s *Surface) rightOf(sp Span) float64 {
	c := &s.Copies[s.Sides[sp.Side].Copy]
	low, high := s.Plan.Pieces[c.Piece].Outline.Bounds()
	line := s.drawn(sp)
	return float64(c.Hand) * ((line[0].X+line[len(line)-1].X)/2 - (low.X+high.X)/2)
}

// besideSay is the side on which nearly all is worn that a copy is sewn to, others
// of its piece left out.
func (s *Surface) besideSay(id CopyID, known []Wearer) Wearer {
	var sewn [3]float64
	for _, at := range s.Copies[id].Sides {
		side := &s.Sides[at]
		for _, list := range [...][]JoinID{side.joins, side.beside} {
			for _, j := range list {
				join := &s.Joins[j]
				other := join.A
				if other.Side == at {
					other = join.B
				}
				if to := s.Sides[other.Side].Copy; s.Copies[to].Piece != s.Copies[id].Piece {
					sewn[known[to]] += other.Length()
				}
			}
		}
	}
	const nearly = 3
	switch left, right := sewn[LeftSide], sewn[RightSide]; {
	case left > nearly*right:
		return LeftSide
	case right > nearly*left:
		return RightSide
	}
	return NoSide
}
