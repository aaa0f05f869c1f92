package camera

import (
	"math"
	"math/rand/v2"
	"testing"

	"hembook/internal/shape"
)

// seen is where a point is seen, worked out a second time: turned about x by tilt, about
// the line of sight by turn, so far away, through a lens as the sum says.
func seen(l Lens, tilt, turn, far float64, p shape.Point) shape.Point {
	st, ct := math.Sincos(tilt)
	sr, cr := math.Sincos(turn)
	x, y := cr*p.X+sr*p.Y, sr*p.X-cr*p.Y // y down
	y, z := y*ct, y*st+far
	x, y = x/z, y/z
	r := x*x + y*y
	k := 1 + l.K1*r + l.K2*r*r
	return shape.Point{X: l.CX + l.F*k*x, Y: l.CY + l.F*k*y}
}

// TestViewSeesAndSeesBack: what is seen lies where it was, at any place of the picture.
func TestViewSeesAndSeesBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		v := View{Lens{F: 900 + 600*rng.Float64(), CX: 600, CY: 500, K1: 0.2 * (rng.Float64() - 0.5), K2: 0.1 * (rng.Float64() - 0.5)},
			Pose{R: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, T: [3]float64{20, -30, 1000}}}
		v.Pose = v.turnedBy([3]float64{rng.Float64() - 0.5, rng.Float64() - 0.5, 6 * rng.Float64()})
		at := shape.Point{X: 1200 * rng.Float64(), Y: 1000 * rng.Float64()}
		p, ok := v.OnPlane(at)
		if !ok {
			t.Fatalf("%v: the plane fills the picture", v)
		}
		back, ok := v.See(p)
		if !ok || math.Hypot(back.X-at.X, back.Y-at.Y) > 1e-6 {
			t.Fatalf("%v: %v is on the plane at %v, which is seen at %v", v, at, p, back)
		}
	}
}

// made are bodies of a square's corners on the plane, seen by a camera.
func made(l Lens, tilt, turn, far float64, lies []Lie, noise float64, rng *rand.Rand) Survey {
	s := Survey{Photos: []Photo{{Wide: int(2 * l.CX), High: int(2 * l.CY)}}}
	for i, lie := range lies {
		b := Body{Points: []shape.Point{{X: -40, Y: -15}, {X: 40, Y: -15}, {X: 40, Y: 15}, {X: -40, Y: 15}}}
		o := Sighting{Body: i}
		for _, p := range b.Points {
			at := seen(l, tilt, turn, far, lie.At(p))
			o.Seen = append(o.Seen, shape.Point{X: at.X + noise*rng.NormFloat64(), Y: at.Y + noise*rng.NormFloat64()})
		}
		s.Bodies, s.Sightings = append(s.Bodies, b), append(s.Sightings, o)
	}
	return s
}

var spread = []Lie{{}, {400, 20, 0.4}, {810, -30, 2}, {820, 300, -1}, {790, 640, 3}, {380, 700, 0.2}, {-20, 660, -2}, {-40, 330, 1.2}}

// TestAdjustFindsLies: bodies seen without noise are found where they lie, from above and
// leaning, through a straight lens and a bent one.
func TestAdjustFindsLies(t *testing.T) {
	for _, c := range []struct{ tilt, turn, k1, k2 float64 }{{0, 0, 0, 0}, {0.6, 0.3, 0, 0}, {-0.6, 2.5, -0.05, 0.03}, {0.3, -3, 0.08, -0.04}, {0.02, 1.5, -0.08, 0.02}} {
		l := Lens{F: 3100, CX: 2000, CY: 1500, K1: c.k1, K2: c.k2}
		found, err := Adjust(made(l, c.tilt, c.turn, 1100, spread, 0, rand.New(rand.NewPCG(1, 1))))
		if err != nil {
			t.Fatal(err)
		}
		for i, lie := range spread {
			if off := math.Hypot(found.Lies[i].X-lie.X, found.Lies[i].Y-lie.Y); off > 0.15 {
				t.Errorf("%+v: body %d lies %.3f mm off; lens %+v", c, i, off, found.Views[0].Lens)
			}
		}
	}
}

// TestAdjustHeedsTheTape: bodies printed 2 % too small are found as large as a measured
// distance says.
func TestAdjustHeedsTheTape(t *testing.T) {
	l := Lens{F: 3100, CX: 2000, CY: 1500}
	s := made(l, 0.3, 0.3, 1100, spread, 0.05, rand.New(rand.NewPCG(3, 4)))
	for i := range s.Bodies {
		for k := range s.Bodies[i].Points {
			p := &s.Bodies[i].Points[k]
			p.X, p.Y = p.X/0.98, p.Y/0.98
		}
	}
	s.Loose = 0.02
	s.Distances = []Distance{{0, 4, math.Hypot(790, 640)}}
	found, err := Adjust(s)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(found.Scale-0.98) > 0.001 {
		t.Errorf("the print is found to be %.4f of what it should be, not 0.98", found.Scale)
	}
	if got := math.Hypot(found.Lies[2].X, found.Lies[2].Y); math.Abs(got-math.Hypot(810, 30)) > 0.6 {
		t.Errorf("another distance is %.2f mm, not %.2f", got, math.Hypot(810, 30))
	}
}

// TestAdjustTellsWhatIsLifted: the body that does not lie flat is off more than all others.
func TestAdjustTellsWhatIsLifted(t *testing.T) {
	l := Lens{F: 3100, CX: 2000, CY: 1500}
	s := made(l, 0.3, 0.3, 1100, spread, 0.05, rand.New(rand.NewPCG(3, 4)))
	lifted := made(l, 0.36, 0.3, 1070, spread, 0, rand.New(rand.NewPCG(3, 4)))
	s.Sightings[5] = lifted.Sightings[5]
	found, err := Adjust(s)
	if err != nil {
		t.Fatal(err)
	}
	for i, off := range found.Off {
		if i != 5 && off > found.Off[5] {
			t.Errorf("body %d is off by %.2f pixels, the lifted one by %.2f", i, off, found.Off[5])
		}
	}
}
