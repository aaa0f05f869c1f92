package trade

import (
	"maps"
	"testing"
)

// TestStacks: what lies on each other by role, as one counts it in the drawing.
func TestStacks(t *testing.T) {
	for _, c := range []struct {
		name string
		want []Stack
	}{
		// Pressed open, each side lies on its own allowance.
		{"plain", []Stack{{ClothA: 2}, {ClothB: 2}}},
		// Pressed to side a, both allowances lie under it.
		{"plain-to-one-side", []Stack{{ClothA: 2, ClothB: 1}}},
		// Each raw edge of an open seam turned under: three of its own side.
		{"turned-and-stitched", []Stack{{ClothA: 3}, {ClothB: 3}}},
		{"lapped-raw", []Stack{{ClothA: 1, ClothB: 1}}},
	} {
		s, ok := SeamTypeNamed(c.name)
		if !ok {
			t.Fatal(c.name)
		}
		got := s.Stacks()
		same := len(got) == len(c.want)
		for i := range got {
			same = same && maps.Equal(got[i], c.want[i])
		}
		if !same {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// Of every type the deepest stack is as many plies as the type says, and as the other
	// count through its drawing finds.
	for _, s := range SeamTypes() {
		most := 0
		for _, stack := range s.Stacks() {
			n := 0
			for _, k := range stack {
				n += k
			}
			most = max(most, n)
		}
		if most != s.Plies {
			t.Errorf("%s: %d plies in its deepest stack, and the type says %d", s.Name, most, s.Plies)
		}
	}
}
