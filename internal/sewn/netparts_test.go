package sewn

import "testing"

// TestNetParts: parts of a net hold each of its copies once and no more of them
// than asked for, show both sides of each join in some part, and lie within
// their own bounds.
func TestNetParts(t *testing.T) {
	for name, p := range netted() {
		s, _, _ := Build(p)
		for _, layer := range s.Layers() {
			whole := s.Net(layer)
			if got := whole.Parts(s, len(whole.Laid)); len(got) != 1 || got[0] != whole {
				t.Errorf("%s, %s: a net that is small enough is divided into %d", name, layer, len(got))
			}
			const most = 4
			times, shown := map[CopyID]int{}, map[JoinID][2]bool{}
			for _, part := range whole.Parts(s, most) {
				if len(part.Laid) > most {
					t.Errorf("%s, %s: a part has %d copies, more than %d", name, layer, len(part.Laid), most)
				}
				for i := range part.Laid {
					times[part.Laid[i].Copy]++
					ring := s.Plan.Pieces[s.Copies[part.Laid[i].Copy].Piece].Outline
					if at := part.Laid[i].At(ring.From); at.X < part.Low.X-1 || at.X > part.High.X+1 || at.Y < part.Low.Y-1 || at.Y > part.High.Y+1 {
						t.Errorf("%s, %s: a copy lies at %v, outside %v to %v", name, layer, at, part.Low, part.High)
					}
				}
				for _, m := range part.Meetings {
					was := shown[m.Join]
					shown[m.Join] = [2]bool{was[0] || m.Here[0], was[1] || m.Here[1]}
				}
			}
			for i := range whole.Laid {
				if k := times[whole.Laid[i].Copy]; k != 1 {
					t.Errorf("%s, %s: copy %d lies in %d parts", name, layer, whole.Laid[i].Copy, k)
				}
			}
			for _, m := range whole.Meetings {
				if shown[m.Join] != m.Here {
					t.Errorf("%s, %s: of join %d the parts show %v, the net %v", name, layer, m.Join, shown[m.Join], m.Here)
				}
			}
		}
	}
}

// TestOnceOfWhatIsAlike: of four bags, each of a front and a back sewn to it, and four badges
// that nothing joins, one bag and one badge are laid, three copies of twelve, and the one
// join of the bag needs no letter. A left and a right are both laid, and so is all of one bag
// with badges, where nothing is made twice.
func TestOnceOfWhatIsAlike(t *testing.T) {
	front := piece("front", pt(0, 0), "bottom", pt(200, 0), "right", pt(160, 300), "top", pt(0, 300), "left", pt(0, 0))
	back := piece("back", pt(0, 0), "bottom", pt(200, 0), "right", pt(200, 240), "top", pt(0, 300), "left", pt(0, 0))
	badge := box("badge", 60, 40)
	for name, c := range map[string]struct {
		plan Plan
		laid int
	}{
		"four bags":        {plan(front.times(4), back.times(4), badge.times(4), seam("side", "front.left", "back.left")), 3},
		"a left and right": {plan(front.pairs(2), back.pairs(2), badge.times(4), seam("side", "front.left", "back.left")), 8},
		"one bag":          {plan(front.times(1), back.times(1), badge.times(4), seam("side", "front.left", "back.left")), 6},
	} {
		s, _, _ := Build(c.plan)
		whole := s.Net(s.Layers()[0])
		once := whole.Once(s)
		if len(once.Laid) != c.laid || (c.laid == len(whole.Laid)) != (once == whole) {
			t.Errorf("%s: %d of %d are laid, want %d", name, len(once.Laid), len(whole.Laid), c.laid)
		}
		if c.laid == 3 && (len(once.Meetings) != 1 || once.Meetings[0].Pair != "" || len(whole.Meetings) != 4) {
			t.Errorf("%s: %+v of %d", name, once.Meetings, len(whole.Meetings))
		}
	}
}
