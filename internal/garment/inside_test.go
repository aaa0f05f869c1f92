package garment

import (
	"slices"
	"testing"

	"hembook/internal/sewn"
)

// TestFacingsLieWithLinings: a facing that is sewn to a lining, or ends where one goes on,
// lies in its layer; one of an unlined edge, and the shell it is turned behind, stay.
func TestFacingsLieWithLinings(t *testing.T) {
	piece := func(name, layer string, behind bool) sewn.Piece {
		return sewn.Piece{Name: name, Layers: []string{layer}, Behind: behind}
	}
	refs := func(pieces ...string) (out []sewn.EdgeRef) {
		for _, name := range pieces {
			out = append(out, sewn.EdgeRef{Piece: name, Edge: "edge"})
		}
		return out
	}
	p := sewn.Plan{
		Pieces: []sewn.Piece{
			piece("front", outerLayer, false), piece("facing", outerLayer, true), piece("back neck facing", outerLayer, true),
			piece("hem facing", outerLayer, true), piece("front lining", "lining", true), piece("back lining", "lining", true),
		},
		Seams: []sewn.Seam{
			{Sides: [][]sewn.EdgeRef{refs("facing"), refs("back neck facing")}}, // before either is known to lie inside
			{Sides: [][]sewn.EdgeRef{refs("front"), refs("facing")}},
			{Sides: [][]sewn.EdgeRef{refs("front lining", "facing"), refs("front")}},
			{Sides: [][]sewn.EdgeRef{refs("front"), refs("hem facing")}},
		},
	}
	faceLinings(&p)
	want := map[string]string{
		"front": outerLayer, "facing": "lining", "back neck facing": "lining",
		"hem facing": outerLayer, "front lining": "lining", "back lining": "lining",
	}
	for _, q := range p.Pieces {
		if !slices.Equal(q.Layers, []string{want[q.Name]}) {
			t.Errorf("%s lies in %q, want %q", q.Name, q.Layers, want[q.Name])
		}
	}
	bare := sewn.Plan{Pieces: []sewn.Piece{piece("front", outerLayer, false), piece("facing", outerLayer, true)}, Seams: p.Seams[1:2]}
	if faceLinings(&bare); bare.Pieces[1].Layers[0] != outerLayer {
		t.Error("a facing of a garment without a lining left the outer layer")
	}
}
