package derive

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A piece whose side runs from [180, 0] at the waist to [240, 80] at the top, 100
// long, drawn either way round.
var sided = [2]string{`
cloth: {shell: linen}
pieces:
  front:
    outline: {waist: [180, 0], side: [240, 80], top: [0, 80], centre: [0, 0]}
    levels: {hip: 20}
    notches: {side: [{at: 35, name: rib}, {at: PLACE, name: here}]}
`, `
cloth: {shell: linen}
pieces:
  front:
    outline: {centre: [0, 80], top: [240, 80], side: [180, 0], waist: [0, 0]}
    levels: {hip: 20}
    notches: {side: [{at: 65, name: rib}, {at: PLACE, name: here}]}
`}

// notchNamed is how far along its edge, as the outline runs, a notch lies.
func notchNamed(t *testing.T, g *Garment, name string) float64 {
	t.Helper()
	for _, n := range g.Pieces[0].NotchesAlong() {
		if n.Name == name {
			return n.Along
		}
	}
	t.Fatalf("there is no notch %q", name)
	return 0
}

// TestPlacesOnAnEdge: the same words lie at the same place whichever way round the
// outline was drawn; by hand.
func TestPlacesOnAnEdge(t *testing.T) {
	desk := roomWith(t).desk()
	for _, c := range []struct {
		place string
		along float64 // from the waist
	}{
		{"30 from waist", 30}, {"30 from top", 70}, {"middle", 50}, {"rib", 35}, {"waist", 0}, {"top", 100},
		{"hip", 25}, // 20 up of 80, so a quarter of the way
		{"3 cm from waist", 30}, {"0 from top", 100},
	} {
		for way, text := range sided {
			g, faults := desk.derive(t, head+strings.Replace(text, "PLACE", c.place, 1))
			for _, f := range append(faults, g.Faults...) {
				t.Errorf("%s: %s", c.place, f)
			}
			if got := notchNamed(t, g, "here"); math.Abs(got-c.along) > 1e-6 {
				t.Errorf("%s, drawn way %d: %v along, want %v", c.place, way, got, c.along)
			}
		}
	}
	for way, along := range [2]float64{45, 25} { // on from a notch the way the edge was drawn
		g, _ := desk.derive(t, head+strings.Replace(sided[way], "PLACE", "10 from rib", 1))
		if got := notchNamed(t, g, "here"); math.Abs(got-along) > 1e-6 {
			t.Errorf("10 from a notch, way %d: %v, want %v", way, got, along)
		}
	}
}

// TestPlacesAfterAFitting: what is measured from the end that a fitting moved goes
// with it, what is measured from the other end stays.
func TestPlacesAfterAFitting(t *testing.T) {
	desk := roomWith(t).desk()
	for _, c := range []struct {
		place string
		along float64
	}{{"30 from waist", 30}, {"30 from top", 95}, {"middle", 62.5}, {"30", 30}} {
		text := strings.Replace(sided[0], "PLACE", c.place, 1)
		// The top is moved up by 20: the side, which goes on its own way, is 125 long.
		text += "fittings: [{day: 2026-08-09, saw: too short, change: {front.top: 20}}]\n"
		g, faults := desk.derive(t, head+text)
		for _, f := range append(faults, g.Faults...) {
			t.Errorf("%s: %s", c.place, f)
		}
		if got := notchNamed(t, g, "here"); math.Abs(got-c.along) > 1e-6 {
			t.Errorf("%s: %v along, want %v", c.place, got, c.along)
		}
	}
}

// TestDartsByPlace: a dart at a place is the dart at so many millimetres.
func TestDartsByPlace(t *testing.T) {
	desk := roomWith(t).desk()
	dart := func(at string) *Garment {
		g, _ := desk.derive(t, head+strings.Replace(sided[0], "notches: {side: [{at: 35, name: rib}, {at: PLACE, name: here}]}",
			fmt.Sprintf("darts: {side: {at: %s, width: 10, length: 40}}", at), 1))
		return g
	}
	want := dart("70")
	if len(want.Pieces[0].Darts) != 1 {
		t.Fatal("there is no dart")
	}
	for _, at := range []string{"30 from top", "70 from waist"} {
		g := dart(at)
		if len(g.Pieces[0].Darts) != 1 || g.Pieces[0].Darts[0].Plan != want.Pieces[0].Darts[0].Plan {
			t.Errorf("%s: %+v, want %+v", at, g.Pieces[0].Darts, want.Pieces[0].Darts)
		}
	}
}
