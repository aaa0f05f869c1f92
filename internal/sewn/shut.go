package sewn

import "slices"

// shut reports whether, before a seam is sewn, all that hangs together with it has no
// free edge left but those of the seam itself: nothing can be turned out any more.
func (o *ordering) shut(seam int) bool { return o.closedRound(seam, seam) }

// ShutIn is the turn after which nothing leads to the inside of a seam any more: all
// that hangs together with it has no free edge left, zips closing nothing; −1 where
// there is none.
func (s *Surface) ShutIn(turns [][]int, seam int) int {
	o := newOrdering(s, turns)
	for t, seams := range turns {
		for _, i := range seams {
			o.done[i] = true
		}
		if o.done[seam] && o.closedRound(seam, -1) {
			return t
		}
	}
	return -1
}

// closedRound reports whether all that hangs together with a seam has no free edge left
// once what is done, and one seam more, is sewn; none more is −1.
func (o *ordering) closedRound(seam, more int) bool {
	l := newLinks(len(o.s.Copies))
	for id := range o.s.Joins {
		if j := &o.s.Joins[id]; j.Kind == Fold || j.Seam >= 0 && o.done[j.Seam] {
			l.link(int(o.s.Sides[j.A.Side].Copy), int(o.s.Sides[j.B.Side].Copy))
		}
	}
	own := map[int]bool{}
	for _, id := range o.joins[seam] {
		own[l.root(int(o.s.Sides[o.s.Joins[id].A.Side].Copy))] = true
		own[l.root(int(o.s.Sides[o.s.Joins[id].B.Side].Copy))] = true
	}
	for id := range o.s.Sides {
		side := &o.s.Sides[id]
		if !own[l.root(int(side.Copy))] || side.Fold {
			continue
		}
		joined := slices.ContainsFunc(o.s.JoinsOf(SideID(id)), func(j JoinID) bool {
			join := &o.s.Joins[j]
			return join.Seam >= 0 && (o.done[join.Seam] || join.Seam == more) && join.Kind != Closing
		})
		if !joined {
			return false
		}
	}
	return len(o.joins[seam]) > 0
}
