package shape

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"
)

func symmetricDifference(a, b Ring) (float64, error) {
	g, err := geom.SymmetricDifference(polygon(a), polygon(b))
	return g.Area(), err
}

// starOutline draws a random piece around the origin: edges between points
// at rising angles and random distances, some of them curved, so that it
// has inward corners, sharp points and narrow notches.
func starOutline(t *rapid.T, curves bool) Outline {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	var p []Point
	for k := range n {
		turn := (float64(k) + rapid.Float64Range(0.05, 0.95).Draw(t, "angle")) / float64(n)
		far := rapid.Float64Range(20, 600).Draw(t, "far")
		sin, cos := math.Sincos(2 * math.Pi * turn)
		p = append(p, snap(Point{far * cos, far * sin}))
	}
	o := Outline{From: p[0]}
	for k := range n {
		a, b := p[k], p[(k+1)%n]
		e := Edge{Name: string(rune('a' + k)), To: b}
		if curves && rapid.Bool().Draw(t, "curved") {
			bulge := func(s string) Point {
				out := b.Sub(a).right().times(rapid.Float64Range(-0.4, 0.4).Draw(t, s))
				return out
			}
			e.Curved = true
			e.C1, e.C2 = snap(lerp(a, b, 0.3).Add(bulge("c1"))), snap(lerp(a, b, 0.7).Add(bulge("c2")))
		}
		o.Edges = append(o.Edges, e)
	}
	return o
}

func drawAllowances(t *rapid.T, n int) []float64 {
	list := make([]float64, n)
	for k := range list {
		list[k] = rapid.SampledFrom([]float64{0, 3, 6, 10, 15, 15, 25, 40}).Draw(t, "allowance")
	}
	return list
}

// someCorners are the ways an allowance may end.
var someCorners = []Corner{Mitre, Square, Mirror, Folded(15, 15), Folded(30, 8), Folded(20, 20, 12)}

func drawCorners(t *rapid.T, n int) []Corner {
	if rapid.Bool().Draw(t, "mitres only") {
		return nil
	}
	list := make([]Corner, n)
	for k := range list {
		list[k] = rapid.SampledFrom(someCorners).Draw(t, "corner")
	}
	return list
}

func TestOffsetAgreesWithUnion(t *testing.T) {
	for _, curves := range []bool{false, true} {
		tried, direct := 0, 0
		rapid.Check(t, func(t *rapid.T) {
			o := starOutline(t, curves)
			if len(o.Flaws()) > 0 {
				return
			}
			allow := drawAllowances(t, len(o.Edges))
			if _, ok := o.border(allow, nil); !ok {
				return // touches itself by less than the curves' tolerance
			}
			corners := drawCorners(t, len(o.Edges))
			if rapid.IntRange(0, 3).Draw(t, "fold") == 0 && !o.Edges[0].Curved {
				o.Edges[0].Fold = true
				o.Edges[0].Fold = len(o.Flaws()) == 0
			}
			tried++
			if bothWays(t, o, allow, corners) {
				direct++
			}
		})
		t.Logf("curves %v: %d of %d proved directly", curves, direct, tried)
	}
}

// Of both ways that the test above compares there is an outline that goes it:
// a square is offset edge by edge, a slot narrower than twice its allowance
// is not, since what is cut would fold over itself.
func TestWhichWayIsCut(t *testing.T) {
	square := path(Point{0, 0}, Point{100, 0}, Point{100, 100}, Point{0, 100})
	if !bothWays(t, square, []float64{15, 15, 15, 15}, nil) {
		t.Error("a square goes the long way")
	}
	slot := path(Point{0, 0}, Point{100, 0}, Point{100, 100}, Point{55, 100}, Point{55, 40}, Point{45, 40}, Point{45, 100}, Point{0, 100})
	if bothWays(t, slot, []float64{15, 15, 15, 15, 15, 15, 15, 15}, nil) {
		t.Error("a slot of 10 mm with 15 mm on both its sides goes the direct way")
	}
}

// A curve as tight as its allowance beside a raw edge: found by the test
// above when strips still ended square at the joints of a curve.
func TestTightCurveBesideRawEdge(t *testing.T) {
	o := path(Point{13.158775, 15.061429}, Point{-3.571138, 19.678592}, Point{-17.611911, 9.477373},
		Point{-29.424889, -12.576801}, Point{-15.63663, -12.469796}, Point{38.206041, -52.586105}, Point{19.979861, -0.897297})
	o.Edges[0].Fold = true
	curve := func(i int, c1, c2 Point) { o.Edges[i].Curved, o.Edges[i].C1, o.Edges[i].C2 = true, c1, c2 }
	curve(4, Point{5.53071, -17.774355}, Point{21.974888, -40.656374})
	curve(6, Point{24.317026, 6.618755}, Point{21.588591, 13.002246})
	bothWays(t, o, []float64{0, 0, 0, 0, 40, 0, 0}, nil)
}
