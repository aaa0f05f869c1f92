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
