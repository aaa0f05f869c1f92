package trade

import "testing"

// TestFaces: the right side of a hem that is turned twice is up on the garment, down on
// the ply that was turned first, and up again on the one turned in between them.
func TestFaces(t *testing.T) {
	hem, ok := SeamTypeNamed("double-turned-hem")
	if !ok {
		t.Fatal("there is no such finish")
	}
	params, err := hem.Values(Params{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := hem.Section(params)
	if err != nil {
		t.Fatal(err)
	}
	var up []bool // of each level stretch of the ply, as one goes along it
	l := s.Layers[0]
	for i := 1; i < len(l.Path); i++ {
		along := l.Path[i].X - l.Path[i-1].X
		if long := along; long*long < 25 { // a fold
			continue
		}
		up = append(up, along > 0 == (l.Face == faceLeft))
	}
	if len(up) != 3 || !up[0] || up[1] || !up[2] {
		t.Errorf("the right side is up: %v, want up, down, up; the path is %v", up, l.Path)
	}
	for _, typ := range SeamTypes() {
		given, err := typ.Values(Params{})
		if err != nil {
			continue
		}
		s, err := typ.Section(given)
		if err != nil {
			continue
		}
		for _, l := range s.Layers {
			cloth := l.Role == ClothA || l.Role == ClothB
			if cloth && (l.Start == GoesOn || l.End == GoesOn) && l.Face == 0 {
				t.Errorf("%s: nothing says which side of %q is the right one", typ.Name, l.Name)
			}
			if !cloth && l.Face != 0 {
				t.Errorf("%s: %q has a right side", typ.Name, l.Name)
			}
		}
	}
}
