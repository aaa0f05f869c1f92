package tabletop

import (
	"math"
	"math/rand/v2"

	"hembook/internal/shape"
)

func pt(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }

func straight(name string, x, y float64) shape.Edge { return shape.Edge{Name: name, To: pt(x, y)} }

func curve(name string, x1, y1, x2, y2, x, y float64) shape.Edge {
	return shape.Edge{Name: name, C1: pt(x1, y1), C2: pt(x2, y2), To: pt(x, y), Curved: true}
}

// Bodice, Skirt, Sleeve, Collar and Leg are made-up pieces, against the clock, of a size
// of about 1.
func Bodice() shape.Outline {
	return shape.Outline{From: pt(0, 0), Edges: []shape.Edge{
		curve("waist", 80, -6, 160, -2, 235, 12), straight("side", 262, 215),
		curve("armhole", 205, 225, 190, 300, 212, 398), straight("shoulder", 92, 440), curve("neck", 85, 385, 45, 362, 0, 360), straight("centre", 0, 0)}}
}

func Skirt() shape.Outline {
	return shape.Outline{From: pt(0, 0), Edges: []shape.Edge{
		curve("hem", 120, -2, 260, 15, 380, 48), straight("lower side", 292, 560), curve("upper side", 280, 640, 262, 700, 232, 752),
		curve("waist", 150, 736, 80, 730, 0, 730), straight("centre", 0, 0)}}
}

func Sleeve() shape.Outline {
	return shape.Outline{From: pt(-120, 0), Edges: []shape.Edge{
		curve("hem", -40, -10, 40, -10, 120, 0), straight("back", 172, 410), curve("back cap", 110, 420, 90, 545, 0, 552),
		curve("front cap", -85, 545, -110, 430, -172, 410), straight("front", -120, 0)}}
}

func Collar() shape.Outline {
	return shape.Outline{From: pt(0, 0), Edges: []shape.Edge{
		curve("neck", 120, -14, 300, -6, 420, 28), straight("end", 448, 98), curve("outer", 320, 62, 120, 66, -18, 74), straight("other end", 0, 0)}}
}

func Leg() shape.Outline {
	return shape.Outline{From: pt(0, 0), Edges: []shape.Edge{
		straight("hem", 220, 0), curve("outer leg", 250, 300, 290, 620, 262, 895), straight("waist", 45, 880),
		curve("crotch", 30, 760, 20, 690, -62, 655), curve("inner leg", -20, 400, -4, 200, 0, 0)}}
}

// Pieces are all of them.
var Pieces = []func() shape.Outline{Bodice, Skirt, Sleeve, Collar, Leg}

// Ring is the outline of a piece in short straight stretches.
func Ring(o shape.Outline) []shape.Point {
	ring, _ := o.Flatten(0.01)
	return ring
}

// Around lays so many cards round a piece, near it and none on it, anyhow.
func Around(ring []shape.Point, count int, rng *rand.Rand) (out []Placed) {
	left, right, low, top := ring[0].X, ring[0].X, ring[0].Y, ring[0].Y
	for _, p := range ring {
		left, right, low, top = min(left, p.X), max(right, p.X), min(low, p.Y), max(top, p.Y)
	}
	const off = 75
	left, right, low, top = left-off, right+off, low-off, top+off
	wide, high := right-left, top-low
	numbers := rng.Perm(10)
	for i := range count {
		s := (float64(i) + 0.3*rng.Float64()) / float64(count) * 2 * (wide + high)
		var x, y float64
		switch {
		case s < wide:
			x, y = left+s, low
		case s < wide+high:
			x, y = right, low+s-wide
		case s < 2*wide+high:
			x, y = right-(s-wide-high), top
		default:
			x, y = left, top-(s-2*wide-high)
		}
		out = append(out, Placed{Number: numbers[i] + 1, X: x, Y: y, Turn: 2 * math.Pi * rng.Float64()})
	}
	return out
}

// Random is a scene like many: which piece, how large, how the camera leans (to 35°),
// its lens, the light and the shadow of a hand follow from a seed. wide is the picture's
// longer side in pixels.
func Random(seed uint64, wide int) (*Scene, shape.Outline) {
	rng := rand.New(rand.NewPCG(seed, 1))
	o := Pieces[rng.IntN(len(Pieces))]()
	least, most := bounds(o)
	size := (0.6 + 0.4*rng.Float64()) * 900 / max(most.X-least.X, most.Y-least.Y)
	o = turned(o, min(size, 1.6), 0.3*(rng.Float64()-0.5))
	ring := Ring(o)
	tones := []struct{ paper, table Colour }{
		{Colour{0.75, 0.74, 0.7}, Colour{0.16, 0.09, 0.05}}, // white paper on dark wood
		{Colour{0.42, 0.27, 0.15}, Colour{0.72, 0.72, 0.7}}, // brown paper on a light table
		{Colour{0.7, 0.66, 0.5}, Colour{0.08, 0.1, 0.12}},   // tissue on slate
		{Colour{0.6, 0.6, 0.6}, Colour{0.2, 0.28, 0.2}},     // on a cutting mat
	}
	tone := tones[rng.IntN(len(tones))]
	s := &Scene{Piece: ring, Cards: Around(ring, 7+rng.IntN(4), rng), Paper: tone.paper, Table: tone.table, Seed: seed,
		Wide: wide, High: wide * 3 / 4, Tilt: 35 * math.Pi / 180 * rng.Float64(), From: 2 * math.Pi * rng.Float64(), Roll: 2 * math.Pi * rng.Float64(),
		F: 0.65 + 0.4*rng.Float64(), K1: 0.1 * (rng.Float64() - 0.5), K2: 0.06 * (rng.Float64() - 0.5), OffMid: 0.01 * (rng.Float64() - 0.5),
		Blur: 0.5 + 0.7*rng.Float64(), Noise: 1 + 2*rng.Float64(), Uneven: 0.35 * rng.Float64(), Quality: 80 + rng.IntN(15)}
	if rng.IntN(3) > 0 {
		s.Shadow, s.ShadowDark, s.ShadowSoft = hand(ring, rng), 0.2+0.35*rng.Float64(), 15+15*rng.Float64()
	}
	return s, o
}

// hand is the outline of a shadow that falls across an edge of the paper.
func hand(ring []shape.Point, rng *rand.Rand) (out []shape.Point) {
	at := ring[rng.IntN(len(ring))]
	for i := range 40 {
		a := float64(i) * math.Pi / 20
		r := 70 + 25*math.Sin(3*a) + 15*math.Cos(5*a)
		out = append(out, pt(at.X+r*math.Cos(a)*1.5, at.Y+r*math.Sin(a)))
	}
	return out
}

func bounds(o shape.Outline) (least, most shape.Point) {
	ring := Ring(o)
	least, most = ring[0], ring[0]
	for _, p := range ring {
		least.X, least.Y, most.X, most.Y = min(least.X, p.X), min(least.Y, p.Y), max(most.X, p.X), max(most.Y, p.Y)
	}
	return least, most
}

// turned is an outline made larger and turned about its origin.
func turned(o shape.Outline, by, angle float64) shape.Outline {
	s, c := math.Sincos(angle)
	move := func(p shape.Point) shape.Point { return pt(by*(c*p.X-s*p.Y), by*(s*p.X+c*p.Y)) }
	out := shape.Outline{From: move(o.From)}
	for _, e := range o.Edges {
		e.To, e.C1, e.C2 = move(e.To), move(e.C1), move(e.C2)
		out.Edges = append(out.Edges, e)
	}
	return out
}
