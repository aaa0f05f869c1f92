package trade

import (
	"math"
	"slices"
	"testing"
)

// TestFacesOfStrips: what a wearer sees of a strip, when the garment is turned inside out
// or lies before her, is its right side: the ply of it that lies farthest from the garment
// on the inside, or farthest out.
func TestFacesOfStrips(t *testing.T) {
	for _, c := range []struct {
		name string
		role Role
		down bool // the side that is seen is the lower one
	}{
		{"bias-faced-hem", Tape, true}, {"hong-kong", Tape, true}, {"bound", Tape, true}, {"faced", Facing, true},
		{"bound-edge", Tape, true}, {"double-bound-edge", Tape, true}, {"slot", Tape, true}, {"strap", Tape, false}, {"two-piece-band", ClothC, true},
	} {
		typ, ok := SeamTypeNamed(c.name)
		if !ok {
			t.Fatalf("there is no %s", c.name)
		}
		s, err := typ.Section(nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range s.Layers {
			if l.Role != c.role {
				continue
			}
			if up, ok := outermostUp(l, c.down); !ok || up == c.down {
				t.Errorf("%s: the right side of the %s that is seen is hidden (found: %v)", c.name, l.Name, ok)
			}
		}
	}
}

// outermostUp reports whether the right side of the lowest level stretch of a layer, or of
// its highest, is up.
func outermostUp(l Layer, lowest bool) (up, ok bool) {
	best := math.Inf(-1)
	for i := 1; i < len(l.Path); i++ {
		a, b := l.Path[i-1], l.Path[i]
		if math.Abs(b.X-a.X) < 3*math.Abs(b.Y-a.Y) || math.Abs(b.X-a.X) < 1 || l.Face == 0 {
			continue
		}
		y := a.Y
		if lowest {
			y = -y
		}
		if y > best {
			best, up, ok = y, b.X > a.X == (l.Face == faceLeft), true
		}
	}
	return up, ok
}

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
			if !cloth && l.Face != 0 && !slices.Contains(facedRoles, l.Role) {
				t.Errorf("%s: %q has a right side", typ.Name, l.Name)
			}
		}
	}
}
