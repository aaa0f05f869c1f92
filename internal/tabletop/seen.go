package tabletop

import (
	"math"
	"slices"

	"hembook/internal/card"
	"hembook/internal/shape"
)

// aim puts the camera where all that lies on the table fills the picture.
func (s *Scene) aim() {
	var all []shape.Point
	for _, c := range s.Cards {
		for _, q := range card.Corners() {
			all = append(all, shape.Point{X: c.X + 1.35*math.Hypot(q.X, q.Y)*math.Copysign(1, q.X), Y: c.Y + 1.35*math.Hypot(q.X, q.Y)*math.Copysign(1, q.Y)})
		}
	}
	all = append(all, s.Piece...)
	left, right, low, top := all[0].X, all[0].X, all[0].Y, all[0].Y
	for _, p := range all {
		left, right, low, top = min(left, p.X), max(right, p.X), min(low, p.Y), max(top, p.Y)
	}
	s.fromX, s.fromY = (left+right)/2, (low+top)/2
	s.focal = s.F * float64(max(s.Wide, s.High))
	s.rot = turns(s.Tilt, s.From, s.Roll)
	fill := s.Fill
	if fill == 0 {
		fill = 0.9
	}
	s.distance = 200
	for s.distance < 20000 && slices.ContainsFunc(all, func(p shape.Point) bool {
		at, ok := s.See(p)
		return !ok || math.Abs(at.X/float64(s.Wide)-0.5) > fill/2 || math.Abs(at.Y/float64(s.High)-0.5) > fill/2
	}) {
		s.distance *= 1.01
	}
}

// turns is the camera rolled, then leaning by tilt about the axis at from.
func turns(tilt, from, roll float64) (m [9]float64) {
	sr, cr := math.Sincos(roll)
	x, y := math.Cos(from), math.Sin(from)
	s, c := math.Sincos(tilt)
	lean := [9]float64{c + x*x*(1-c), x * y * (1 - c), y * s, x * y * (1 - c), c + y*y*(1-c), -x * s, -y * s, x * s, c}
	spin := [9]float64{cr, -sr, 0, sr, cr, 0, 0, 0, 1}
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				m[3*i+j] += lean[3*i+k] * spin[3*k+j]
			}
		}
	}
	return m
}

// See is where a place of the table is seen, once the picture is taken.
func (s *Scene) See(p shape.Point) (shape.Point, bool) {
	x, y := p.X-s.fromX, s.fromY-p.Y
	r := s.rot
	u, v, w := r[0]*x+r[1]*y, r[3]*x+r[4]*y, r[6]*x+r[7]*y+s.distance
	if w < 10 {
		return shape.Point{}, false
	}
	u, v = u/w, v/w
	q := u*u + v*v
	k := s.focal * (1 + s.K1*q + s.K2*q*q)
	mx, my := s.middle()
	return shape.Point{X: mx + k*u, Y: my + k*v}, true
}

func (s *Scene) middle() (x, y float64) {
	return float64(s.Wide) * (0.5 + s.OffMid), float64(s.High) * (0.5 - s.OffMid)
}

// back is which place of the table is seen at a place of the picture.
func (s *Scene) back(px, py float64) (x, y float64) {
	mx, my := s.middle()
	du, dv := (px-mx)/s.focal, (py-my)/s.focal
	u, v := du, dv
	for was := math.Inf(1); math.Abs(u-was) > 1e-9; { // a fixed point: the bend of such lenses is small
		q := u*u + v*v
		k := 1 + s.K1*q + s.K2*q*q
		was = u
		u, v = du/k, dv/k
	}
	r := s.rot
	// (u, v, 1) times far is turned (x, y, 0) with the distance added: solve for x, y.
	a, b, e := r[0]-u*r[6], r[1]-u*r[7], u*s.distance
	c, d, f := r[3]-v*r[6], r[4]-v*r[7], v*s.distance
	det := a*d - b*c
	x, y = (e*d-b*f)/det, (a*f-e*c)/det
	return x + s.fromX, s.fromY - y
}
