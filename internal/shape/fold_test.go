package shape

import (
	"math"
	"testing"
)

// The hem of the panel of flared(), 40 mm turned twice: 20 and 20, then 30 and
// 10. Its sides lean at 45°, so that it is as much narrower as it is higher.
func TestFoldedCorners(t *testing.T) {
	o, allow := flared()
	side := 10 * math.Sqrt2
	top := []Point{{300 + side, 100}, {100 - side, 100}}
	double := cutOf(t, o, allow, []Corner{Folded(20, 20), Mitre, Mitre, Mitre})
	sameRing(t, "turned twice alike", double.Ring, Point{-side, -40}, Point{400 + side, -40}, Point{380 + side, -20}, Point{400 + side, 0},
		top[0], top[1], Point{-side, 0}, Point{20 - side, -20})
	in := cutOf(t, o, allow, []Corner{Folded(30, 10), Mitre, Mitre, Mitre})
	sameRing(t, "turned in", in.Ring, Point{20 - side, -40}, Point{380 + side, -40}, Point{370 + side, -30}, Point{400 + side, 0},
		top[0], top[1], Point{-side, 0}, Point{30 - side, -30})
	up := cutOf(t, o, allow, []Corner{Folded(15, 15, 10), Mitre, Mitre, Mitre})
	sameRing(t, "turned up", up.Ring, Point{10 - side, -40}, Point{390 + side, -40}, Point{400 + side, -30}, Point{385 + side, -15}, Point{400 + side, 0},
		top[0], top[1], Point{-side, 0}, Point{15 - side, -15}, Point{-side, -30})
	once := cutOf(t, o, allow, []Corner{Folded(40), Mitre, Mitre, Mitre})
	mirror := cutOf(t, o, allow, []Corner{Mirror, Mitre, Mitre, Mitre})
	sameRing(t, "turned once", once.Ring, mirror.Ring...)
	near(t, "area of the hem turned twice", double.AllowanceArea-mirror.AllowanceArea, 40*40-2*20*20, 0.1)

	back := cutOf(t, o.Reversed(), backward(allow), []Corner{Mitre, Mitre, Mitre, Folded(30, 10)})
	near(t, "the same run the other way", back.Area, in.Area, 1e-9)
}

// A leg that widens from 260 to 400 mm over 500 mm, with a hem of 60: turned
// once it is cut at its raw edge as wide as the leg is 60 mm above the hem, 276.8;
// turned twice by 30, as wide as at the hem line.
func TestLegHem(t *testing.T) {
	leg := Outline{Edges: []Edge{{Name: "hem", To: Point{260, 0}}, {Name: "right", To: Point{330, 500}}, {Name: "top", To: Point{-70, 500}}, {Name: "left", To: Point{0, 0}}}}
	for _, c := range []struct {
		corner Corner
		want   float64
	}{{Mirror, 276.8}, {Folded(30, 30), 260}, {Square, 260}, {Mitre, 243.2}} {
		cut := cutOf(t, leg, []float64{60, 0, 0, 0}, []Corner{c.corner, Mitre, Mitre, Mitre})
		least, most := math.Inf(1), math.Inf(-1)
		for _, p := range cut.Ring {
			if p.Y < -59.9 {
				least, most = min(least, p.X), max(most, p.X)
			}
		}
		near(t, "raw edge", most-least, c.want, 1e-6)
	}
}

// TestFoldedLiesOnThePiece folds the allowance of a slanting side up at each
// fold in turn, and looks whether every corner of its end comes to lie on the
// line of the side.
func TestFoldedLiesOnThePiece(t *testing.T) {
	for _, slant := range []float64{-25, -10, -2, 3, 12, 30} {
		lean := 500 * math.Tan(slant*math.Pi/180)
		o := Outline{Edges: []Edge{{Name: "hem", To: Point{600, 0}}, {Name: "right", To: Point{600 + lean, 500}}, {Name: "top", To: Point{-lean, 500}}, {Name: "left", To: Point{0, 0}}}}
		for _, turns := range [][]float64{{30}, {30, 30}, {40, 6}, {40, 40, 25}} {
			sum := 0.0
			for _, d := range turns {
				sum += d
			}
			cut := cutOf(t, o, []float64{sum, 12, 10, 12}, []Corner{Folded(turns...), Mitre, Mitre, Mitre})
			folded := 0
			for _, p := range cut.Ring {
				if p.Y > -0.1 {
					continue
				}
				folded++
				for i, crease := len(turns)-1, sum; i >= 0; i-- { // the last fold is folded first
					crease -= turns[i]
					if -p.Y > crease {
						p.Y = -2*crease - p.Y
					}
				}
				// the cut line of the side on the right, 12 mm out
				want := 600 + p.Y*lean/500 + 12/math.Cos(slant*math.Pi/180)
				if p.X < 300 {
					p.X = 600 - p.X
				}
				near(t, "corner of a fold", p.X, want, 1e-3)
			}
			if folded != 2*len(turns) {
				t.Errorf("slant %v, %v: %d corners below the hem", slant, turns, folded)
			}
		}
	}
}
