package sewn

import (
	"math"
	"slices"
	"testing"

	"hembook/internal/shape"
)

// cuffed is the shirt with a pair of cuffs, each buttoned from one of its ends to the
// other.
func cuffed() Plan {
	p := garments()["shirt"]
	p.Pieces = append(slices.Clone(p.Pieces), box("cuff", 260, 60).pairs(2))
	p.Seams = append(slices.Clone(p.Seams), seam("cuffs on", "cuff.top", "sleeve.wrist").full())
	p.Closures = append(slices.Clone(p.Closures), Closure{Name: "cuff buttons", Edge: EdgeRef{Piece: "cuff", Edge: "left"}, On: EdgeRef{Piece: "cuff", Edge: "right"}})
	return p
}

// TestClosedOnItself: each of two cuffs is buttoned to itself, not to the other.
func TestClosedOnItself(t *testing.T) {
	s, _, _ := Build(cuffed())
	closed := map[CopyID]bool{}
	for i := range s.Joins {
		j := &s.Joins[i]
		if j.Kind != Closing {
			continue
		}
		a, b := &s.Sides[j.A.Side], &s.Sides[j.B.Side]
		if a.Copy != b.Copy || a.Edge == b.Edge {
			t.Errorf("%s %d.%s is buttoned to %s %d.%s", s.Copies[a.Copy].Name, a.Copy, a.Edge, s.Copies[b.Copy].Name, b.Copy, b.Edge)
		}
		closed[a.Copy] = true
	}
	if len(closed) != 2 {
		t.Errorf("%d cuffs are buttoned, not 2", len(closed))
	}
}

// middleOf is the middle of the box round a copy as it lies.
func middleOf(n *Net, id CopyID) shape.Point {
	r := &n.of(id).ring
	return shape.Point{X: (r.low.X + r.high.X) / 2, Y: (r.low.Y + r.high.Y) / 2}
}

// TestPairsLieAsMirrorImages: what is worn on either side and is sewn to the rest of
// the garment in lines, as sleeves are, lies equally high and equally far from one
// middle, and the pair's cuffs from the same.
func TestPairsLieAsMirrorImages(t *testing.T) {
	s, _, _ := Build(cuffed())
	n := s.Net(s.Layers()[0])
	middle := map[string]float64{}
	for _, name := range []string{"sleeve", "cuff"} {
		var at []shape.Point
		for id := range s.Copies {
			if s.Copies[id].Name == name {
				at = append(at, middleOf(n, CopyID(id)))
			}
		}
		if len(at) != 2 || math.Abs(at[0].Y-at[1].Y) > 1e-6 || math.Abs(at[0].X-at[1].X) < n.Gap {
			t.Fatalf("the pair of %ss lies at %v", name, at)
		}
		middle[name] = (at[0].X + at[1].X) / 2
	}
	if math.Abs(middle["sleeve"]-middle["cuff"]) > 1e-6 {
		t.Errorf("the middles of pairs are %v", middle)
	}
}
