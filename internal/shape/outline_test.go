package shape

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.6f, want %.6f within %g", what, got, want, tol)
	}
}

func must(t testing.TB, o Outline, err error) Outline {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func rectangle(t testing.TB, x, y float64) Outline {
	t.Helper()
	o, err := Rectangle(x, y)
	return must(t, o, err)
}

func TestRectangleMeasures(t *testing.T) {
	o := rectangle(t, 200, 300)
	near(t, "area", o.Area(), 60000, 0)
	near(t, "perimeter", o.Perimeter(), 1000, 0)
	least, most := o.Bounds()
	if least != (Point{0, 0}) || most != (Point{200, 300}) {
		t.Errorf("bounds: got %v to %v", least, most)
	}
}

// The ring skirt values W 700, L 740 follow from the geometry of the circle.
func TestRingSkirtPanel(t *testing.T) {
	s, err := NewRingSkirt(1.25, 700, 740, 4)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radius", s.InnerRadius, 89.127, 0.0005)
	near(t, "hem", s.Hem, 6511.95, 0.005)
	near(t, "area", s.Area/1e6, 2.6684, 0.00005)
	near(t, "drawn area", 4*s.Panel.Area(), s.Area, 0.01)
	hem, _ := s.Panel.LengthOf("hem")
	waist, _ := s.Panel.LengthOf("waist")
	near(t, "drawn hem", 4*hem, s.Hem, 0.01)
	near(t, "drawn waist", 4*waist, 700, 0.01)
}

// TestSideOfTwo: of two edges of one name that lie apart, Side gives the one
// that leads in Sides, wherever the outline begins.
func TestSideOfTwo(t *testing.T) {
	names := []string{"hem", "side", "hem", "hem", "top", "hem"} // 5 and 0 are one
	o := Outline{}
	for i, name := range names {
		o.Edges = append(o.Edges, Edge{Name: name, To: Point{float64(i * i), float64(i)}})
	}
	o.From = o.Edges[len(names)-1].To
	for turn := range names {
		turned := Outline{From: o.Start(turn), Edges: append(append([]Edge{}, o.Edges[turn:]...), o.Edges[:turn]...)}
		for _, name := range []string{"hem", "side", "top", "none"} {
			var want NamedEdge
			for _, s := range turned.Sides() {
				if s.Name == name {
					want = s
					break
				}
			}
			if got, ok := turned.Side(name); got != want || ok != (want.Count > 0) {
				t.Errorf("turned by %d, %s: %+v, Sides gives %+v", turn, name, got, want)
			}
		}
	}
}
